// A formula that is read never gives a wrong dimension. The proof does not lean on the checker's own algebra: a formula
// is right in its dimensions exactly where its value does not depend on the choice of base units (the principle of
// dimensional homogeneity, Bridgman, Dimensional Analysis, 1922; from memory). So every quantity of a random formula is
// expressed in other base units, metres of another length and ohms of another size, and the value has to change by that
// of the dimension that the reader promised, and by nothing else.

#include <algorithm>
#include <array>
#include <cmath>
#include <iomanip>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

// rapidcheck's bridge needs gtest before it
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "formula/formula_reader.hpp"

namespace ohmwright::kind_file {
namespace {

/// By how much the number of each base unit grows: m, kg, s, A, K, rad.
using Scales = std::array<double, Powers::base_count>;
constexpr Scales no_scales{1.0, 1.0, 1.0, 1.0, 1.0, 1.0};
/// Primes over each other, so that no product of some is that of others.
constexpr Scales other_units{3.0 / 2.0, 7.0 / 5.0, 13.0 / 11.0, 19.0 / 17.0, 29.0 / 23.0, 37.0 / 31.0};

double scale_of(const Powers& powers, const Scales& scales) {
  double scale = 1.0;
  for (std::size_t i = 0; i < scales.size(); ++i) scale *= std::pow(scales[i], powers.of[i]);
  return scale;
}

constexpr std::array<FormulaName, 7> names{{{"r", Dimension::resistance, false, 0},
                                            {"u", Dimension::voltage, false, 1},
                                            {"p", Dimension::power, false, 2},
                                            {"c", Dimension::capacitance, false, 3},
                                            {"t", Dimension::temperature, true, 0},
                                            {"t0", Dimension::temperature, true, 1},
                                            {"n", Dimension::rotational_speed, true, 2}}};
constexpr std::array<double, 7> values{82.5, 231.0, 450.0, 1.5, 263.0, 298.0, 157.0};

/// A literal quantity: its unit, and the dimension that it has by the SI brochure.
struct Literal {
  const char* unit;
  Dimension dimension;
  double zero = 0.0;  ///< SI value of 0
};
constexpr std::array<Literal, 8> literals{{{"", Dimension::ratio},
                                           {"ohm", Dimension::resistance},
                                           {"V", Dimension::voltage},
                                           {"A", Dimension::current},
                                           {"s", Dimension::duration},
                                           {"K", Dimension::temperature_difference},
                                           {"degC", Dimension::temperature, 273.15},
                                           {"kg", Dimension::mass}}};

/// The choices from which a formula is grown, taken one after the other.
class Choices {
 public:
  explicit Choices(const std::vector<std::uint8_t>& choices) : choices_(choices) {}
  std::size_t next(std::size_t count) { return next_ < choices_.size() ? choices_[next_++] % count : 0; }

 private:
  const std::vector<std::uint8_t>& choices_;
  std::size_t next_ = 0;
};

/// Writes one formula, its literals in units of those scales.
std::string grown(Choices& choices, const Scales& scales, int depth) {
  const std::size_t what = depth == 0 ? choices.next(2) : choices.next(9);
  const auto part = [&] { return grown(choices, scales, depth - 1); };
  if (what == 0) return std::string(names[choices.next(names.size())].id);
  if (what == 1) {
    const Literal& literal = literals[choices.next(literals.size())];
    const double number = static_cast<double>(choices.next(9) + 1);
    std::ostringstream text;
    text << std::setprecision(std::numeric_limits<double>::max_digits10)
         << (number + literal.zero) * scale_of(powers_of(literal.dimension), scales) - literal.zero;
    // A number behind a minus is a sign of its own; of temperatures only the literal has one.
    return text.str().front() == '-' ? "(20 degC)" : text.str() + (*literal.unit == 0 ? "" : " ") + literal.unit;
  }
  if (what <= 5) {
    constexpr std::array<const char*, 4> signs{" + ", " - ", " * ", " / "};
    const std::string left = part();
    return "(" + left + signs[what - 2] + part() + ")";
  }
  if (what == 6) return "(" + part() + ")^" + std::array<const char*, 4>{"2", "3", "-1", "0"}[choices.next(4)];
  if (what == 7) {
    constexpr std::array<const char*, 5> functions{"sqrt", "exp", "ln", "abs", "kelvin"};
    const char* function = functions[choices.next(functions.size())];
    return function + ("(" + part() + ")");
  }
  const char* function = choices.next(2) == 0 ? "min" : "max";
  const std::string left = part();
  return function + ("(" + left + ", " + part() + ")");
}

double value_in(const Formula& formula, const Scales& scales) {
  std::array<std::optional<double>, 4> ratings;
  std::array<double, 3> conditions{};
  for (std::size_t i = 0; i < names.size(); ++i) {
    const double value = values[i] * scale_of(powers_of(names[i].dimension), scales);
    if (names[i].is_condition)
      conditions[names[i].index] = value;
    else
      ratings[names[i].index] = value;
  }
  return formula.at(ratings, conditions).value;
}

/// Where a sum nearly cancels, rounding is all that is left of it.
constexpr double rounding = 1e-6;

RC_GTEST_PROP(Formula, ThatIsReadGivesTheDimensionItPromises, (const std::vector<std::uint8_t>& seeds)) {
  Choices plain(seeds);
  Choices scaled(seeds);
  const std::string text = grown(plain, no_scales, 3);
  const std::string in_other_units = grown(scaled, other_units, 3);
  const ReadFormula read = read_formula(text, names);
  const ReadFormula other = read_formula(in_other_units, names);
  RC_CLASSIFY(read.formula.has_value(), "read");
  RC_ASSERT(read.formula.has_value() == other.formula.has_value());
  if (!read.formula) return;
  RC_ASSERT(read.formula->powers == other.formula->powers);
  const double expected = value_in(*read.formula, no_scales) * scale_of(read.formula->powers, other_units);
  const double got = value_in(*other.formula, other_units);
  if (!std::isfinite(expected) || !std::isfinite(got) || std::abs(expected) > 1e100) return;
  RC_LOG() << text << "\n" << in_other_units << "\n";
  RC_ASSERT(std::abs(got - expected) <= rounding * std::max({std::abs(expected), std::abs(got), 1.0}));
}

}  // namespace
}  // namespace ohmwright::kind_file
