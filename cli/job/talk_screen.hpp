#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"

namespace ohmwright::cli {

/// What a conversation shows and what is typed at it: lines as wide as the page, questions, choices by their numbers.
class TalkScreen {
 public:
  struct Choice {
    std::string text;
    std::function<void()> then;
  };
  /// Takes what was typed instead of a digit: a reading.
  using Taken = std::function<void(const std::string& value)>;

  explicit TalkScreen(Environment& environment) : environment_(environment) {}

  void line(const std::string& text, std::string_view indent = "");
  /// A line that was typed, or nothing where the person stops with 0, or the input ends.
  std::optional<std::string> typed(const std::string& prompt);
  /// Words: nothing for an empty line, which goes back, and for 0, which stops.
  std::optional<std::string> typed_words(const std::string& prompt);
  /// A value: 0 is one. Nothing for an empty line, which goes back, and for "stop".
  std::optional<std::string> typed_value(const std::string& prompt);
  /// Offers choices by their numbers, 0 to stop, and does what was chosen. Where a reading is asked for, `taken` takes
  /// one that is typed instead of the digit.
  void choose(const std::string& question, const std::vector<Choice>& choices, const Taken& taken = {});
  void offer_number(std::size_t number, const std::string& text);

  /// Whether the person stopped, or the conversation is at its end.
  bool has_stopped() const { return stopped_; }
  /// Says that it goes on here.
  void stop();
  /// Ends it where what was done says so itself.
  void end() { stopped_ = true; }

 private:
  /// A question as the last lines before the prompt, no wider than the page.
  std::string prompt_of(const std::string& question) const;
  /// Asks whether digits that may be a slip are what the meter shows.
  bool is_meant_as_a_reading(const std::string& typed);

  Environment& environment_;
  Sentences say_{UnitPreferences{}};
  bool stopped_ = false;
};

}  // namespace ohmwright::cli
