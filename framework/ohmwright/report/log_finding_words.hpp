#pragma once

#include <span>
#include <string_view>

namespace ohmwright {

/// The sentence of a finding, with the arguments that fill {one}, {two} and {three}.
struct FindingWords {
  std::string_view id;
  std::string_view english;
  std::string_view one = {};  ///< argument that fills {one}
  std::string_view two = {};
  std::string_view three = {};
};

/// A word that an argument puts into such a sentence. What stands in no row is a number, or is typed just so: "coil".
struct ArgumentWord {
  std::string_view argument;
  std::string_view value;
  std::string_view english;
};

/// How the log was read.
std::span<const FindingWords> log_form_words();
/// What has to be settled before the log says anything of a part.
std::span<const FindingWords> log_question_words();
/// What the log cannot show.
std::span<const FindingWords> log_limit_words();

/// The words that fill those sentences.
std::span<const ArgumentWord> log_argument_words();

}  // namespace ohmwright
