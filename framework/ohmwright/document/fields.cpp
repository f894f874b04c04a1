#include <algorithm>
#include <utility>

#include <ohmwright/document/fields.hpp>

namespace ohmwright {

namespace {

/// Runs a reader of quantities, whose refusal becomes a problem at the node.
template <class Read>
auto read_text(const ValueNode* node, std::vector<Problem>& problems, Read read)
    -> std::optional<decltype(read(std::string()))> {
  if (node == nullptr || node->text() == nullptr || node->text()->empty()) return std::nullopt;
  try {
    return read(*node->text());
  } catch (const InputError& error) {
    problems.push_back(node->problem(error.what()));
    return std::nullopt;
  }
}

}  // namespace

std::string text_of(const ValueNode& object, std::string_view field) {
  const ValueNode* node = object.find(field);
  return node != nullptr && node->text() != nullptr ? *node->text() : std::string();
}

std::optional<double> number_of(const ValueNode& object, std::string_view field) {
  const ValueNode* node = object.find(field);
  return node != nullptr && node->number() != nullptr ? std::optional<double>(*node->number()) : std::nullopt;
}

bool flag_of(const ValueNode& object, std::string_view field) {
  const ValueNode* node = object.find(field);
  return node != nullptr && node->flag() != nullptr && *node->flag();
}

const ValueNode::Array& list_of(const ValueNode& object, std::string_view field) {
  static const ValueNode::Array none;
  const ValueNode* node = object.find(field);
  return node != nullptr && node->array() != nullptr ? *node->array() : none;
}

std::optional<StatedValue> quantity_of(const ValueNode* node, Dimension dimension, std::vector<Problem>& problems) {
  return read_text(node, problems,
                   [dimension](const std::string& text) { return parse_stated_value(text, dimension); });
}

std::optional<Observed> observed_of(const ValueNode* node, Dimension dimension, const ObservedOptions& options,
                                    std::vector<Problem>& problems) {
  return read_text(node, problems,
                   [dimension, &options](const std::string& text) { return parse_observed(text, dimension, options); });
}

void refuse_if_any(const std::string& file, std::vector<Problem> problems) {
  if (problems.empty()) return;
  std::stable_sort(problems.begin(), problems.end(),
                   [](const Problem& a, const Problem& b) { return a.line < b.line; });
  throw DocumentError(file, std::move(problems));
}

}  // namespace ohmwright
