#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/course/grade.hpp>
#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// A class, marked.
struct MarkedClass {
  std::span<const Graded> graded;
  std::span<const std::string> without_record;  ///< exercises of which nobody handed in a record
};

/// The class as a table for the terminal; with `feedback` what each student can learn, below it.
std::string class_page(const MarkedClass& marked, bool feedback, const Sentences& say, const PageStyle& style);

/// The class for a spreadsheet: comma-separated (RFC 4180). A cell that a spreadsheet would take for a formula gets an
/// apostrophe before it, whatever name a student chose.
std::string class_csv(std::span<const Graded> graded);

/// One line of such a table.
std::string csv_row(const std::vector<std::string>& cells);

/// A whole HTML page: totals and marks as bars, the table, and what each student can learn.
std::string class_html(const MarkedClass& marked, const MarkWeights& weights, const Sentences& say,
                       std::string_view made_with);

}  // namespace ohmwright::course
