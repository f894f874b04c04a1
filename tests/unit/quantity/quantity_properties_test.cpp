#include <bit>
#include <cmath>
#include <cstdint>
#include <string>
#include <vector>

#include <gtest/gtest.h>
// rapidcheck's bridge needs gtest before it
#include <rapidcheck/gtest.h>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {
namespace {

std::uint64_t bits(double value) { return std::bit_cast<std::uint64_t>(value); }

rc::Gen<Dimension> any_dimension() {
  return rc::gen::map(rc::gen::inRange<int>(0, static_cast<int>(dimension_count)),
                      [](int place) { return static_cast<Dimension>(place); });
}

/// Every finite double that the dimension allows, from its bits.
double any_double(Dimension dimension) {
  const auto value = std::bit_cast<double>(*rc::gen::arbitrary<std::uint64_t>());
  RC_PRE(std::isfinite(value));
  return may_be_negative(dimension) ? value : std::fabs(value);
}

/// Numbers as an appliance has them: 1e-15 to 1e15 in the SI unit, evenly over the powers of ten.
double everyday_double(Dimension dimension) {
  const double mantissa = static_cast<double>(*rc::gen::inRange<std::int64_t>(1, 1'000'000'000'000'000)) * 1e-15;
  const double value = mantissa * std::pow(10.0, *rc::gen::inRange(-15, 16));
  return may_be_negative(dimension) && *rc::gen::arbitrary<bool>() ? -value : value;
}

DisplayOptions any_options(Dimension dimension) {
  DisplayOptions options;
  options.significant_digits = *rc::gen::inRange(1, 15);
  options.spelling = *rc::gen::element(Spelling::ascii, Spelling::screen);
  const std::vector<Unit> units = Unit::all_of(dimension);
  const Unit unit = units.at(*rc::gen::inRange<std::size_t>(0, units.size()));
  const int use = *rc::gen::inRange(0, 3);
  if (use == 1) options.units.prefer(unit);
  if (use == 2) options.fixed_unit = unit;
  return options;
}

RC_GTEST_PROP(QuantityText, ExactFormComesBackBitForBit, ()) {
  const Dimension dimension = *any_dimension();
  const double value = any_double(dimension);
  const StatedValue back = parse_stated_value(exact_text(AnyQuantity(dimension, value)), dimension);
  RC_ASSERT(bits(back.value.value_in_si()) == bits(value));
}

RC_GTEST_PROP(QuantityText, ExactFormOfAHalfWidthComesBackBitForBit, ()) {
  const Dimension dimension = *any_dimension();
  StatedValue stated{AnyQuantity(dimension, any_double(dimension)), std::nullopt, Unit::si(dimension)};
  stated.half_width = std::fabs(any_double(dimension));
  const StatedValue back = parse_stated_value(exact_text(stated), dimension);
  RC_ASSERT(bits(back.value.value_in_si()) == bits(stated.value.value_in_si()));
  RC_ASSERT(bits(back.half_width.value()) == bits(stated.half_width.value()));
}

RC_GTEST_PROP(QuantityText, DisplayedFormReadsBackToWhatItDisplays, ()) {
  const Dimension dimension = *any_dimension();
  DisplayOptions options = any_options(dimension);
  const std::string text = display_text(AnyQuantity(dimension, everyday_double(dimension)), options);
  const StatedValue back = parse_stated_value(text, dimension);
  // In the same unit: 115 min to two digits are 120 min, which would be shown as 2.0 h.
  options.fixed_unit = back.unit;
  RC_ASSERT(display_text(back.value, options) == text);
}

RC_GTEST_PROP(QuantityText, DisplayedFormInAPrefixedUnitIsTheNearestDouble, ()) {
  const Dimension dimension = Dimension::resistance;
  const DisplayOptions options = any_options(dimension);
  const std::string text = display_text(AnyQuantity(dimension, everyday_double(dimension)), options);
  const StatedValue back = parse_stated_value(text, dimension);
  // strtod of the same digits with the prefix as an exponent: another route to the same double.
  std::string number = text.substr(0, text.find(' '));
  const std::size_t mark = number.find('e');
  const int exponent = mark == std::string::npos ? 0 : std::stoi(number.substr(mark + 1));
  number = number.substr(0, mark) + 'e' + std::to_string(exponent + back.unit.decimal_shift());
  RC_ASSERT(bits(back.value.value_in_si()) == bits(std::strtod(number.c_str(), nullptr)));
}

RC_GTEST_PROP(QuantityText, DisplayErrsByHalfTheLastDigitAtMost, ()) {
  const Dimension dimension = Dimension::voltage;
  const double value = everyday_double(dimension);
  DisplayOptions options;
  options.significant_digits = *rc::gen::inRange(1, 15);
  const double back =
      parse_stated_value(display_text(AnyQuantity(dimension, value), options), dimension).value.value_in_si();
  const double half_digit =
      0.5 * std::pow(10.0, std::floor(std::log10(std::fabs(value))) - options.significant_digits + 1);
  RC_ASSERT(std::fabs(back - value) <= half_digit * (1.0 + 1e-9) + std::fabs(value) * 1e-15);
}

RC_GTEST_PROP(QuantityText, DisplayedUncertaintyReadsBack, ()) {
  const Dimension dimension = *any_dimension();
  DisplayOptions options = any_options(dimension);
  StatedValue stated{AnyQuantity(dimension, everyday_double(dimension)), std::nullopt, Unit::si(dimension)};
  stated.half_width = std::fabs(everyday_double(dimension));
  const std::string text = display_text(stated, options);
  const StatedValue back = parse_stated_value(text, dimension);
  // The typed unit is kept, so that a value rounded up past a prefix does not move to the next one.
  options.fixed_unit = back.unit;
  RC_ASSERT(display_text(back, options) == text);
}

RC_GTEST_PROP(QuantityText, EveryUnitReadsWhatToSiSays, (bool screen)) {
  const Dimension dimension = *any_dimension();
  const Spelling spelling = screen ? Spelling::screen : Spelling::ascii;
  const int number = *rc::gen::inRange(0, 100'000);
  for (const Unit unit : Unit::all_of(dimension)) {
    const std::string text = std::to_string(number) + unit.symbol(spelling);
    RC_ASSERT(parse_stated_value(text, dimension).value.value_in_si() == unit.to_si(number));
  }
}

RC_GTEST_PROP(QuantityText, AnyTextIsReadOrRefusedWithAPrintableMessage, (const std::string& text)) {
  const Dimension dimension = *any_dimension();
  try {
    parse_stated_value(text, dimension);
  } catch (const InputError& error) {
    for (const char* letter = error.what(); *letter != '\0'; ++letter) {
      RC_ASSERT(static_cast<unsigned char>(*letter) >= 0x20 && *letter != 0x7f);
    }
  }
}

}  // namespace
}  // namespace ohmwright
