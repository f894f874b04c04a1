#pragma once

#include <span>
#include <string>
#include <vector>

#include <ohmwright/component/descriptor.hpp>

#include "circumstances.hpp"

namespace ohmwright::cli {

/// A reading as typed, with the circumstances that hold for it.
struct ReadingWords {
  std::string measurand;            ///< id; the kind's first when none was typed
  std::vector<std::string> values;  ///< more than one: the same thing read again
  std::vector<CircumstanceWord> circumstances;
  int group = 0;  ///< readings of one group share what was said about them
};

/// The words after the kind, sorted.
struct TypedWords {
  std::vector<ReadingWords> readings;
  std::vector<CircumstanceWord> said_for_all;  ///< also noted in each of `readings`; readings of files want them too
};

/// Sorts the words after the kind into readings and what is said about them.
///
/// `11.0k 11.1k --at 23C --wet` is one group: what follows a group of readings holds for that group, and the next
/// reading begins another. What stands before the first reading holds for all. A condition, `--lead-off`,
/// `--in-circuit` and `--leads` also reach back to earlier groups that were given none, so that no reading loses the
/// temperature typed after it; `--unplugged` and `--proved-dead` to ohms of which nothing of the supply was said.
/// `33.1k@0C` says the first condition within the word.
///
/// `speed=1550rpm` names the measurand, `line=118V` is `--line 118V`. `--speed 1550rpm` is a reading too, and joins the
/// group at hand with all that was said of it: `28 --line 118V --current 3.6A` was one look at one part. Names are
/// taken in any letter case, with hyphens or underscores. Words that the shell took apart are joined: `11.0 kohm`,
/// `--at 23 C`.
///
/// Throws InputError for a name that the kind does not know, a missing value, and circumstances that are said twice or
/// contradict each other. An option that nobody knows may have been meant as one of `verb_options`.
TypedWords sort_reading_words(std::span<const std::string> words, const Descriptor& descriptor,
                              std::span<const std::string> verb_options = {});

}  // namespace ohmwright::cli
