// Formulas of kind files: their values against formulas of the handbooks, and every refusal word for word.

#include <array>
#include <cmath>
#include <type_traits>

#include <gtest/gtest.h>

#include <ohmwright/quantity/units.hpp>

#include "formula/formula_reader.hpp"

namespace ohmwright::kind_file {
namespace {

constexpr std::array<FormulaName, 9> names{{{"voltage", Dimension::voltage, false, 0},
                                            {"power", Dimension::power, false, 1},
                                            {"resistance", Dimension::resistance, false, 2},
                                            {"beta", Dimension::temperature_difference, false, 3},
                                            {"rated-current", Dimension::current, false, 4},
                                            {"part_temperature", Dimension::temperature, true, 0},
                                            {"line_voltage", Dimension::voltage, true, 1},
                                            {"twice", Dimension::ratio, false, 5},
                                            {"twice", Dimension::ratio, true, 2}}};
constexpr std::array<std::optional<double>, 6> ratings{230.0, 2000.0, 10e3, 3977.0, 8.0, 2.0};
constexpr std::array<double, 3> at_freezing{273.15, 240.0, 2.0};

Formula formula_of(std::string_view text) {
  const ReadFormula read = read_formula(text, names);
  EXPECT_EQ(read.refusal, "") << text;
  return read.formula.value_or(Formula{});
}

double value_of(std::string_view text) { return formula_of(text).at(ratings, at_freezing).value; }

TEST(Formula, GivesWhatTheHandbooksDo) {
  EXPECT_DOUBLE_EQ(value_of("voltage^2 / power"), 26.45);  // Joule's law: R = U^2 / P
  EXPECT_DOUBLE_EQ(value_of("power / voltage"), 2000.0 / 230.0);
  EXPECT_DOUBLE_EQ(value_of("power * (line_voltage / voltage)^2"), 2000.0 * 240.0 * 240.0 / (230.0 * 230.0));
  // IEC 60539-1 (from memory): R = R25 exp(B (1/T - 1/T25)), T25 = 298.15 K.
  EXPECT_NEAR(value_of("resistance * exp(beta * (1 / kelvin(part_temperature) - 1 / kelvin(25 degC)))"),
              10e3 * std::exp(3977.0 * (1.0 / 273.15 - 1.0 / 298.15)), 1e-6);
  // IEC 60034-1 (from memory): copper, (235 + t) / (235 + t0).
  EXPECT_NEAR(value_of("resistance * (235 K + (part_temperature - 0 degC)) / (235 K + 20 K)"), 10e3 * 235.0 / 255.0,
              1e-9);
  // Resonance of an inductance and a capacitance: f = 1 / (2 pi sqrt(L C)).
  EXPECT_NEAR(value_of("1 / (2 * 3.141592653589793 * sqrt(0.4 H * 25.33 uF))"), 50.0, 5e-4);
}

TEST(Formula, KeepsTheOrderOfOperations) {
  EXPECT_DOUBLE_EQ(value_of("2 + 3 * 4 - 6 / 3"), 12.0);
  EXPECT_DOUBLE_EQ(value_of("2 - 3 - 4"), -5.0);
  EXPECT_DOUBLE_EQ(value_of("64 / 4 / 2"), 8.0);
  EXPECT_DOUBLE_EQ(value_of("-2^2"), -4.0);
  EXPECT_DOUBLE_EQ(value_of("2 * -3"), -6.0);
  EXPECT_DOUBLE_EQ(value_of("(2 + 3) * 4"), 20.0);
  EXPECT_DOUBLE_EQ(value_of("2^-1 + 2^0"), 1.5);
  EXPECT_DOUBLE_EQ(value_of("min(3, 1, 2) + max(3, 4) + abs(-5)"), 10.0);
  EXPECT_DOUBLE_EQ(value_of("ln(exp(1.25)) + sqrt(16)"), 5.25);
}

TEST(Formula, ReadsUnitsBehindNumbers) {
  EXPECT_DOUBLE_EQ(value_of("10 kohm + 5kΩ"), 15e3);
  EXPECT_DOUBLE_EQ(value_of("5 % * 10 kohm"), 500.0);
  EXPECT_DOUBLE_EQ(value_of("20 degC + 5 K"), 298.15);
  EXPECT_DOUBLE_EQ(value_of("68 degF - 10 °C"), 10.0);
  EXPECT_DOUBLE_EQ(value_of("2 min / 30 s"), 4.0);
  EXPECT_DOUBLE_EQ(value_of("'rated-current' * 2"), 16.0);
}

TEST(Formula, HasTheSlopeOfItsConditions) {
  const auto slope = [](std::string_view text, std::uint16_t along) {
    return formula_of(text).at(ratings, at_freezing, along).slope;
  };
  EXPECT_DOUBLE_EQ(slope("power * (line_voltage / voltage)^2", 1), 2.0 * 2000.0 * 240.0 / (230.0 * 230.0));
  EXPECT_EQ(slope("power * (line_voltage / voltage)^2", 0), 0.0);
  // d/dT of the beta equation is -B / T^2 of it.
  const double ntc = value_of("resistance * exp(beta / kelvin(part_temperature))");
  EXPECT_NEAR(slope("resistance * exp(beta / kelvin(part_temperature))", 0) / ntc, -3977.0 / (273.15 * 273.15), 1e-12);
  EXPECT_DOUBLE_EQ(slope("sqrt(line_voltage * 60 V)", 1), 0.5 * std::sqrt(60.0 / 240.0));
  EXPECT_DOUBLE_EQ(slope("ln(line_voltage / (1 V))", 1), 1.0 / 240.0);
  EXPECT_DOUBLE_EQ(slope("abs(100 V - line_voltage)", 1), 1.0);
  EXPECT_DOUBLE_EQ(slope("min(line_voltage, 300 V)", 1), 1.0);
  EXPECT_DOUBLE_EQ(slope("max(line_voltage, 300 V)", 1), 0.0);
}

TEST(Formula, NamesWhatItIsMadeOf) {
  const Formula formula = formula_of("power * (line_voltage / voltage)^2 + 0 * power");
  EXPECT_EQ(formula.ratings, (std::vector<std::uint16_t>{1, 0}));
  EXPECT_EQ(formula.conditions, std::vector<std::uint16_t>{1});
  std::array<std::optional<double>, 6> stated = ratings;
  EXPECT_TRUE(formula.is_known(stated));
  stated[1].reset();
  EXPECT_FALSE(formula.is_known(stated));
}

struct Wrong {
  const char* text;
  const char* refusal;
};

TEST(Formula, IsRefusedWithItsPlace) {
  constexpr const char* name_missing =
      R"x(: there is no condition and no figure of the ratings "volage"; did you mean "voltage"?)x";
  for (
      const Wrong& wrong : std::vector<Wrong>{
          {"resistance + beta",
           R"x(character 12 ("+ beta"): a resistance and a temperature difference cannot be added)x"},
          {"resistance - power", R"x(character 12 ("- power"): a power cannot be taken from a resistance)x"},
          {"resistance + voltage / power",
           R"x(character 12 ("+ voltage / power"): a resistance and a value in A^-1 cannot be added)x"},
          {"Ω", R"x(character 1 ("Ω"): a number, a name, a function or "(" belongs here)x"},
          {"5 Ω + 3 K", R"x(character 5 ("+ 3 K"): a resistance and a temperature difference cannot be added)x"},
          {"20 degC + 5 degC",
           R"x(character 9 ("+ 5 degC"): two temperatures cannot be added; a temperature difference such as 5 K can)x"},
          {"2 * part_temperature",
           "character 5 (\"part_temperature\"): a temperature cannot be multiplied; write kelvin(…) for its kelvins "
           "above absolute zero, or a difference of two"},
          {"5 K - 20 degC",
           R"x(character 5 ("- 20 degC"): a temperature cannot be taken from a temperature difference)x"},
          {"exp(voltage)", R"x(character 5 ("voltage)"): exp takes a ratio, not a voltage)x"},
          {"sqrt(voltage)", R"x(character 6 ("voltage)"): a voltage has no square root)x"},
          {"kelvin(5 K)", R"x(character 8 ("5 K)"): kelvin takes a temperature, not a temperature difference)x"},
          {"min(voltage, power)", R"x(character 14 ("power)"): a voltage and a power cannot be compared)x"},
          {"min(voltage)", R"x(character 12 (")"): min takes two values or more)x"},
          {"sqrt(4, 9)", R"x(character 7 (", 9)"): a closing parenthesis belongs here)x"},
          {"voltage ^ power",
           R"x(character 11 ("power"): a power is one digit, such as ^2 or ^-1; a root is sqrt(…))x"},
          {"voltage^2.5", R"x(character 9 ("2.5"): a power is one digit, such as ^2 or ^-1; a root is sqrt(…))x"},
          {"2 voltage", R"x(character 3 ("voltage"): between a number and a name stands "*")x"},
          {"2 zorkmid", R"x(character 3 ("zorkmid"): there is no unit "zorkmid")x"},
          {"sin(1)",
           R"x(character 1 ("sin(1)"): there is no function "sin"; there is "sqrt", "exp", "ln", "abs", "min", "max" or "kelvin")x"},
          {"sqrt", R"x(character 1 ("sqrt"): "sqrt" is a function; its value stands behind it in parentheses)x"},
          {"rated-current",
           "character 1 (\"rated-current\"): a name with \"-\" stands between single quotes: 'rated-current'"},
          {"'rated-current", R"x(character 1 ("'rated-current"): the quote of a name is not closed)x"},
          {"twice",
           R"x(character 1 ("twice"): "twice" is a condition and a figure of the ratings; give one of them another id)x"},
          {"(1 + 2", "character 7 (the end): a closing parenthesis belongs here"},
          {"1 +", "character 4 (the end): a number, a name, a function or \"(\" belongs here"},
          {"1 2", R"x(character 3 ("2"): an operator (+ - * / ^) or the end belongs here)x"},
          {"1 = 2", R"x(character 3 ("= 2"): an operator (+ - * / ^) or the end belongs here)x"},
          {"1e999", R"x(character 1 ("1e999"): a number, a name, a function or "(" belongs here)x"},
          {"((voltage^9)^9)", R"x(character 13 ("^9)"): the powers of its units grow beyond all use)x"}})
    EXPECT_EQ(read_formula(wrong.text, names).refusal, wrong.refusal) << wrong.text;
  EXPECT_EQ(read_formula("volage", names).refusal, std::string("character 1 (\"volage\")") + name_missing);
  const std::string deep = std::string(40, '(') + "1" + std::string(40, ')');
  EXPECT_EQ(read_formula(deep, names).refusal, R"x(character 33 (")x" + std::string(8, '(') + "1" +
                                                   std::string(11, ')') +
                                                   R"x("): the formula is too deep; write it with fewer parentheses)x");
}

// Boost.Units, which checks them where types are known, is the reference for products of dimensions.
template <class A, class B>
using Product = decltype(std::declval<A>() * std::declval<B>());
static_assert(std::is_same_v<Product<Resistance, Current>, Voltage>);
static_assert(std::is_same_v<Product<Voltage, Current>, Power>);
static_assert(std::is_same_v<Product<Power, Duration>, Energy>);
static_assert(std::is_same_v<Product<Resistance, Capacitance>, Duration>);
static_assert(std::is_same_v<Product<Resistance, Duration>, Inductance>);
static_assert(!std::is_same_v<Frequency, RotationalSpeed>);

TEST(Powers, MultiplyAsThoseOfBoostUnits) {
  const auto times = [](Dimension a, Dimension b) { return *product(powers_of(a), powers_of(b), 1); };
  EXPECT_EQ(times(Dimension::resistance, Dimension::current), powers_of(Dimension::voltage));
  EXPECT_EQ(times(Dimension::voltage, Dimension::current), powers_of(Dimension::power));
  EXPECT_EQ(times(Dimension::power, Dimension::duration), powers_of(Dimension::energy));
  EXPECT_EQ(times(Dimension::resistance, Dimension::capacitance), powers_of(Dimension::duration));
  EXPECT_EQ(times(Dimension::resistance, Dimension::duration), powers_of(Dimension::inductance));
  EXPECT_EQ(times(Dimension::frequency, Dimension::duration), powers_of(Dimension::ratio));
  for (std::size_t i = 0; i < dimension_count; ++i)
    EXPECT_EQ(dimension_with(powers_of(static_cast<Dimension>(i))), static_cast<Dimension>(i));
}

}  // namespace
}  // namespace ohmwright::kind_file
