#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {

// Reading fields of a document whose schema has been checked, but perhaps not passed: what has the wrong type was told
// of by the schema and reads as absent here, so that what else is wrong can be told in the same go.

/// Text of that field, or "".
std::string text_of(const ValueNode& object, std::string_view field);
/// Number of that field, or nothing.
std::optional<double> number_of(const ValueNode& object, std::string_view field);
/// Whether that field is true.
bool flag_of(const ValueNode& object, std::string_view field);
/// Entries of that field, none when it is no list.
const ValueNode::Array& list_of(const ValueNode& object, std::string_view field);

/// The quantity that `node` states as text; what is wrong with it is added to `problems`. Null gives nothing.
std::optional<StatedValue> quantity_of(const ValueNode* node, Dimension dimension, std::vector<Problem>& problems);

/// Like `quantity_of`, for what a meter can show.
std::optional<Observed> observed_of(const ValueNode* node, Dimension dimension, const ObservedOptions& options,
                                    std::vector<Problem>& problems);

/// Ids of a descriptor's rows, for suggestions.
template <class Row>
std::vector<std::string> ids_of(const std::vector<Row>& rows) {
  std::vector<std::string> ids;
  for (const Row& row : rows) ids.emplace_back(row.id);
  return ids;
}

/// Throws DocumentError, problems in the file's order, when there is any.
void refuse_if_any(const std::string& file, std::vector<Problem> problems);

}  // namespace ohmwright
