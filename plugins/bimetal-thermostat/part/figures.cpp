#include "part/figures.hpp"

#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright::bimetal_thermostat {

namespace {

/// The node that holds a figure's value: the member itself, or its member "value".
const ValueNode* value_node(const ValueNode& object, std::string_view name) {
  const ValueNode* member = object.find(name);
  if (member == nullptr) return nullptr;
  const ValueNode* value = member->find("value");
  return value != nullptr ? value : member;
}

}  // namespace

void Figures::refuse(const ValueNode& object, std::string_view name, std::string text) {
  const ValueNode* node = value_node(object, name);
  refuse(node != nullptr ? *node : object, std::move(text));
}

std::optional<double> Figures::number_in_si(const ValueNode& object, std::string_view name, Dimension dimension) {
  const ValueNode* node = value_node(object, name);
  if (node == nullptr || node->text() == nullptr) return std::nullopt;
  try {
    const StatedValue stated = parse_stated_value(*node->text(), dimension);
    if (!stated.half_width) return stated.value.value_in_si();
    refuse(*node, "a rating has no ± of its own; how far good parts may be off stands under \"tolerance\"");
  } catch (const InputError& error) {
    refuse(*node, error.what());
  }
  return std::nullopt;
}

std::optional<Temperature> Figures::temperature(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::temperature);
  return value ? std::optional(Temperature::from_kelvin(*value)) : std::nullopt;
}

std::optional<TemperatureDifference> Figures::difference(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::temperature_difference);
  return value ? std::optional(TemperatureDifference::from_value(*value)) : std::nullopt;
}

std::optional<Resistance> Figures::resistance(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::resistance);
  return value ? std::optional(Resistance::from_value(*value)) : std::nullopt;
}

std::optional<Current> Figures::current(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::current);
  return value ? std::optional(Current::from_value(*value)) : std::nullopt;
}

std::optional<Voltage> Figures::voltage(const ValueNode& object, std::string_view name) {
  const std::optional<double> value = number_in_si(object, name, Dimension::voltage);
  return value ? std::optional(Voltage::from_value(*value)) : std::nullopt;
}

std::optional<int> Figures::whole_number(const ValueNode& object, std::string_view name) {
  const ValueNode* node = object.find(name);
  if (node == nullptr || node->number() == nullptr) return std::nullopt;
  return static_cast<int>(*node->number());
}

std::string Figures::word(const ValueNode& object, std::string_view name) {
  const ValueNode* node = object.find(name);
  return node != nullptr && node->text() != nullptr ? *node->text() : std::string();
}

}  // namespace ohmwright::bimetal_thermostat
