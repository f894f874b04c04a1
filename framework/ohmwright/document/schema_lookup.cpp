#include <algorithm>
#include <array>
#include <regex>
#include <utility>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/json_tree.hpp>
#include <ohmwright/document/schema_engine.hpp>
#include <ohmwright/document/schema_lookup.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

using nlohmann::json;

constexpr int deepest_reference = 32;

const json* member(const json& object, const char* name) {
  if (!object.is_object()) return nullptr;
  const auto found = object.find(name);
  return found == object.end() ? nullptr : &*found;
}

const json* referred(const json& root, const json& schema) {
  const json* reference = member(schema, "$ref");
  if (reference == nullptr || !reference->is_string()) return nullptr;
  const auto& text = reference->get_ref<const std::string&>();
  if (text.empty() || text.front() != '#') return nullptr;
  try {
    const json::json_pointer pointer(text.substr(1));
    return root.contains(pointer) ? &root.at(pointer) : nullptr;
  } catch (const json::exception&) {
    return nullptr;
  }
}

/// "then" or "else", whichever the "if" of the schema chooses for the value; null without one.
const json* chosen_branch(const json& root, const json& schema, const ValueNode* node) {
  const json* condition = member(schema, "if");
  if (condition == nullptr || node == nullptr) return nullptr;
  const bool holds = SchemaEngine(on_its_own(root, *condition)).check(to_json(*node)).empty();
  return member(schema, holds ? "then" : "else");
}

void collect(const json& root, const json& schema, const ValueNode* node, SchemaNodes& parts, int depth) {
  if (!schema.is_object() || depth > deepest_reference) return;
  parts.push_back(&schema);
  if (const json* target = referred(root, schema)) collect(root, *target, node, parts, depth + 1);
  if (const json* all = member(schema, "allOf"); all != nullptr && all->is_array())
    for (const json& part : *all) collect(root, part, node, parts, depth + 1);
  if (const json* branch = chosen_branch(root, schema, node)) collect(root, *branch, node, parts, depth + 1);
}

void append(SchemaNodes& all, SchemaNodes more) { all.insert(all.end(), more.begin(), more.end()); }

bool matches(const std::string& name, const std::string& pattern) {
  try {
    return std::regex_search(name, std::regex(pattern));
  } catch (const std::regex_error&) {
    return false;
  }
}

const json* for_item(const json& part, const std::string& index) {
  const json* items = member(part, "items");
  if (items == nullptr || !items->is_array()) return items;
  const std::size_t place = std::stoul(index);
  return place < items->size() ? &(*items)[place] : member(part, "additionalItems");
}

void step_into_field(const json& root, const json& part, const std::string& name, const ValueNode* next,
                     SchemaNodes& result) {
  bool named = false;
  if (const json* properties = member(part, "properties"))
    if (const json* property = member(*properties, name.c_str())) {
      append(result, parts_of(root, *property, next));
      named = true;
    }
  if (const json* patterns = member(part, "patternProperties"))
    for (const auto& [pattern, schema] : patterns->items())
      if (matches(name, pattern)) {
        append(result, parts_of(root, schema, next));
        named = true;
      }
  if (const json* others = member(part, "additionalProperties"); others != nullptr && !named)
    append(result, parts_of(root, *others, next));
}

std::string type_in_words(const json& type) {
  static constexpr std::array<std::pair<const char*, const char*>, 7> words{{{"string", "text"},
                                                                             {"number", "a number"},
                                                                             {"integer", "a whole number"},
                                                                             {"object", "an object"},
                                                                             {"array", "a list"},
                                                                             {"boolean", "true or false"},
                                                                             {"null", "null"}}};
  for (const auto& [name, word] : words)
    if (type == name) return word;
  return type.dump();
}

bool is_type(const json& value, const json& type) {
  if (type == "string") return value.is_string();
  if (type == "number") return value.is_number();
  if (type == "integer") return value.is_number_integer();
  if (type == "object") return value.is_object();
  if (type == "array") return value.is_array();
  if (type == "boolean") return value.is_boolean();
  return value.is_null();
}

}  // namespace

json on_its_own(const json& root, const json& part) {
  json schema = {{"allOf", json::array({part})}};
  if (const json* definitions = member(root, "definitions")) schema["definitions"] = *definitions;
  return schema;
}

SchemaNodes parts_of(const json& root, const json& schema, const ValueNode* node) {
  SchemaNodes parts;
  collect(root, schema, node, parts, 0);
  return parts;
}

SchemaNodes step_into(const json& root, const SchemaNodes& parts, const std::string& step, bool in_list,
                      const ValueNode* next) {
  SchemaNodes result;
  for (const json* part : parts) {
    if (!in_list)
      step_into_field(root, *part, step, next, result);
    else if (const json* item = for_item(*part, step))
      append(result, parts_of(root, *item, next));
  }
  return result;
}

std::string description_of(const SchemaNodes& parts) {
  for (const json* part : parts)
    if (const json* text = member(*part, "description"); text != nullptr && text->is_string()) return *text;
  return {};
}

std::vector<std::string> known_fields(const SchemaNodes& parts) {
  std::vector<std::string> names;
  for (const json* part : parts)
    if (const json* properties = member(*part, "properties"))
      for (const auto& [name, schema] : properties->items())
        if (schema != false) names.push_back(name);
  std::sort(names.begin(), names.end());
  names.erase(std::unique(names.begin(), names.end()), names.end());
  return names;
}

bool knows_field(const SchemaNodes& parts, const std::string& name) {
  for (const json* part : parts) {
    if (const json* properties = member(*part, "properties"); properties != nullptr && properties->contains(name))
      return true;
    if (const json* patterns = member(*part, "patternProperties"))
      for (const auto& [pattern, schema] : patterns->items())
        if (matches(name, pattern)) return true;
  }
  return false;
}

bool admits_type(const json& schema, const ValueNode& node) {
  const json* type = member(schema, "type");
  if (type == nullptr) return true;
  const json value = node.array() != nullptr     ? json::array()
                     : node.members() != nullptr ? json::object()
                                                 : to_json(node);
  if (!type->is_array()) return is_type(value, *type);
  return std::any_of(type->begin(), type->end(), [&value](const json& one) { return is_type(value, one); });
}

std::string types_in_words(const json& schema) {
  const json* type = member(schema, "type");
  if (type == nullptr) return {};
  if (!type->is_array()) return type_in_words(*type);
  std::string words;
  for (const json& one : *type) words += (words.empty() ? "" : " or ") + type_in_words(one);
  return words;
}

std::string found_in_words(const ValueNode& node) {
  if (const std::string* text = node.text()) return ohmwright::quoted(*text);
  if (node.array() != nullptr) return "a list";
  if (node.members() != nullptr) return "an object";
  if (const double* number = node.number()) return fmt::format("the number {}", *number);
  return to_json(node).dump();
}

}  // namespace ohmwright
