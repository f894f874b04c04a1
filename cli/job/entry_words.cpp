#include "job/entry_words.hpp"

#include <nlohmann/json.hpp>

#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

/// A value of an entry for people; empty for records, which are for programs.
std::string value_words(const nlohmann::ordered_json& value) {
  if (value.is_string()) return value.get<std::string>();
  if (value.is_boolean()) return value.get<bool>() ? "yes" : "no";
  return value.is_number() ? value.dump() : std::string();
}

}  // namespace

std::string entry_words(const job::Entry& entry, std::size_t longest) {
  const auto content = nlohmann::ordered_json::parse(entry.content, nullptr, false);
  std::string words;
  if (content.is_object())
    for (const auto& [name, value] : content.items()) {
      const std::string text = name == job::act_field ? std::string() : value_words(value);
      if (!text.empty()) words += (words.empty() ? "" : "; ") + name + ": " + text;
    }
  words = printable(words);
  if (words.size() <= longest) return words;
  std::size_t end = longest;
  while (end > 0 && (static_cast<unsigned char>(words[end]) & 0xC0U) == 0x80U) --end;
  return words.substr(0, end) + "…";
}

}  // namespace ohmwright::cli
