#include <algorithm>
#include <array>
#include <cassert>
#include <string>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

// The zero is how a seven-segment display shows the letter O.
constexpr std::array<std::string_view, 10> over_range_words{"ol",  "o.l", "0.l", "0l",   ".ol",
                                                            ".0l", "ol.", "0l.", "over", "overload"};
constexpr std::array<std::string_view, 3> lone_ones{"1", "1.", "1 ."};

template <std::size_t count>
bool is_one_of(std::string_view text, const std::array<std::string_view, count>& words) {
  return std::find(words.begin(), words.end(), text) != words.end();
}

std::string_view without_spaces_around(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t") - first + 1);
}

std::string lower_case(std::string_view text) {
  std::string lower(text);
  for (char& letter : lower) {
    if (letter >= 'A' && letter <= 'Z') letter = static_cast<char>(letter - 'A' + 'a');
  }
  return lower;
}

/// "OL", "OL Mohm"
std::optional<OverRange> over_range_in(std::string_view text, Dimension expected) {
  const std::size_t word_end = std::min(text.find_first_of(" \t"), text.size());
  if (!is_one_of(lower_case(text.substr(0, word_end)), over_range_words)) return std::nullopt;
  const std::string_view unit_text = without_spaces_around(text.substr(word_end));
  if (unit_text.empty()) return OverRange{};
  const std::optional<Unit> unit = Unit::named(unit_text, expected);
  // No meter shows a ratio's unit one.
  if (!unit || unit->symbol().empty()) return std::nullopt;
  return OverRange{unit};
}

std::vector<std::string_view> words_taken(const ObservedOptions& options) {
  std::vector<std::string_view> words;
  if (options.contact_words) words.insert(words.end(), {"open", "closed"});
  if (options.continuity_sound) words.insert(words.end(), {"beep", "no beep"});
  if (options.over_range) words.emplace_back("OL");
  return words;
}

/// `"open", "closed" or "OL"`
std::string list_of(const std::vector<std::string_view>& words) {
  std::string text;
  for (std::size_t place = 0; place < words.size(); ++place) {
    if (place > 0) text += place + 1 == words.size() ? " or " : ", ";
    text += '"';
    text += words[place];
    text += '"';
  }
  return text;
}

}  // namespace

Observed parse_observed(std::string_view text, Dimension expected, const ObservedOptions& options) {
  const std::vector<std::string_view> words = words_taken(options);
  assert(options.values || !words.empty());
  if (text.size() <= longest_quantity_text) {
    const std::string_view shown = without_spaces_around(text);
    const std::string word = lower_case(shown);
    if (options.lone_one_is_over && is_one_of(word, lone_ones)) return OverRange{};
    if (options.contact_words && word == "open") return ContactState::open;
    if (options.contact_words && word == "closed") return ContactState::closed;
    if (options.continuity_sound && word == "beep") return ContactState::closed;
    if (options.continuity_sound && word == "no beep") return OverRange{};
    if (options.over_range) {
      if (const std::optional<OverRange> over = over_range_in(shown, expected)) return *over;
    }
  }
  if (!options.values) {
    throw InputError("expected " + list_of(words) + ", got " + (text.empty() ? "nothing" : quoted(text)));
  }
  StatedValueOptions value_options;
  value_options.default_unit = options.default_unit;
  if (!words.empty()) value_options.or_else = ", or " + list_of(words);
  return parse_stated_value(text, expected, value_options);
}

}  // namespace ohmwright
