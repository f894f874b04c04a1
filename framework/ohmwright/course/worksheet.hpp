#pragma once

#include <string>
#include <string_view>

#include <ohmwright/course/lesson.hpp>
#include <ohmwright/course/paper_page.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright::course {

/// An exercise on paper: complaint, cautions, test points, set-ups and looks, circuit, a table to fill in, questions.
/// Prints in A4 and Letter, black on white. `drawing` is the circuit as SVG without a list of its test points; empty:
/// there is none.
std::string worksheet_html(const Exercise& exercise, std::string_view drawing, const WorksheetStyle& style,
                           const Sentences& say);

/// One slip for each test point, to be cut out, folded along its line and closed: what is measured stays in view, what
/// the meter shows is covered. Last a table, for whoever answers what is looked at.
std::string slips_html(const Exercise& exercise, const WorksheetStyle& style, const Sentences& say);

/// For the instructor: what is wrong, and every reading.
std::string answer_sheet_html(const MadeExercise& made, const WorksheetStyle& style, const Sentences& say);

}  // namespace ohmwright::course
