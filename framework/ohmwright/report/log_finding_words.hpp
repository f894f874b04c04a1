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

/// How the log was read.
std::span<const FindingWords> log_form_words();
/// What has to be settled before the log says anything of a part.
std::span<const FindingWords> log_question_words();
/// What the log cannot show.
std::span<const FindingWords> log_limit_words();

}  // namespace ohmwright
