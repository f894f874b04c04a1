#include "word_stream.hpp"

#include <algorithm>
#include <string_view>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright::cli {

namespace {

bool starts_with_digit(std::string_view word) { return !word.empty() && word.front() >= '0' && word.front() <= '9'; }

/// What stands behind the last digit of a value, perhaps the start of its unit; nothing for a word without digits.
std::optional<std::string> unit_begun_in(std::string_view value) {
  if (is_over_range_word(value)) return "";
  const std::size_t last = value.find_last_of("0123456789");
  if (last == std::string_view::npos) return std::nullopt;
  std::string_view begun = value.substr(last + 1);
  if (begun.substr(0, 1) == ".") begun.remove_prefix(1);
  return std::string(begun);
}

}  // namespace

bool is_option(std::string_view word) { return word.size() > 2 && word.substr(0, 2) == "--"; }

void WordStream::join_unit(std::string& value, Dimension dimension) {
  const std::optional<std::string> begun = unit_begun_in(value);
  if (!begun) return;
  constexpr std::size_t longest = 2;                   // "deg" "C"
  if (at_end() || starts_with_digit(front())) return;  // another value; "1" would be the unit of a ratio
  for (std::size_t count = std::min(longest, words_.size() - next_); count > 0; --count) {
    std::string words;
    for (std::size_t i = 0; i < count; ++i) words += " " + words_[next_ + i];
    if (!Unit::named(*begun + words, dimension)) continue;
    value += words;
    next_ += count;
    return;
  }
}

std::string WordStream::value(std::string first, Dimension dimension) {
  join_unit(first, dimension);
  if (at_end() || uncertainty_mark_in(front()) == 0) return first;
  const bool mark_alone = uncertainty_mark_in(front()) == front().size();
  first += " " + take();
  if (mark_alone && !at_end()) first += " " + take();
  if (!at_end() && front() == "%")
    first += " " + take();
  else
    join_unit(first, dimension);
  return first;
}

std::string WordStream::value_after_at(const std::string& rest, Dimension dimension) {
  if (rest.empty() && at_end())
    throw InputError("nothing follows \"@\"; write what holds for the reading, such as 11.0k@23C");
  return value(rest.empty() ? take() : rest, dimension);
}

}  // namespace ohmwright::cli
