// Reads any bytes as a formula of a kind file. What is accepted has a value and slopes at every place, be they no
// numbers, and reads the same again; what is refused is told with its place, in text that a terminal takes.
#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string_view>

#include "document_fuzz.hpp"
#include "formula/formula_reader.hpp"

namespace {

using namespace ohmwright;
using namespace ohmwright::kind_file;

constexpr std::array<FormulaName, 6> names{{{"voltage", Dimension::voltage, false, 0},
                                            {"power", Dimension::power, false, 1},
                                            {"rated-current", Dimension::current, false, 2},
                                            {"share", Dimension::ratio, false, 3},
                                            {"part_temperature", Dimension::temperature, true, 0},
                                            {"line_voltage", Dimension::voltage, true, 1}}};

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const ReadFormula read = read_formula(text, names);
  fuzz::require(read.formula.has_value() == read.refusal.empty());
  if (!read.formula) {
    fuzz::require_printable(read.refusal);
    fuzz::require(read.refusal.starts_with("character "));
    return 0;
  }
  const std::array<std::optional<double>, 4> ratings{120.0, 450.0, 3.75, 0.1};
  for (const double at : {0.0, 296.15, -1.0, 1e300}) {
    const std::array<double, 2> conditions{at, at};
    for (const std::uint16_t along : {std::uint16_t{0}, std::uint16_t{1}})
      static_cast<void>(read.formula->at(ratings, conditions, along));
  }
  const ReadFormula again = read_formula(text, names);
  fuzz::require(again.formula.has_value() && again.formula->powers == read.formula->powers);
  return 0;
}
