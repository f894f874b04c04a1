#pragma once

#include <string>
#include <string_view>

#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// How a worksheet is printed.
struct WorksheetStyle {
  bool large = false;  ///< type of 16 points in place of 11
};

/// A page to be printed in A4 or Letter, black on white, that loads nothing from anywhere. `body` is HTML.
std::string paper_page(std::string_view title, std::string_view body, const WorksheetStyle& style);

/// A circuit (SVG) on one page, upright or across by the drawing's own shape, as large as fits there.
std::string circuit_on_a_page(std::string_view drawing, const Sentences& say);

}  // namespace ohmwright::course
