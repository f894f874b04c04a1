#pragma once

#include <initializer_list>
#include <span>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// A refusal that is a caution: who was refused may be about to get hurt, so it is said in the reader's language. Its
/// own text is the English one, as of every refusal; beside it are the pattern and the arguments it was made of.
// NOLINTNEXTLINE(cppcoreguidelines-special-member-functions): copied as usual, the destructor is only a key function
class OHMWRIGHT_CORE_API CautionRefusal : public InputError {
 public:
  /// The pattern is a constant of the program, marked for the translators; its arguments are texts.
  CautionRefusal(std::string_view pattern, std::initializer_list<FindingArgument> arguments);
  ~CautionRefusal() override;

  std::string_view pattern() const { return pattern_; }
  std::span<const FindingArgument> arguments() const { return arguments_; }

 private:
  std::string_view pattern_;
  std::vector<FindingArgument> arguments_;
};

}  // namespace ohmwright
