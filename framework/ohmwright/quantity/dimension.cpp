#include <algorithm>
#include <array>

#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright {

namespace {

struct DimensionRow {
  std::string_view name;
  std::string_view si_unit;
  std::string_view phrase;
  std::string_view example;
  bool may_be_negative;
};

// In the order of the enumeration. Power and current may be negative: a clamp has a direction.
constexpr std::array<DimensionRow, dimension_count> dimension_table{{
    {"resistance", "ohm", "a resistance", "11.0 kohm", false},
    {"voltage", "V", "a voltage", "120 V", true},
    {"current", "A", "a current", "0.5 A", true},
    {"power", "W", "a power", "450 W", true},
    {"energy", "J", "an energy", "1.2 kWh", true},
    {"frequency", "Hz", "a frequency", "60 Hz", false},
    {"capacitance", "F", "a capacitance", "12 uF", false},
    {"inductance", "H", "an inductance", "35 mH", false},
    {"duration", "s", "a duration", "25 min", false},
    {"temperature", "K", "a temperature", "23 degC", false},
    {"temperature_difference", "K", "a temperature difference", "0.5 K", true},
    {"rotational_speed", "rad/s", "a rotational speed", "2800 rpm", true},
    {"mass", "kg", "a mass", "0.5 kg", false},
    {"length", "m", "a length", "65 mm", false},
    {"ratio", "1", "a ratio", "5 %", true},
}};

const DimensionRow& row_of(Dimension dimension) { return dimension_table.at(static_cast<std::size_t>(dimension)); }

}  // namespace

std::string_view name_of(Dimension dimension) { return row_of(dimension).name; }

std::optional<Dimension> dimension_named(std::string_view name) {
  const auto* const found = std::find_if(dimension_table.begin(), dimension_table.end(),
                                         [name](const DimensionRow& row) { return row.name == name; });
  if (found == dimension_table.end()) return std::nullopt;
  return static_cast<Dimension>(found - dimension_table.begin());
}

std::string_view si_unit_of(Dimension dimension) { return row_of(dimension).si_unit; }

std::string_view phrase_of(Dimension dimension) { return row_of(dimension).phrase; }

std::string_view example_of(Dimension dimension) { return row_of(dimension).example; }

std::string expectation_of(Dimension dimension) {
  std::string text(phrase_of(dimension));
  text += ", such as \"";
  text += example_of(dimension);
  text += '"';
  return text;
}

bool may_be_negative(Dimension dimension) { return row_of(dimension).may_be_negative; }

}  // namespace ohmwright
