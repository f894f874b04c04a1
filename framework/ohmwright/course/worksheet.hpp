#pragma once

#include <string>
#include <string_view>

#include <ohmwright/course/lesson.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// How a worksheet is printed.
struct WorksheetStyle {
  bool large = false;  ///< type of 16 points in place of 11
};

/// An exercise on paper: complaint, circuit, cautions, a table to fill in, questions. Prints in A4 and Letter, black on
/// white. `drawing` is the circuit as SVG; empty: there is none, and the page says so.
std::string worksheet_html(const Exercise& exercise, std::string_view drawing, const WorksheetStyle& style,
                           const Sentences& say);

/// One slip for each test point, to be cut out, folded along its line and closed: what is measured stands outside, what
/// the meter shows inside.
std::string slips_html(const Exercise& exercise, const WorksheetStyle& style, const Sentences& say);

/// For the instructor: what is wrong, and every reading.
std::string answer_sheet_html(const MadeExercise& made, const WorksheetStyle& style, const Sentences& say);

}  // namespace ohmwright::course
