#include <algorithm>
#include <optional>

#include <fmt/core.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/json_tree.hpp>
#include <ohmwright/document/schema_alternatives.hpp>
#include <ohmwright/document/schema_lookup.hpp>
#include <ohmwright/document/wording.hpp>

namespace ohmwright {

namespace {

using nlohmann::json;

/// The words that the alternative accepts for that field, when it accepts only certain ones.
std::vector<std::string> words_accepted(const json& root, const SchemaNodes& parts, const std::string& field) {
  std::vector<std::string> words;
  for (const json* part : step_into(root, parts, field, false, nullptr)) {
    if (const auto constant = part->find("const"); constant != part->end() && constant->is_string())
      words.push_back(*constant);
    if (const auto list = part->find("enum"); list != part->end())
      for (const json& word : *list)
        if (word.is_string()) words.push_back(word);
  }
  return words;
}

struct Candidate {
  const json* schema = nullptr;
  int likeness = 0;
  const ValueNode* contradicted_by = nullptr;  ///< a field whose word is not one that this alternative accepts
  std::vector<std::string> accepted_there;
};

Candidate compared(const json& root, const json& alternative, const ValueNode& node) {
  Candidate candidate{&alternative, 0, nullptr, {}};
  const SchemaNodes parts = parts_of(root, alternative, &node);
  if (node.members() == nullptr) return candidate;
  for (const auto& [name, member] : *node.members()) {
    candidate.likeness += knows_field(parts, name) ? 1 : -1;
    const std::vector<std::string> words = words_accepted(root, parts, name);
    if (words.empty() || member.text() == nullptr) continue;
    if (std::find(words.begin(), words.end(), *member.text()) != words.end())
      candidate.likeness += 100;
    else {
      candidate.contradicted_by = &member;
      candidate.accepted_there = words;
    }
  }
  return candidate;
}

/// What an alternative says of itself, its type, or the fields that it needs.
std::string alternative_in_words(const json& root, const json& alternative) {
  const SchemaNodes parts = parts_of(root, alternative, nullptr);
  std::string words = description_of(parts);
  for (const json* part : parts)
    if (words.empty()) words = types_in_words(*part);
  for (const json* part : parts)
    if (const auto needed = part->find("required"); words.empty() && needed != part->end())
      for (const json& field : *needed) words += (words.empty() ? "one with " : " and ") + field.dump();
  return words;
}

std::string alternatives_in_words(const json& root, const json& alternatives) {
  std::vector<std::string> words;
  for (const json& alternative : alternatives) {
    const std::string word = alternative_in_words(root, alternative);
    if (!word.empty() && std::find(words.begin(), words.end(), word) == words.end()) words.push_back(word);
  }
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text += (i == 0 ? "; expected " : i + 1 == words.size() ? " or " : ", ") + words[i];
  return text;
}

bool admits(const json& root, const json& alternative, const ValueNode& node) {
  const SchemaNodes parts = parts_of(root, alternative, nullptr);
  return std::all_of(parts.begin(), parts.end(), [&node](const json* part) { return admits_type(*part, node); });
}

/// When every alternative is contradicted by the same field: the words that all of them accept there.
std::optional<Problem> wrong_word(const std::vector<Candidate>& candidates) {
  const ValueNode* field = candidates.front().contradicted_by;
  std::vector<std::string> words;
  for (const Candidate& candidate : candidates) {
    if (candidate.contradicted_by == nullptr || candidate.contradicted_by != field) return std::nullopt;
    words.insert(words.end(), candidate.accepted_there.begin(), candidate.accepted_there.end());
  }
  return field->problem("found " + found_in_words(*field) + "; expected " + one_of(words) +
                        did_you_mean(*field->text(), words));
}

}  // namespace

Problem more_than_one_fits(const json& root, const json& alternatives, const ValueNode& node) {
  return node.problem("found " + found_in_words(node) + " that fits more than one of the accepted forms" +
                      alternatives_in_words(root, alternatives) + ", not several at once");
}

std::variant<const json*, Problem> meant_alternative(const json& root, const json& alternatives,
                                                     const ValueNode& node) {
  const Problem none_fits = node.problem("found " + found_in_words(node) + " that fits none of the accepted forms" +
                                         alternatives_in_words(root, alternatives));
  std::vector<Candidate> candidates;
  for (const json& alternative : alternatives)
    if (admits(root, alternative, node)) candidates.push_back(compared(root, alternative, node));
  if (candidates.empty())
    return node.problem("found " + found_in_words(node) + alternatives_in_words(root, alternatives));
  if (std::optional<Problem> problem = wrong_word(candidates)) return *std::move(problem);
  candidates.erase(std::remove_if(candidates.begin(), candidates.end(),
                                  [](const Candidate& c) { return c.contradicted_by != nullptr; }),
                   candidates.end());
  std::stable_sort(candidates.begin(), candidates.end(),
                   [](const Candidate& a, const Candidate& b) { return a.likeness > b.likeness; });
  if (candidates.empty()) return none_fits;
  if (candidates.size() > 1 && candidates[0].likeness == candidates[1].likeness) return none_fits;
  return candidates.front().schema;
}

}  // namespace ohmwright
