#include <algorithm>
#include <charconv>
#include <ostream>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/sentences.hpp>

#include "course_actions.hpp"
#include "course_bench.hpp"
#include "exit_codes.hpp"

namespace ohmwright::cli {

namespace {

/// "3,5,8" as numbers of entries.
std::vector<std::size_t> entry_numbers(const std::string& text) {
  std::vector<std::size_t> numbers;
  const char* at = text.data();
  const char* const end = at + text.size();
  while (at != end) {
    std::size_t number = 0;
    const auto [next, error] = std::from_chars(at, end, number);
    if (error != std::errc() || (next != end && *next != ','))
      throw InputError("--because takes numbers of entries, 3,5,8, got " + ohmwright::quoted(text));
    numbers.push_back(number);
    at = next == end ? end : next + 1;
  }
  return numbers;
}

/// "90", "90 %", "90%": a person's confidence in percent.
double confidence_in(const std::string& text) {
  std::string percent = text;
  if (percent.find('%') == std::string::npos) percent += " %";
  return parse_stated_value(percent, Dimension::ratio).value.value_in_si();
}

}  // namespace

int course_answer(const Arguments& arguments, Environment& environment) {
  CourseBench bench(arguments);
  course::Entry answer{.action = "answer"};
  const auto named = arguments.options.find("--named");
  if (named != arguments.options.end()) answer.named = named->second;
  if (answer.named.empty() != arguments.has("--nothing-wrong"))
    throw InputError("say what is wrong, --named PART.FAULT (again for a second), or --nothing-wrong, and not both");
  if (!arguments.has("--confidence"))
    throw InputError("say how sure you are: --confidence 80, in percent; an honest figure earns most");
  answer.confidence = confidence_in(arguments.value("--confidence"));
  answer.because = entry_numbers(arguments.value("--because"));
  answer.subject = arguments.value("--why");
  answer.students = students_named(arguments);
  bench.act(answer);
  const Sentences say{UnitPreferences{}};
  environment.out << paragraph(
      say(OHMWRIGHT_TEXT("Answered, in {file}. Hand that file in as it is. Its check word, for your sheet and your "
                         "instructor: {word}"),
          {{"file", bench.record_file()}, {"word", bench.check_word()}}),
      environment.page.width);
  return exit_done;
}

}  // namespace ohmwright::cli
