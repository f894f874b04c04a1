#include <utility>

#include <ohmwright/document/kind_values.hpp>

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
  return options;
}

std::optional<Unit> default_unit_of(const MeasurandDescriptor& measurand) {
  return measurand.takes_bare_number ? unit_named(measurand.default_unit, measurand.dimension) : std::nullopt;
}

std::optional<Unit> default_unit_of(const ConditionDescriptor& condition) {
  return unit_named(condition.default_unit, condition.dimension);
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
