#include <cassert>
#include <cmath>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/quantity/stated_value_reader.hpp>

namespace ohmwright {

namespace {

std::optional<std::string> suggested_unit(std::string_view typed, Dimension dimension) {
  std::vector<std::string> names;
  for (const Unit unit : Unit::all_of(dimension)) names.push_back(unit.symbol());
  return near_miss(typed, names);
}

bool names_a_unit(std::string_view text) {
  for (std::size_t place = 0; place < dimension_count; ++place) {
    if (Unit::named(text, static_cast<Dimension>(place))) return true;
  }
  return false;
}

/// Gives the parts of a stated value their meaning.
class Interpreter {
 public:
  Interpreter(std::string_view text, Dimension expected, const StatedValueOptions& options)
      : text_(text), expected_(expected), options_(options), expectation_(expectation_of(expected) + options.or_else) {}

  StatedValue interpret() const {
    assert(!options_.default_unit || options_.default_unit->dimension() == expected_);
    const TypedValue typed = read_typed_value(text_, expected_, expectation_);
    const UnitChoice choice = unit_of(typed);
    StatedValue stated{AnyQuantity(expected_, number_in(choice.unit, typed.value.number)), std::nullopt, choice.unit};
    stated.unit_assumed = choice.assumed;
    refuse_impossible(stated);
    if (typed.uncertainty) stated.half_width = half_width_of(*typed.uncertainty, stated);
    return stated;
  }

 private:
  struct UnitChoice {
    Unit unit;
    bool assumed = false;
  };

  [[noreturn]] static void fail(const std::string& message) { throw InputError(message); }
  [[noreturn]] void fail_expected(const std::string& ending = {}) const {
    fail("expected " + expectation_ + ", got " + quoted(text_) + ending);
  }

  UnitChoice unit_of(const TypedValue& typed) const {
    if (typed.value.letter_code_exponent) return {letter_code_unit(typed.value)};
    if (!typed.value.unit_text.empty()) return {named_unit(typed.value.unit_text, expected_)};
    if (const std::optional<Unit> shared = shared_unit(typed)) return {*shared};
    if (options_.default_unit) return {*options_.default_unit, true};
    if (expected_ == Dimension::ratio) return {Unit::si(Dimension::ratio)};
    if (expected_ == Dimension::resistance && is_zero_alone(typed)) return {Unit::si(expected_), true};
    fail("expected " + expectation_ + ", got " + quoted(text_) + " without a unit" + with_a_unit());
  }

  /// No ohms are no ohms in every unit.
  static bool is_zero_alone(const TypedValue& typed) {
    return !typed.uncertainty && to_double(typed.value.number, 0).value == 0.0;
  }

  /// How the bare number could be meant, where a forgotten unit is a common slip.
  std::string with_a_unit() const {
    const std::string number(text_);
    if (number.find_first_not_of("0123456789.+-") != std::string::npos) return {};
    if (number.ends_with('.')) return with_nothing_behind_the_point(number);
    if (expected_ == Dimension::temperature) return R"(; write ")" + number + R"(C" or ")" + number + R"(F")";
    if (expected_ == Dimension::resistance && options_.usual_unit && options_.usual_unit->prefix_exponent() == 6)
      return R"(; write ")" + number + R"(M" or ")" + number + R"(k": a thousand lies between them)";
    if (expected_ == Dimension::resistance)
      return R"(; write ")" + number + R"( ohm" or ")" + number + R"(k": a thousand lies between them)";
    return {};
  }

  /// "1." alone is what old displays show past their range; behind another number a digit was cut off.
  std::string with_nothing_behind_the_point(const std::string& number) const {
    const std::string whole = number.substr(0, number.size() - 1);
    if (whole == "1") return R"(; if a lone 1 at the left of the display means over-range, write "OL")";
    return R"(; write the digits behind the point, and the unit: ")" + whole + R"(.0 )" + Unit::si(expected_).symbol() +
           R"(")";
  }

  /// The unit behind the uncertainty where the value has none: "11.0 +- 0.1 kohm".
  std::optional<Unit> shared_unit(const TypedValue& typed) const {
    if (!typed.uncertainty || typed.uncertainty->unit_text.empty()) return std::nullopt;
    const std::string_view unit_text = typed.uncertainty->unit_text;
    if (unit_text == "%" && expected_ != Dimension::ratio) return std::nullopt;
    const Unit shared = named_unit(unit_text, expected_);
    // "23 +- 1 K" most likely means 23 degC: kelvin is what differences are stated in.
    if (expected_ == Dimension::temperature && shared.zero_is_absolute()) {
      if (options_.default_unit) return std::nullopt;
      fail(quoted(text_) + R"( leaves the unit of the temperature open: write "23 degC +- 1 K" or "296 K +- 1 K")");
    }
    return shared;
  }

  /// The unit of 4k7; the unit itself may follow: 4k7 ohm.
  Unit letter_code_unit(const TypedNumber& typed) const {
    const Unit base = Unit::si(expected_);
    if (!typed.unit_text.empty() && Unit::named(typed.unit_text, expected_) != base) {
      fail_expected(": after a letter code only \"" + base.symbol() + "\" may follow");
    }
    return base.with_prefix_for(*typed.letter_code_exponent);
  }

  Unit named_unit(std::string_view unit_text, Dimension dimension) const {
    if (const std::optional<Unit> unit = Unit::named(unit_text, dimension)) return *unit;
    if (names_a_unit(unit_text)) {
      if (dimension == expected_) fail_expected();
      fail_expected(": " + quoted(unit_text) + " is no unit of " + std::string(phrase_of(dimension)));
    }
    std::string ending = ": unknown unit " + quoted(unit_text);
    if (const std::optional<std::string> meant = suggested_unit(unit_text, dimension)) {
      ending += ", did you mean \"" + *meant + "\"?";
    }
    fail_expected(ending);
  }

  double number_in(Unit unit, const Decimal& number) const {
    const DecimalValue shifted = to_double(number, unit.decimal_shift());
    if (shifted.trouble == DecimalTrouble::too_small) fail_expected(", which is too close to zero to be held");
    const double value_in_si = unit.si_from_shifted(shifted.value);
    if (shifted.trouble || !std::isfinite(value_in_si)) fail_expected(", which is too large to be held");
    return value_in_si;
  }

  void refuse_impossible(const StatedValue& stated) const {
    if (may_be_negative(expected_) || stated.value.value_in_si() >= 0.0) return;
    if (expected_ == Dimension::temperature) {
      fail(quoted(text_) + R"( is below absolute zero (-273.15 degC, -459.67 degF))");
    }
    fail(std::string(phrase_of(expected_)) + " cannot be negative, got " + quoted(text_));
  }

  double half_width_of(const TypedNumber& typed, const StatedValue& stated) const {
    if (typed.number.negative) fail("an uncertainty cannot be negative, got " + quoted(text_));
    if (typed.unit_text == "%" && expected_ != Dimension::ratio) return percent_of(typed.number, stated);
    const Unit own = stated.unit.of_differences();
    if (typed.letter_code_exponent) return number_in(letter_code_unit(typed), typed.number);
    return number_in(typed.unit_text.empty() ? own : named_unit(typed.unit_text, own.dimension()), typed.number);
  }

  double percent_of(const Decimal& percent, const StatedValue& stated) const {
    if (expected_ == Dimension::temperature) {
      fail(quoted(text_) + R"( has no meaning: a share of a temperature depends on its scale; write "+- 0.5 K")");
    }
    const Unit one = Unit::si(Dimension::ratio);
    const double half_width = number_in(one, percent) * std::fabs(stated.value.value_in_si()) / 100.0;
    if (!std::isfinite(half_width)) fail_expected(", which is too large to be held");
    return half_width;
  }

  std::string_view text_;
  Dimension expected_;
  const StatedValueOptions& options_;
  std::string expectation_;
};

}  // namespace

StatedValue parse_stated_value(std::string_view text, Dimension expected, const StatedValueOptions& options) {
  return Interpreter(text, expected, options).interpret();
}

}  // namespace ohmwright
