#pragma once

#include <string>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/document/schema_lookup.hpp>

namespace ohmwright {

/// The problems behind one report of the schema library at `node`, in words that a person can act on: one or more for a
/// fault of the node itself, none for a report that only repeats what is wrong further inside.
///
/// `parts` are the parts of the schema that speak of the node (schema_lookup.hpp).
std::vector<Problem> problems_behind(const std::string& library_words, const ValueNode& node, const SchemaNodes& parts,
                                     const nlohmann::json& root);

/// Whether the report says that none, or more than one, of several alternatives fits.
bool is_about_alternatives(const std::string& library_words);

/// Whether the report says that more than one of several alternatives fits.
bool says_more_than_one(const std::string& library_words);

}  // namespace ohmwright
