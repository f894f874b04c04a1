#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

#include <ohmwright/quantity/any_quantity.hpp>

namespace ohmwright {

/// Marks an English sentence for the translators' catalogue; the sentence is looked up when it is printed.
#define OHMWRIGHT_TEXT(sentence) sentence

/// A named value that fills a field of a sentence.
struct MessageArgument {
  std::string name;
  std::variant<AnyQuantity, double, std::string> value;
};

/// A sentence that has not been made yet: the English pattern with its named fields, and their values.
///
/// Sentences are made only when something is printed (`report/`), in the reader's language and units, so that results
/// can be kept, compared and sent to another process without any wording in them.
class Message {
 public:
  Message() = default;
  /// `pattern` is English with named fields: "the part reads {measured}".
  explicit Message(std::string_view pattern, std::vector<MessageArgument> arguments = {})
      : pattern_(pattern), arguments_(std::move(arguments)) {}

  const std::string& pattern() const { return pattern_; }
  const std::vector<MessageArgument>& arguments() const { return arguments_; }

 private:
  std::string pattern_;
  std::vector<MessageArgument> arguments_;
};

}  // namespace ohmwright
