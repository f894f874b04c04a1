#include <ohmwright/component/rated_figures.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {

namespace {

/// The node that holds a figure's value: the member itself, or its member "value".
const ValueNode* value_node(const ValueNode& object, std::string_view name) {
  const ValueNode* member = object.find(name);
  if (member == nullptr) return nullptr;
  const ValueNode* value = member->find("value");
  return value != nullptr ? value : member;
}

}  // namespace

void RatedFigures::refuse(const ValueNode& object, std::string_view name, std::string text) {
  const ValueNode* node = value_node(object, name);
  refuse(node != nullptr ? *node : object, std::move(text));
}

std::optional<double> RatedFigures::in_si(const ValueNode& object, std::string_view name, Dimension dimension) {
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

std::optional<double> RatedFigures::tolerance(const ValueNode& object, std::string_view name) {
  const std::optional<double> share = in_si(object, name, Dimension::ratio);
  if (!share || (*share > 0.0 && *share < 1.0)) return share;
  refuse(object, name, "a tolerance lies between 0 % and 100 %, both left out, such as \"5 %\"");
  return std::nullopt;
}

std::optional<int> RatedFigures::whole_number(const ValueNode& object, std::string_view name) {
  const ValueNode* node = object.find(name);
  if (node == nullptr || node->number() == nullptr) return std::nullopt;
  return static_cast<int>(*node->number());
}

std::string RatedFigures::word(const ValueNode& object, std::string_view name) {
  const ValueNode* node = object.find(name);
  return node != nullptr && node->text() != nullptr ? *node->text() : std::string();
}

}  // namespace ohmwright
