#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string_view>

namespace ohmwright {

/// How an argument is written.
enum class WrittenAs : std::uint8_t {
  count,
  duration,
  interval,  ///< a duration, with "of running" where that is counted
  percent,
  tenths
};

/// An argument that fills a field.
struct FilledField {
  std::string_view name;  ///< of the argument and of the field in the sentence
  WrittenAs written = WrittenAs::count;
};

inline constexpr FilledField count_field{"count"};
inline constexpr FilledField all_field{"all"};

/// What one text of one rule says.
struct VerdictWords {
  std::string_view rule;
  std::string_view text;
  std::string_view english;
  std::array<FilledField, 4> fields{};
};

/// The sentence of every text that a rule of logs can give, rule by rule: of those about defrosts, whether and when
/// they come, what heats and what ends them, and of all others.
std::span<const VerdictWords> words_of_defrosts();
std::span<const VerdictWords> words_of_running();

}  // namespace ohmwright
