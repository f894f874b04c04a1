#pragma once

#include <algorithm>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/document/fields.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

// Names of a file turned into indices; what is not there becomes a problem with its place. Between source files of this
// area.

/// Index of the row with the id that `node` names. Null or no text gives nothing (the schema says so); an id that is
/// not there is noted.
template <class Row>
std::optional<std::size_t> find_named(const ValueNode* node, const std::string& what, const std::vector<Row>& rows,
                                      std::vector<Problem>& problems) {
  if (node == nullptr || node->text() == nullptr) return std::nullopt;
  const auto found = std::find_if(rows.begin(), rows.end(), [&](const Row& row) { return row.id == *node->text(); });
  if (found != rows.end()) return static_cast<std::size_t>(found - rows.begin());
  problems.push_back(node->problem("there is no " + what + " " + ohmwright::quoted(*node->text()) +
                                   suggestion(*node->text(), ids_of(rows))));
  return std::nullopt;
}

/// The same for each entry of a list.
template <class Row>
std::vector<std::size_t> find_all_named(const ValueNode& object, std::string_view field, const std::string& what,
                                        const std::vector<Row>& rows, std::vector<Problem>& problems) {
  std::vector<std::size_t> all;
  for (const ValueNode& entry : list_of(object, field))
    if (const auto index = find_named(&entry, what, rows, problems)) all.push_back(*index);
  return all;
}

/// "heater.lead-1" in its two parts; the second is empty without a dot.
inline std::pair<std::string, std::string> split_at_dot(const std::string& text) {
  const std::size_t dot = text.find('.');
  return dot == std::string::npos ? std::pair(text, std::string())
                                  : std::pair(text.substr(0, dot), text.substr(dot + 1));
}

/// Notes ids that stand twice.
template <class Row>
void refuse_twins(const ValueNode& root, std::string_view field, const std::vector<Row>& rows,
                  std::vector<Problem>& problems) {
  const ValueNode::Array& entries = list_of(root, field);
  for (std::size_t i = 1; i < rows.size() && i < entries.size(); ++i)
    for (std::size_t j = 0; j < i; ++j)
      if (!rows[i].id.empty() && rows[i].id == rows[j].id) {
        problems.push_back(entries[i].problem("the name " + ohmwright::quoted(rows[i].id) + " stands twice"));
        break;
      }
}

}  // namespace ohmwright
