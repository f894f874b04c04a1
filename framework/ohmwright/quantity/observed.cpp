#include <algorithm>
#include <array>
#include <cassert>
#include <string>
#include <vector>

#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

// The zero is how a seven-segment display shows the letter O.
constexpr std::array<std::string_view, 11> over_range_words{"ol",  "o.l", "0.l",  "0l",   ".ol",     ".0l",
                                                            "ol.", "0l.", "ovld", "over", "overload"};
constexpr std::array<std::string_view, 3> lone_ones{"1", "1.", "1 ."};

template <std::size_t count>
bool is_one_of(std::string_view text, const std::array<std::string_view, count>& words) {
  return std::find(words.begin(), words.end(), text) != words.end();
}

/// "OL", "OL Mohm"
std::optional<OverRange> over_range_in(std::string_view text, Dimension expected) {
  const std::size_t word_end = std::min(text.find_first_of(" \t"), text.size());
  if (!is_over_range_word(text.substr(0, word_end))) return std::nullopt;
  const std::string_view unit_text = without_blanks_around(text.substr(word_end));
  if (unit_text.empty()) return OverRange{};
  const std::optional<Unit> unit = Unit::named(unit_text, expected);
  // No meter shows a ratio's unit one.
  if (!unit || unit->symbol().empty()) return std::nullopt;
  return OverRange{unit};
}

/// "> 200 Mohm", as testers of insulation show what lies past their range.
std::optional<OverRange> past_named_end(std::string_view text, Dimension expected, const StatedValueOptions& options) {
  if (!text.starts_with('>')) return std::nullopt;
  const StatedValue end = parse_stated_value(text.substr(1), expected, options);
  if (end.half_width) throw InputError(quoted(text) + " is past a range, which has no uncertainty; leave the ± out");
  return OverRange{std::nullopt, end.value};
}

std::vector<std::string_view> words_taken(const ObservedOptions& options) {
  std::vector<std::string_view> words;
  if (options.contact_words) words.insert(words.end(), {"open", "closed"});
  if (options.continuity_sound) words.insert(words.end(), {"beep", "no beep"});
  if (options.over_range) words.emplace_back("OL");
  return words;
}

}  // namespace

bool is_over_range_word(std::string_view text) { return is_one_of(lower_case(text), over_range_words); }

namespace {

/// Who types "open" of a part that is no contact has read the meter already: the way on is what it showed.
void refuse_contact_word(std::string_view word, Dimension expected) {
  if (expected != Dimension::resistance) return;
  for (const std::string_view known : {"open", "closed", "short", "shorted"})
    if (word == known)
      throw InputError(quoted(word) +
                       " is no reading of this: write what the meter showed, \"OL\" of an open part, the ohms of a "
                       "shorted one (\"0.2 ohm\")");
}

}  // namespace

Observed parse_observed(std::string_view text, Dimension expected, const ObservedOptions& options) {
  const std::vector<std::string_view> words = words_taken(options);
  assert(options.values || !words.empty());
  if (text.size() <= longest_quantity_text) {
    const std::string_view shown = without_blanks_around(text);
    const std::string word = lower_case(shown);
    if (options.lone_one_is_over && is_one_of(word, lone_ones)) return OverRange{};
    if (options.contact_words && word == "open") return ContactState::open;
    if (options.contact_words && word == "closed") return ContactState::closed;
    if (options.continuity_sound && word == "beep") return ContactState::closed;
    if (options.continuity_sound && word == "no beep") return ContactState::open;
    if (options.over_range) {
      if (const std::optional<OverRange> over = over_range_in(shown, expected)) return *over;
    }
  }
  if (!options.values) {
    throw InputError("expected " + one_of(words) + ", got " + (text.empty() ? "nothing" : quoted(text)));
  }
  if (text.size() <= longest_quantity_text) refuse_contact_word(lower_case(without_blanks_around(text)), expected);
  StatedValueOptions value_options;
  value_options.default_unit = options.default_unit;
  value_options.usual_unit = options.usual_unit;
  if (!words.empty()) value_options.or_else = ", or " + one_of(words);
  if (options.names_range_end && text.size() <= longest_quantity_text) {
    if (const std::optional<OverRange> over = past_named_end(without_blanks_around(text), expected, value_options))
      return *over;
  }
  return parse_stated_value(text, expected, value_options);
}

}  // namespace ohmwright
