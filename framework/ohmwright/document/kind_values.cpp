#include <algorithm>
#include <utility>

#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

std::optional<Unit> unit_named(std::string_view name, Dimension dimension) {
  return name.empty() ? std::nullopt : Unit::named(name, dimension);
}

}  // namespace

ObservedOptions observed_options(const MeasurandDescriptor& measurand, const Meter* meter) {
  const MeterFunction* function = meter != nullptr ? function_for(*meter, measurand.dimension) : nullptr;
  ObservedOptions options;
  options.lone_one_is_over = function != nullptr && function->one_means_over_range;
  options.contact_words = measurand.takes_contact_state;
  options.continuity_sound = measurand.takes_contact_state;
  options.names_range_end = true;
  options.usual_unit = unit_named(measurand.default_unit, measurand.dimension);
  return options;
}

std::optional<Unit> default_unit_of(const MeasurandDescriptor& measurand) {
  return measurand.takes_bare_number ? unit_named(measurand.default_unit, measurand.dimension) : std::nullopt;
}

std::optional<Unit> default_unit_of(const ConditionDescriptor& condition) {
  return unit_named(condition.default_unit, condition.dimension);
}

bool says_something_of(const ConditionDescriptor& condition, std::string_view measurand) {
  return condition.of.empty() || std::find(condition.of.begin(), condition.of.end(), measurand) != condition.of.end();
}

std::string slip_in(const StatedValue& condition) {
  // Nothing of an appliance is colder than a deep freezer for laboratories, -86 °C (common practice, no source).
  const double coldest_kelvin = Temperature::from_celsius(-100.0).kelvin();
  if (condition.value.dimension() != Dimension::temperature || condition.unit != Unit::si(Dimension::temperature) ||
      condition.value.value_in_si() >= coldest_kelvin)
    return {};
  const std::string kelvin = exact_text(condition.value);
  const std::string number = kelvin.substr(0, kelvin.find(' '));
  return kelvin + " is " + display_text(condition.value) + "; if " + number + " degrees Celsius were meant, write \"" +
         number + "C\"";
}

std::string slip_in_leads(const StatedValue& leads) {
  constexpr double most_ohm = 10.0;  // probes, plugs and a metre of lead have some tenths (common practice, no source)
  if (leads.value.value_in_si() <= most_ohm) return {};
  return display_text(leads.value) +
         " is no resistance of test leads; hold the probes together and write what the meter shows, such as 0.3ohm, or "
         "0 "
         "where it was zeroed";
}

Condition stated_condition(const ConditionDescriptor& condition, const StatedValue& value, std::string error_source) {
  Condition stated{std::string(condition.id), value, std::move(error_source), false};
  if (!value.half_width && condition.default_half_width > 0.0) {
    stated.value.half_width = condition.default_half_width;
    stated.uncertainty_assumed = true;
  }
  return stated;
}

}  // namespace ohmwright
