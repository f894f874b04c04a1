#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <nlohmann/json_fwd.hpp>

#include <ohmwright/component/value_tree.hpp>

namespace ohmwright {

using SchemaNodes = std::vector<const nlohmann::json*>;

/// The parts of a schema that speak of one value: the schema itself, what it refers to, its allOf, and of then and else
/// the one that its if chooses for `node`; neither without a node. The alternatives of oneOf and anyOf are not among
/// them: which one was meant has to be found first.
SchemaNodes parts_of(const nlohmann::json& root, const nlohmann::json& schema, const ValueNode* node);

/// The parts that speak of the value `next`, reached by `step` (a field's name, or an index when `in_list`); null for a
/// value that is not there.
SchemaNodes step_into(const nlohmann::json& root, const SchemaNodes& parts, const std::string& step, bool in_list,
                      const ValueNode* next);

/// A schema of its own made from a part of `root`, so that the part's references into "definitions" still lead there.
nlohmann::json on_its_own(const nlohmann::json& root, const nlohmann::json& part);

/// The description nearest to the value, or nothing: "a quantity with its unit".
std::string description_of(const SchemaNodes& parts);

/// Names of the fields that the parts allow, in alphabetical order.
std::vector<std::string> known_fields(const SchemaNodes& parts);

/// Whether a field of that name is allowed by name or by pattern.
bool knows_field(const SchemaNodes& parts, const std::string& name);

/// Whether the schema's "type" admits the value; true without "type".
bool admits_type(const nlohmann::json& schema, const ValueNode& node);

/// "text", "a number", "a list": a schema's type in words; "" without one.
std::string types_in_words(const nlohmann::json& schema);

/// "the text "abc"", "the number 5", "a list", "an object", "null": what was found.
std::string found_in_words(const ValueNode& node);

}  // namespace ohmwright
