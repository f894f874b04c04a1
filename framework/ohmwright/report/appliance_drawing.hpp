#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/report/sentences.hpp>

namespace ohmwright {

/// How a part is marked in a drawing: never by its colour alone.
struct PartMark {
  std::string colour;  ///< "#rrggbb", of its box
  std::string word;    ///< "possible, 31 %"
};

/// By part of the appliance; empty: none is marked.
using PartMarks = std::vector<std::optional<PartMark>>;

/// Marks for the probabilities that each part has a fault [0…1], as a search gives them (`Diagnosis::parts`): what is
/// at fault, what is possible, what is unlikely.
PartMarks marks_of(std::span<const double> probabilities, const Sentences& say);

/// Whether a drawing lists its test points below the circuit; a page may have a list of its own.
enum class TestPointList { below, left_out };

/// What the numbers of a drawing stand for, in their order: "1 Ω Between line and neutral pin of the mains plug".
std::vector<std::string> test_point_lines(const Appliance& appliance);

/// The circuit for Graphviz: parts as boxes, what joins them as small ones, nodes with the numbers of the test points
/// that touch there, and a list of the test points unless it is left out.
///
/// It holds our own words and numbers only; every text of the file stands in double quotes, escaped, its control
/// characters gone. No HTML labels, links or images.
std::string drawing_script(const Appliance& appliance, const PartMarks& marks, const Sentences& say,
                           TestPointList list = TestPointList::below);

/// The circuit as SVG; empty where Graphviz is not installed or fails.
std::optional<std::string> appliance_drawing(const Appliance& appliance, const PartMarks& marks, const Sentences& say,
                                             TestPointList list = TestPointList::below);

}  // namespace ohmwright
