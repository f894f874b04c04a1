#include "reading/notes.hpp"

#include <algorithm>
#include <set>

#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "model/definition.hpp"

namespace ohmwright::kind_file {

namespace {

/// Notes every text of the nodes that stands there before.
void check_once(const std::vector<const ValueNode*>& nodes, std::string_view sort, Notes& notes) {
  std::set<std::string_view> seen;
  for (const ValueNode* node : nodes) {
    if (node == nullptr || node->text() == nullptr || seen.insert(*node->text()).second) continue;
    notes.say(*node, "the " + std::string(sort) + " " + ohmwright::quoted(*node->text()) + " stands twice");
  }
}

}  // namespace

std::string_view text_in(const ValueNode& object, std::string_view field) {
  const ValueNode* node = object.find(field);
  return node != nullptr && node->text() != nullptr ? std::string_view(*node->text()) : std::string_view();
}

bool flag_in(const ValueNode& object, std::string_view field, bool otherwise) {
  const ValueNode* node = object.find(field);
  return node != nullptr && node->flag() != nullptr ? *node->flag() : otherwise;
}

std::optional<double> number_in(const ValueNode& object, std::string_view field) {
  const ValueNode* node = object.find(field);
  return node != nullptr && node->number() != nullptr ? std::optional(*node->number()) : std::nullopt;
}

const ValueNode::Array& list_in(const ValueNode& object, std::string_view field) {
  static const ValueNode::Array none;
  const ValueNode* node = object.find(field);
  return node != nullptr && node->array() != nullptr ? *node->array() : none;
}

std::vector<std::string_view> texts_in(const ValueNode& object, std::string_view field) {
  std::vector<std::string_view> texts;
  for (const ValueNode& node : list_in(object, field))
    if (node.text() != nullptr) texts.emplace_back(*node.text());
  return texts;
}

std::optional<double> quantity_in(const ValueNode& node, Dimension dimension, Notes& notes) {
  if (node.text() == nullptr) return std::nullopt;
  try {
    const StatedValue stated = parse_stated_value(*node.text(), dimension);
    if (!stated.half_width) return stated.value.value_in_si();
    notes.say(node, "a figure of a kind has no ± of its own; how far good parts may be off stands in the limits");
  } catch (const InputError& error) {
    notes.say(node, error.what());
  }
  return std::nullopt;
}

double half_width_in(const ValueNode& object, std::string_view field, Dimension dimension, Notes& notes) {
  const ValueNode* node = object.find(field);
  if (node == nullptr) return 0.0;
  const double half_width = quantity_in(*node, of_differences(dimension), notes).value_or(0.0);
  if (half_width >= 0.0) return half_width;
  notes.say(*node, "a half-width is zero or more, such as \"1 K\"");
  return 0.0;
}

Dimension dimension_in(const ValueNode& object, std::string_view field) {
  return dimension_named(text_in(object, field)).value_or(Dimension::ratio);
}

Dimension of_differences(Dimension dimension) {
  return dimension == Dimension::temperature ? Dimension::temperature_difference : dimension;
}

void check_ids_once(const ValueNode& object, std::string_view list, std::string_view sort, Notes& notes) {
  std::vector<const ValueNode*> ids;
  for (const ValueNode& row : list_in(object, list)) ids.push_back(row.find("id"));
  check_once(ids, sort, notes);
}

void check_texts_once(const ValueNode& object, std::string_view list, std::string_view sort, Notes& notes) {
  std::vector<const ValueNode*> texts;
  for (const ValueNode& node : list_in(object, list)) texts.push_back(&node);
  check_once(texts, sort, notes);
}

std::uint16_t terminal_named(const ValueNode& node, const Definition& definition, Notes& notes) {
  const auto& terminals = definition.descriptor.terminals;
  if (node.text() == nullptr) return not_found;
  const auto found = std::find(terminals.begin(), terminals.end(), *node.text());
  if (found != terminals.end()) return static_cast<std::uint16_t>(found - terminals.begin());
  const std::vector<std::string> known(terminals.begin(), terminals.end());
  notes.say(node, "there is no terminal " + ohmwright::quoted(*node.text()) + suggestion(*node.text(), known));
  return not_found;
}

std::string suggestion(std::string_view typed, const std::vector<std::string>& known) {
  if (known.empty()) return "; there is none";
  const std::string meant = did_you_mean(typed, known);
  return meant.empty() ? "; there is " + one_of(known) : meant;
}

}  // namespace ohmwright::kind_file
