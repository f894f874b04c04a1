#pragma once

#include <span>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/component/descriptor.hpp>

#include "verb.hpp"

namespace ohmwright::cli {

/// A circumstance as typed: the option without its dashes, and its value (empty for a flag).
struct CircumstanceWord {
  std::string option;
  std::string value;
  bool of_one_reading = false;  ///< said within the reading's word: its error is its own
  int said_for = for_all;       ///< group that it was said after; readings that it holds for share its error

  static constexpr int for_all = -1;
};

/// A reading as typed, with the circumstances that hold for it.
struct ReadingWords {
  std::string measurand;            ///< id; the kind's first when none was typed
  std::vector<std::string> values;  ///< more than one: the same thing read again
  std::vector<CircumstanceWord> circumstances;
  int group = 0;  ///< readings of one group share what was said about them
};

/// What can be said of readings beside the conditions of their kind.
std::span<const OptionSpec> circumstance_options();

/// Sorts the words after the kind into readings and what is said about them.
///
/// `11.0k 11.1k --at 23C --wet` is one group: what follows a group of readings holds for that group. What stands before
/// the first reading holds for all. A condition also reaches back to earlier groups that were given none, so that no
/// reading loses the temperature typed after it. `33.1k@0C` says the first condition within the word. `speed=1550rpm`
/// names the measurand. Words that the shell took apart are joined: `11.0 kohm`, `--at 23 C`. Throws InputError for an
/// option that the kind does not know, a missing value, and circumstances that are said twice or contradict each other.
std::vector<ReadingWords> sort_reading_words(std::span<const std::string> words, const Descriptor& descriptor);

}  // namespace ohmwright::cli
