#include <algorithm>
#include <array>
#include <string_view>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/json_tree.hpp>
#include <ohmwright/document/schema_messages.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

using nlohmann::json;

bool starts_with(std::string_view text, std::string_view start) { return text.substr(0, start.size()) == start; }

/// What stands between the first two single quotes of the library's words: the name of a field.
std::string name_in(const std::string& library_words) {
  const std::size_t begin = library_words.find('\'') + 1;
  return library_words.substr(begin, library_words.rfind('\'') - begin);
}

/// ": what the schema says of it", or nothing.
std::string explained(const SchemaNodes& parts) {
  const std::string description = description_of(parts);
  return description.empty() ? description : ": " + description;
}

std::vector<Problem> unknown_fields(const ValueNode& node, const SchemaNodes& parts) {
  const std::vector<std::string> known = known_fields(parts);
  std::vector<Problem> problems;
  for (const auto& [name, member] : *node.members())
    if (!knows_field(parts, name))
      problems.push_back(member.problem("unknown field " + ohmwright::quoted(name) + suggestion(name, known)));
  return problems;
}

Problem missing_field(const std::string& name, const ValueNode& node, const SchemaNodes& parts, const json& root) {
  std::string text =
      "the field " + ohmwright::quoted(name) + " is missing" + explained(step_into(root, parts, name, false, nullptr));
  // Most often it is there under a slightly wrong name.
  for (const auto& [present, member] : *node.members())
    if (!knows_field(parts, present) && !did_you_mean(present, std::vector<std::string>{name}).empty())
      text += " (is it " + ohmwright::quoted(present) + "?)";
  return node.problem(text);
}

Problem wrong_type(const ValueNode& node, const SchemaNodes& parts) {
  std::string expected;
  for (const json* part : parts)
    if (!admits_type(*part, node)) expected = types_in_words(*part);
  return node.problem("found " + found_in_words(node) + "; expected " + expected + explained(parts));
}

/// The accepted values as words; texts in quotes, anything else as JSON.
Problem not_in_list(const ValueNode& node, const SchemaNodes& parts) {
  const json value = to_json(node);
  std::vector<std::string> words;
  for (const json* part : parts) {
    const auto found = part->find("enum");
    if (found == part->end() || std::find(found->begin(), found->end(), value) != found->end()) continue;
    for (const json& accepted : *found)
      words.push_back(accepted.is_string() ? accepted.get<std::string>() : accepted.dump());
    break;
  }
  const std::string meant = node.text() != nullptr ? did_you_mean(*node.text(), words) : std::string();
  return node.problem("found " + found_in_words(node) + "; expected " + one_of(words) + meant);
}

Problem not_the_constant(const ValueNode& node, const SchemaNodes& parts) {
  const json value = to_json(node);
  for (const json* part : parts)
    if (const auto found = part->find("const"); found != part->end() && *found != value)
      return node.problem("found " + found_in_words(node) + "; expected " + found->dump());
  return node.problem("found " + found_in_words(node) + "; expected another value");
}

Problem not_in_pattern(const ValueNode& node, const SchemaNodes& parts) {
  std::string expected = description_of(parts);
  for (const json* part : parts)
    if (const auto found = part->find("pattern"); expected.empty() && found != part->end())
      expected = "text that fits the pattern " + found->get<std::string>();
  return node.problem("found " + found_in_words(node) + "; expected " + expected);
}

struct Bound {
  const char* keyword;
  const char* words;
  bool (*broken)(const ValueNode& node, double bound);
};

double items_of(const ValueNode& node) { return node.array() ? static_cast<double>(node.array()->size()) : 0.0; }
double fields_of(const ValueNode& node) { return node.members() ? static_cast<double>(node.members()->size()) : 0.0; }
double letters_of(const ValueNode& node) {
  if (node.text() == nullptr) return 0.0;
  return static_cast<double>(std::count_if(node.text()->begin(), node.text()->end(),
                                           [](char c) { return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U; }));
}

constexpr std::array<Bound, 10> bounds{{
    {"minimum", "at least {}", [](const ValueNode& n, double b) { return n.number() && *n.number() < b; }},
    {"maximum", "at most {}", [](const ValueNode& n, double b) { return n.number() && *n.number() > b; }},
    {"exclusiveMinimum", "more than {}", [](const ValueNode& n, double b) { return n.number() && *n.number() <= b; }},
    {"exclusiveMaximum", "less than {}", [](const ValueNode& n, double b) { return n.number() && *n.number() >= b; }},
    {"minLength", "{} characters or more", [](const ValueNode& n, double b) { return n.text() && letters_of(n) < b; }},
    {"maxLength", "{} characters or fewer", [](const ValueNode& n, double b) { return n.text() && letters_of(n) > b; }},
    {"minItems", "a list of {} or more", [](const ValueNode& n, double b) { return n.array() && items_of(n) < b; }},
    {"maxItems", "a list of {} or fewer", [](const ValueNode& n, double b) { return n.array() && items_of(n) > b; }},
    {"minProperties", "{} fields or more",
     [](const ValueNode& n, double b) { return n.members() && fields_of(n) < b; }},
    {"maxProperties", "{} fields or fewer",
     [](const ValueNode& n, double b) { return n.members() && fields_of(n) > b; }},
}};

std::vector<Problem> broken_bounds(const ValueNode& node, const SchemaNodes& parts) {
  std::vector<Problem> problems;
  for (const json* part : parts)
    for (const Bound& bound : bounds) {
      const auto found = part->find(bound.keyword);
      if (found == part->end() || !found->is_number() || !bound.broken(node, found->get<double>())) continue;
      const std::string expected = fmt::format(fmt::runtime(bound.words), found->get<double>());
      const std::string count = node.array() ? fmt::format(" of {}", items_of(node)) : std::string();
      problems.push_back(
          node.problem("found " + found_in_words(node) + count + "; expected " + expected + explained(parts)));
    }
  return problems;
}

/// Reports of values around the fault, which add nothing.
bool only_repeats(const std::string& words) {
  return starts_with(words, "Failed to validate against schema associated with") ||
         starts_with(words, "Failed to validate item #") ||
         starts_with(words, "Failed to validate against child schema") ||
         starts_with(words, "Failed to validate against additional properties") ||
         starts_with(words, "Failed to validate against a conditional schema") ||
         starts_with(words, "Failed to validate against dependent schema");
}

}  // namespace

bool says_more_than_one(const std::string& library_words) {
  return starts_with(library_words, "Failed to validate against exactly one");
}

bool is_about_alternatives(const std::string& library_words) {
  return starts_with(library_words, "Failed to validate against any") || says_more_than_one(library_words);
}

std::vector<Problem> problems_behind(const std::string& words, const ValueNode& node, const SchemaNodes& parts,
                                     const json& root) {
  if (only_repeats(words)) return {};
  if (starts_with(words, "Object contains a property") && node.members() != nullptr) return unknown_fields(node, parts);
  if (starts_with(words, "Missing required property") && node.members() != nullptr)
    return {missing_field(name_in(words), node, parts, root)};
  if (starts_with(words, "Value type not permitted")) return {wrong_type(node, parts)};
  if (starts_with(words, "Failed to match against any enum")) return {not_in_list(node, parts)};
  if (starts_with(words, "Failed to match expected value")) return {not_the_constant(node, parts)};
  if (starts_with(words, "Failed to match regex")) return {not_in_pattern(node, parts)};
  if (starts_with(words, "Missing dependency"))
    return {
        node.problem("the field " + ohmwright::quoted(name_in(words)) + " is missing; another field here needs it")};
  if (starts_with(words, "Target should not validate"))
    return {node.problem("found " + found_in_words(node) + ", which is not accepted here" + explained(parts))};
  std::vector<Problem> bounds_problems = broken_bounds(node, parts);
  if (!bounds_problems.empty()) return bounds_problems;
  return {node.problem(words + explained(parts))};
}

}  // namespace ohmwright
