#include <algorithm>
#include <charconv>
#include <cmath>
#include <ostream>

#include <ohmwright/document/separated_text.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>
#include <ohmwright/report/sentences.hpp>

#include "course/actions.hpp"
#include "course/bench.hpp"
#include "exit_codes.hpp"

namespace ohmwright::cli {

namespace {

/// "3,5,8", "3 5 8", "#3, #5" and "3-5" as numbers of entries.
std::vector<std::size_t> entry_numbers(const std::string& text) {
  constexpr std::size_t most = 1000;  // no record of a lesson is as long
  std::vector<std::size_t> numbers;
  const char* at = text.data();
  const char* const end = at + text.size();
  const auto pass_over = [&](std::string_view letters) {
    while (at != end && letters.find(*at) != std::string_view::npos) ++at;
  };
  const auto next_number = [&] {
    std::size_t number = 0;
    const auto [behind, error] = std::from_chars(at, end, number);
    const bool ends = behind == end || std::string_view(",; -#").find(*behind) != std::string_view::npos;
    if (error != std::errc() || !ends || number > most)
      throw InputError("--because takes numbers of entries, 3,5,8, got " + ohmwright::quoted(text));
    at = behind;
    return number;
  };
  pass_over(" #");
  while (at != end) {
    numbers.push_back(next_number());
    pass_over(" ");
    if (at != end && *at == '-') {
      ++at;
      pass_over(" #");
      const std::size_t last = next_number();
      if (last < numbers.back())
        throw InputError("--because takes the smaller number of " + std::to_string(numbers.back()) + "-" +
                         std::to_string(last) + " first");
      while (numbers.back() < last) numbers.push_back(numbers.back() + 1);
    }
    pass_over(" ,;#");
  }
  return numbers;
}

/// "90", "90 %", "99,5": a person's confidence in percent.
double confidence_in(const std::string& text) {
  std::string percent = with_decimal_points(text);
  const bool says_percent = percent.find('%') != std::string::npos;
  if (!says_percent) percent += " %";
  const double confidence = parse_stated_value(percent, Dimension::ratio).value.value_in_si();
  constexpr double one_percent = 0.01;
  if (!says_percent && confidence > 0.0 && confidence < one_percent)
    throw InputError("--confidence is in percent, and " + ohmwright::quoted(text) + " of it is next to nothing; for " +
                     std::to_string(std::lround(1e4 * confidence)) + " % write " +
                     std::to_string(std::lround(1e4 * confidence)));
  return confidence;
}

/// "Coil sensor.Open" as "sensor.open": by ids or titles, whatever their letter case. What is none of them stays, and
/// is refused where it is looked up.
std::string name_in(const std::string& typed, const course::Exercise& exercise) {
  const auto is_called = [](const std::string& said, const std::string& id, const std::string& title) {
    return spoken_name(said) == spoken_name(id) || spoken_name(said) == spoken_name(title);
  };
  const std::size_t dot = typed.find('.');
  for (const course::AnswerPart& part : exercise.parts) {
    if (!is_called(typed.substr(0, dot), part.id, part.title)) continue;
    if (dot == std::string::npos) return part.id;
    for (const auto& [id, title] : part.faults)
      if (is_called(typed.substr(dot + 1), id, title)) return part.id + '.' + id;
    return part.id + typed.substr(dot);
  }
  return typed;
}

}  // namespace

int course_answer(const Arguments& arguments, Environment& environment) {
  CourseBench bench(arguments);
  course::Entry answer{.action = "answer"};
  const auto named = arguments.options.find("--named");
  if (named != arguments.options.end())
    for (const std::string& name : named->second) answer.named.push_back(name_in(name, bench.exercise()));
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
