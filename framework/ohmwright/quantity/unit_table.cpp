#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <cstddef>
#include <numbers>

#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright {

namespace {

/// One unit: SI value = (number * 10^(prefix + exponent) - reference) * numerator / denominator + si_at_reference.
/// A temperature is counted from the ice point and not from 0 K: that keeps the digits of everyday temperatures.
struct UnitRow {
  Dimension dimension;
  std::string_view symbol;
  std::string_view screen_symbol;
  std::string_view other_names;  ///< also read, separated by spaces
  std::string_view prefixes;     ///< the prefixes it takes, of those in `prefix_table`
  int exponent = 0;
  double reference = 0.0;
  double numerator = 1.0;
  double denominator = 1.0;
  double si_at_reference = 0.0;
};

// Blanks do not count, so these name "deg C" and "degrees C" too. U+00BA, the ordinal sign of Spanish and Italian
// keyboards, is often typed for U+00B0, the degree sign (common practice, no source).
constexpr std::string_view celsius_names = "C c \u2103 \u00BAC celsius degreeC degreesC degreesCelsius";
constexpr std::string_view fahrenheit_names = "F f \u2109 \u00BAF fahrenheit degreeF degreesF degreesFahrenheit";

// The SI unit of each dimension comes first among its rows; mass is the exception (kg has a prefix), see Unit::si.
// U+2126 (ohm sign) and U+03A9 (omega) look alike and are both read, as are U+00B5 (micro sign) and U+03BC (mu).
constexpr std::array unit_table{
    UnitRow{Dimension::resistance, "ohm", "\u03A9", "ohms \u2126 R", "umkMG"},
    UnitRow{Dimension::voltage, "V", "V", "v volt volts VAC VDC", "umkM"},
    UnitRow{Dimension::current, "A", "A", "a amp amps ampere amperes", "numk"},
    UnitRow{Dimension::power, "W", "W", "w watt watts", "umkM"},
    UnitRow{Dimension::energy, "J", "J", "joule joules", "mkM"},
    UnitRow{Dimension::energy, "Wh", "Wh", "", "mkM", 0, 0.0, 3600.0},
    UnitRow{Dimension::frequency, "Hz", "Hz", "hertz", "mkMG"},
    UnitRow{Dimension::capacitance, "F", "F", "f farad farads", "pnum"},
    UnitRow{Dimension::inductance, "H", "H", "henry", "num"},
    UnitRow{Dimension::duration, "s", "s", "sec second seconds", "num"},
    UnitRow{Dimension::duration, "min", "min", "mins minute minutes", "", 0, 0.0, 60.0},
    UnitRow{Dimension::duration, "h", "h", "hr hrs hour hours", "", 0, 0.0, 3600.0},
    UnitRow{Dimension::duration, "d", "d", "day days", "", 0, 0.0, 86400.0},
    UnitRow{Dimension::temperature, "K", "K", "kelvin", "m"},
    UnitRow{Dimension::temperature, "degC", "\u00B0C", celsius_names, "", 0, 0.0, 1.0, 1.0,
            Temperature::kelvin_at_zero_celsius},
    UnitRow{Dimension::temperature, "degF", "\u00B0F", fahrenheit_names, "", 0, Temperature::fahrenheit_at_zero_celsius,
            5.0, 9.0, Temperature::kelvin_at_zero_celsius},
    UnitRow{Dimension::temperature_difference, "K", "K", "kelvin", "m"},
    UnitRow{Dimension::temperature_difference, "degC", "\u00B0C", celsius_names, ""},
    UnitRow{Dimension::temperature_difference, "degF", "\u00B0F", fahrenheit_names, "", 0, 0.0, 5.0, 9.0},
    UnitRow{Dimension::rotational_speed, "rad/s", "rad/s", "", ""},
    UnitRow{Dimension::rotational_speed, "rpm", "rpm", "r/min 1/min", "", 0, 0.0, std::numbers::pi, 30.0},
    UnitRow{Dimension::mass, "g", "g", "gram grams", "mk", -3},
    UnitRow{Dimension::length, "m", "m", "metre metres meter meters", "umck"},
    UnitRow{Dimension::ratio, "", "", "1", ""},
    UnitRow{Dimension::ratio, "%", "%", "percent", "", -2},
    UnitRow{Dimension::ratio, "ppm", "ppm", "", "", -6},
};

/// A prefix as it is read: `letter` is how `UnitRow::prefixes` names it.
struct Prefix {
  std::string_view text;
  char letter;
  std::int8_t exponent;
  std::string_view screen_text;
};

// "K" for kilo is no SI, but IEC 60062 marks resistors so and rating plates print "KW" (common practice, no source).
constexpr std::array prefix_table{
    Prefix{"p", 'p', -12, "p"},    Prefix{"n", 'n', -9, "n"},     Prefix{"u", 'u', -6, "\u00B5"},
    Prefix{"\u00B5", 'u', -6, ""}, Prefix{"\u03BC", 'u', -6, ""}, Prefix{"m", 'm', -3, "m"},
    Prefix{"c", 'c', -2, "c"},     Prefix{"k", 'k', 3, "k"},      Prefix{"K", 'k', 3, ""},
    Prefix{"M", 'M', 6, "M"},      Prefix{"G", 'G', 9, "G"},
};

/// What people write for a whole unit with its prefix.
struct ShortForm {
  std::string_view text;
  Dimension dimension;
  std::int8_t prefix_exponent;
};

// The letter alone stands for the ohm where a resistance is expected (IEC 60062 letters; meters show the same).
// "MFD" on motor capacitors is microfarad: common practice, no source.
constexpr std::array short_forms{
    ShortForm{"k", Dimension::resistance, 3},       ShortForm{"K", Dimension::resistance, 3},
    ShortForm{"M", Dimension::resistance, 6},       ShortForm{"G", Dimension::resistance, 9},
    ShortForm{"kilohm", Dimension::resistance, 3},  ShortForm{"kilohms", Dimension::resistance, 3},
    ShortForm{"kiloohm", Dimension::resistance, 3}, ShortForm{"kiloohms", Dimension::resistance, 3},
    ShortForm{"megohm", Dimension::resistance, 6},  ShortForm{"megohms", Dimension::resistance, 6},
    ShortForm{"megaohm", Dimension::resistance, 6}, ShortForm{"megaohms", Dimension::resistance, 6},
    ShortForm{"MFD", Dimension::capacitance, -6},
};

/// Whether letter case may be ignored. In words only: one letter in the wrong case can be another unit.
enum class Case { exact, ignored_in_words };

bool is_same(std::string_view typed, std::string_view name, Case letter_case) {
  if (typed == name) return true;
  return letter_case == Case::ignored_in_words && typed.size() == name.size() && name.size() > 1 &&
         lower_case(typed) == lower_case(name);
}

bool is_name_of(std::string_view text, const UnitRow& row, Case letter_case) {
  if (is_same(text, row.symbol, letter_case) || is_same(text, row.screen_symbol, letter_case)) return true;
  std::string_view names = row.other_names;
  while (!names.empty()) {
    const std::size_t end = std::min(names.find(' '), names.size());
    if (is_same(text, names.substr(0, end), letter_case)) return true;
    names.remove_prefix(std::min(end + 1, names.size()));
  }
  return false;
}

bool takes(const UnitRow& row, const Prefix& prefix) {
  return row.prefixes.find(prefix.letter) != std::string_view::npos;
}

std::size_t first_row_of(Dimension dimension) {
  const auto* const found = std::find_if(unit_table.begin(), unit_table.end(),
                                         [dimension](const UnitRow& row) { return row.dimension == dimension; });
  assert(found != unit_table.end());
  return static_cast<std::size_t>(found - unit_table.begin());
}

std::optional<std::int8_t> prefix_exponent_in(std::string_view text, const UnitRow& row, Case letter_case) {
  if (is_name_of(text, row, letter_case)) return std::int8_t{0};
  for (const Prefix& prefix : prefix_table) {
    const bool fits = text.starts_with(prefix.text) && text.size() > prefix.text.size() && takes(row, prefix);
    if (fits && is_name_of(text.substr(prefix.text.size()), row, letter_case)) return prefix.exponent;
  }
  return std::nullopt;
}

}  // namespace

Unit Unit::si(Dimension dimension) {
  return {static_cast<std::uint8_t>(first_row_of(dimension)),
          dimension == Dimension::mass ? std::int8_t{3} : std::int8_t{0}};
}

std::optional<Unit> Unit::named(std::string_view text, Dimension dimension) {
  std::string name(text);
  std::erase_if(name, [](char letter) { return letter == ' ' || letter == '\t'; });
  if (name.empty()) return std::nullopt;
  for (const Case letter_case : {Case::exact, Case::ignored_in_words}) {
    for (const ShortForm& form : short_forms) {
      if (form.dimension == dimension && is_same(name, form.text, letter_case)) {
        return Unit(static_cast<std::uint8_t>(first_row_of(dimension)), form.prefix_exponent);
      }
    }
    for (std::size_t row = first_row_of(dimension); row < unit_table.size(); ++row) {
      if (unit_table.at(row).dimension != dimension) break;
      const std::optional<std::int8_t> exponent = prefix_exponent_in(name, unit_table.at(row), letter_case);
      if (exponent) return Unit(static_cast<std::uint8_t>(row), *exponent);
    }
  }
  return std::nullopt;
}

std::vector<Unit> Unit::all_of(Dimension dimension) {
  std::vector<Unit> units;
  for (std::size_t row = first_row_of(dimension); row < unit_table.size(); ++row) {
    if (unit_table.at(row).dimension != dimension) break;
    units.push_back(Unit(static_cast<std::uint8_t>(row), 0));
    for (const Prefix& prefix : prefix_table) {
      const bool printed = !prefix.screen_text.empty();
      if (printed && takes(unit_table.at(row), prefix))
        units.push_back(Unit(static_cast<std::uint8_t>(row), prefix.exponent));
    }
  }
  return units;
}

Dimension Unit::dimension() const { return unit_table.at(row_).dimension; }

std::string Unit::symbol(Spelling spelling) const {
  const UnitRow& row = unit_table.at(row_);
  std::string text;
  if (prefix_exponent_ != 0) {
    const auto* const prefix = std::find_if(prefix_table.begin(), prefix_table.end(),
                                            [this](const Prefix& one) { return one.exponent == prefix_exponent_; });
    assert(prefix != prefix_table.end());
    text = spelling == Spelling::ascii ? prefix->text : prefix->screen_text;
  }
  text += spelling == Spelling::ascii ? row.symbol : row.screen_symbol;
  return text;
}

Unit Unit::with_prefix_for(int exponent) const {
  std::int8_t best = 0;
  std::int8_t smallest = 0;
  bool found = exponent >= 0;
  for (const Prefix& prefix : prefix_table) {
    if (prefix.exponent % 3 != 0 || !takes(unit_table.at(row_), prefix)) continue;
    smallest = std::min(smallest, prefix.exponent);
    if (prefix.exponent <= exponent && (!found || prefix.exponent > best)) {
      best = prefix.exponent;
      found = true;
    }
  }
  return {row_, found ? best : smallest};
}

int Unit::decimal_shift() const { return unit_table.at(row_).exponent + prefix_exponent_; }

double Unit::si_from_shifted(double shifted) const {
  const UnitRow& row = unit_table.at(row_);
  const double value_in_si = (shifted - row.reference) * row.numerator / row.denominator;
  return zero_is_absolute() ? value_in_si : value_in_si + row.si_at_reference;  // -0 + 0 would lose its sign
}

double Unit::shifted_from_si(double value_in_si) const {
  const UnitRow& row = unit_table.at(row_);
  return (value_in_si - row.si_at_reference) * row.denominator / row.numerator + row.reference;
}

double Unit::to_si(double number) const {
  const int shift = decimal_shift();
  // Dividing by a power of ten that is exact rounds once; multiplying by an inexact 1e-6 would round twice.
  return si_from_shifted(shift < 0 ? number / std::pow(10.0, -shift) : number * std::pow(10.0, shift));
}

double Unit::from_si(double value_in_si) const {
  const int shift = decimal_shift();
  const double shifted = shifted_from_si(value_in_si);
  return shift < 0 ? shifted * std::pow(10.0, -shift) : shifted / std::pow(10.0, shift);
}

bool Unit::zero_is_absolute() const { return unit_table.at(row_).si_at_reference == 0.0; }

Unit Unit::of_differences() const {
  if (dimension() != Dimension::temperature) return *this;
  const std::optional<Unit> difference = named(symbol(), Dimension::temperature_difference);
  assert(difference.has_value());
  return *difference;
}

}  // namespace ohmwright
