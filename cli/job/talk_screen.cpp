#include "job/talk_screen.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <iostream>
#include <ostream>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/report/paragraph.hpp>

namespace ohmwright::cli {

void TalkScreen::line(const std::string& text, std::string_view indent) {
  environment_.out << paragraph(text, environment_.page.width, indent, indent);
}

std::string TalkScreen::prompt_of(const std::string& question) const {
  std::string prompt = question.empty() ? question : paragraph(question + ">", environment_.page.width);
  if (prompt.empty()) return "> ";
  prompt.back() = ' ';  // in place of the end of its last line
  return prompt;
}

void TalkScreen::stop() {
  stopped_ = true;
  line(say_(OHMWRIGHT_TEXT("Stopped. All answers are in the book; ohmwright job goes on here.")));
}

std::optional<std::string> TalkScreen::typed(const std::string& prompt) {
  std::optional<std::string> answer = typed_line(std::cin, environment_, prompt_of(prompt));
  if (!answer || *answer == "0") {
    stop();
    return std::nullopt;
  }
  return answer;
}

std::optional<std::string> TalkScreen::typed_words(const std::string& prompt) {
  std::optional<std::string> answer = typed(prompt);
  if (answer && answer->empty()) return std::nullopt;
  return answer;
}

std::optional<std::string> TalkScreen::typed_value(const std::string& prompt) {
  std::optional<std::string> answer = typed_line(std::cin, environment_, prompt_of(prompt));
  if (answer && answer->empty()) return std::nullopt;
  if (answer && *answer != "stop") return answer;
  stop();
  return std::nullopt;
}

namespace {

/// Whether somebody typed what a meter shows where a digit was asked for: one digit alone is a slip.
bool looks_like_a_reading(const std::string& typed) {
  const bool is_number = std::isdigit(static_cast<unsigned char>(typed.front())) != 0 ||
                         ((typed.front() == '.' || typed.front() == '>') && typed.size() > 1);
  return is_over_range_word(typed) || (is_number && typed.size() > 1);
}

/// Whether a digit of those that are offered was struck twice, or more often: 22 for 2. It may be a reading, too.
bool is_digit_struck_twice(const std::string& typed, std::size_t most) {
  return typed.size() > 1 && typed.find_first_not_of(typed.front()) == std::string::npos && typed.front() > '0' &&
         typed.front() <= '9' && static_cast<std::size_t>(typed.front() - '0') <= most;
}

}  // namespace

bool TalkScreen::is_meant_as_a_reading(const std::string& typed) {
  bool is_meant = false;
  choose(say_(OHMWRIGHT_TEXT("{value}: is that what the meter shows?"), {{"value", typed}}),
         {{say_(OHMWRIGHT_TEXT("yes, it is the reading")), [&is_meant] { is_meant = true; }},
          {say_(OHMWRIGHT_TEXT("no, a digit was struck twice")), [] {}}});
  return is_meant;
}

void TalkScreen::choose(const std::string& question, const std::vector<Choice>& choices, const Taken& taken) {
  constexpr std::size_t most_digits = 9;
  environment_.out << '\n';
  line(question);
  for (std::size_t i = 0; i < choices.size(); ++i) {
    if (choices.size() > most_digits)
      offer_number(i + 1, choices[i].text);
    else
      environment_.out << paragraph(choices[i].text, environment_.page.width, "  " + std::to_string(i + 1) + "  ",
                                    "     ");
  }
  const std::string stop = say_(OHMWRIGHT_TEXT("stop here; it goes on here"));
  if (choices.size() > most_digits)
    offer_number(0, stop);
  else
    environment_.out << paragraph(stop, environment_.page.width, "  0  ", "     ");
  while (const std::optional<std::string> answer = typed("")) {
    std::size_t number = 0;
    const auto [end, error] = std::from_chars(answer->data(), answer->data() + answer->size(), number);
    if (error == std::errc() && end == answer->data() + answer->size() && number > 0 && number <= choices.size())
      return choices[number - 1].then();
    if (taken && !answer->empty() && looks_like_a_reading(*answer)) {
      if (!is_digit_struck_twice(*answer, choices.size()) || is_meant_as_a_reading(*answer)) return taken(*answer);
      if (stopped_) return;
    }
    line(say_(OHMWRIGHT_TEXT("Type one of the digits.")));
  }
}

void TalkScreen::offer_number(std::size_t number, const std::string& text) {
  const std::string digits = std::to_string(number);
  environment_.out << paragraph(text, environment_.page.width,
                                std::string(4 - std::min<std::size_t>(4, digits.size()), ' ') + digits + "  ",
                                "      ");
}

}  // namespace ohmwright::cli
