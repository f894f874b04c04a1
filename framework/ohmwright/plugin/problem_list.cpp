#include <algorithm>

#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/problem_list.hpp>

namespace ohmwright {

namespace {

bool is_digit(char c) { return c >= '0' && c <= '9'; }

bool is_field_name(std::string_view name) {
  const auto starts = [](char c) { return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_'; };
  return !name.empty() && starts(name.front()) &&
         std::all_of(name.begin(), name.end(), [&](char c) { return starts(c) || is_digit(c); });
}

/// Whether there are only characters that every terminal shows as they are, which is nearly always so.
bool is_plainly_shown(std::string_view text) {
  return std::all_of(text.begin(), text.end(), [](char c) { return c >= ' ' && c <= '~'; });
}

/// Whether every brace is part of a {name} or doubled.
bool fields_can_be_read(std::string_view pattern) {
  for (std::size_t at = 0; at < pattern.size(); ++at) {
    if (pattern[at] != '{' && pattern[at] != '}') continue;
    if (at + 1 < pattern.size() && pattern[at + 1] == pattern[at]) {
      ++at;
      continue;
    }
    const std::size_t close = pattern.find('}', at);
    if (pattern[at] == '}' || close == std::string_view::npos) return false;
    if (!is_field_name(pattern.substr(at + 1, close - at - 1))) return false;
    at = close;
  }
  return true;
}

}  // namespace

bool is_descriptor_id(std::string_view id) {
  return !id.empty() && std::all_of(id.begin(), id.end(), [](char c) {
    return (c >= 'a' && c <= 'z') || is_digit(c) || c == '-' || c == '_';
  });
}

void ProblemList::needs(std::string_view sort, std::string_view id, std::string_view what, std::string_view text) {
  // Words are only put together for what is wrong: this is asked of every text at every start.
  const auto row = [&] { return std::string(sort) + " " + ohmwright::quoted(id); };
  if (text.find_first_not_of(' ') == std::string_view::npos) say(row() + " has no " + std::string(what));
  if (!is_plainly_shown(text) && one_line(text, text.size()) != text)
    say(row() + " has a " + std::string(what) + " that cannot be shown: " + ohmwright::quoted(text));
}

void ProblemList::check_plain_ids(const std::string& sort, const std::vector<std::string_view>& ids) {
  for (auto id = ids.begin(); id != ids.end(); ++id) {
    if (!is_descriptor_id(*id)) say(sort + " " + ohmwright::quoted(*id) + " must be named with a-z, 0-9, - and _");
    if (std::find(ids.begin(), id, *id) != id) say(sort + " " + ohmwright::quoted(*id) + " stands twice");
  }
}

void ProblemList::check_text(const std::string& sort, std::string_view id, std::string_view english) {
  needs(sort, id, "text", english);
  if (fields_can_be_read(english)) return;
  say(sort + " " + ohmwright::quoted(id) +
      " has braces that are no field; write {name}, or {{ and }} for braces: " + ohmwright::quoted(english));
}

}  // namespace ohmwright
