#include <optional>

#include <ohmwright/component/evidence/refused_values.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

/// Far beyond what any instrument shows, and far below where a probability would overflow into not-a-number [SI].
constexpr double largest_half_width = 1e15;

}  // namespace

double usable(double half_width, Dimension dimension, const std::string& label, std::string_view whose) {
  if (half_width >= 0.0 && half_width <= largest_half_width) return half_width;
  const Dimension of_differences = dimension == Dimension::temperature ? Dimension::temperature_difference : dimension;
  throw InputError(label + ": " + std::string(whose) + (whose.empty() ? "± " : " ± ") +
                   exact_text(AnyQuantity(of_differences, half_width)) +
                   " is no uncertainty that can be judged by; state one from 0 to " +
                   exact_text(AnyQuantity(of_differences, largest_half_width)));
}

void refuse_milliohms(const StatedValue& stated, const MeasurandDescriptor& measurand, const std::string& label) {
  if (stated.value.dimension() != Dimension::resistance || stated.unit.prefix_exponent() != -3) return;
  const std::optional<Unit> usual = Unit::named(measurand.default_unit, Dimension::resistance);
  if (!usual || usual->prefix_exponent() != 6) return;
  const std::string number = exact_text(AnyQuantity(Dimension::ratio, stated.unit.from_si(stated.value.value_in_si())));
  throw InputError(label + ": " + number + " mohm are milliohms, and " + std::string(measurand.id) +
                   " is read in megohms; write \"" + number + " Mohm\", or \"0 ohm\" for a short");
}

void refuse_too_many_test_volts(const Condition& condition, const std::string& label) {
  constexpr double most_of_any_test = 1000.0;  // testers of insulation for 230 V and 400 V (common practice, no source)
  if (condition.id != test_voltage_condition || condition.value.value.value_in_si() <= most_of_any_test) return;
  throw InputError(label + ": an insulation test with " + exact_text(condition.value.value) +
                   " breaks down parts that are good and can injure you; 500 V is the test. Was a nought too many "
                   "typed? (1000 V is the most that is taken.)");
}

void refuse_so_many(std::size_t readings) {
  throw InputError(std::to_string(readings) +
                   " readings are more than one verdict can weigh; give a part of them, or thin the series out");
}

}  // namespace ohmwright
