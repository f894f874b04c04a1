#include "part/figures.hpp"

#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright::defrost_sensor {

const ValueNode* value_node(const ValueNode& object, std::string_view name) {
  const ValueNode* member = object.find(name);
  if (member == nullptr) return nullptr;
  const ValueNode* value = member->find("value");
  return value != nullptr ? value : member;
}

bool Figures::guarded(const ValueNode& where, const std::function<void()>& make) {
  try {
    make();
    return true;
  } catch (const InputError& error) {
    refuse(where, error.what());
    return false;
  }
}

std::optional<double> Figures::number_in_si(const ValueNode& object, std::string_view name, Dimension dimension) {
  const ValueNode* node = value_node(object, name);
  if (node == nullptr || node->text() == nullptr) return std::nullopt;
  std::optional<double> found;
  guarded(*node, [&] {
    const StatedValue stated = parse_stated_value(*node->text(), dimension);
    if (stated.half_width)
      throw InputError("a rating has no ± of its own; how far good parts may be off stands under \"tolerance\"");
    found = stated.value.value_in_si();
  });
  return found;
}

std::optional<Resistance> Figures::resistance(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::resistance);
  return value ? std::optional(Resistance::from_value(*value)) : std::nullopt;
}

std::optional<Voltage> Figures::voltage(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::voltage);
  return value ? std::optional(Voltage::from_value(*value)) : std::nullopt;
}

std::optional<Power> Figures::power(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::power);
  return value ? std::optional(Power::from_value(*value)) : std::nullopt;
}

std::optional<Temperature> Figures::temperature(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::temperature);
  return value ? std::optional(Temperature::from_kelvin(*value)) : std::nullopt;
}

std::optional<TemperatureDifference> Figures::difference(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::temperature_difference);
  return value ? std::optional(TemperatureDifference::from_value(*value)) : std::nullopt;
}

std::optional<double> Figures::tolerance(const ValueNode& object, std::string_view name) {
  const std::optional<double> share = number_in_si(object, name, Dimension::ratio);
  if (!share) return std::nullopt;
  if (*share > 0.0 && *share < 1.0) return share;
  refuse(*value_node(object, name), "a tolerance lies between 0 % and 100 %, both left out, such as \"5 %\"");
  return std::nullopt;
}

std::optional<double> Figures::number(const ValueNode& object, std::string_view name) {
  const ValueNode* node = value_node(object, name);
  if (node == nullptr || node->number() == nullptr) return std::nullopt;
  return *node->number();
}

std::optional<std::string> Figures::word(const ValueNode& object, std::string_view name) {
  const ValueNode* node = value_node(object, name);
  if (node == nullptr || node->text() == nullptr) return std::nullopt;
  return *node->text();
}

std::optional<TemperatureSpan> Figures::span(const ValueNode& object, std::string_view name) {
  const ValueNode* node = object.find(name);
  if (node == nullptr) return std::nullopt;
  const std::optional<Temperature> from = temperature(*node, "from");
  const std::optional<Temperature> to = temperature(*node, "to");
  if (!from || !to) return std::nullopt;
  return TemperatureSpan{*from, *to};
}

}  // namespace ohmwright::defrost_sensor
