#include <algorithm>
#include <iostream>

#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/meter_display.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/reader_words.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/page_layout.hpp>
#include <ohmwright/report/sentences.hpp>

#include "course/actions.hpp"
#include "course/bench.hpp"
#include "course/files.hpp"
#include "exit_codes.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

namespace {

std::vector<std::string> test_point_lines(const course::Exercise& exercise, const Sentences& say) {
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < exercise.places.test_points.size(); ++i) {
    const TestPoint& point = exercise.places.test_points[i];
    lines.push_back(exercise.lifts_leads[i]
                        ? say(OHMWRIGHT_TEXT("{id}: {title}; lead-off or in-circuit is yours to say"),
                              {{"id", point.id}, {"title", point.title}})
                        : point.id + ": " + point.title);
  }
  return lines;
}

/// Each part with its faults, whatever the exercise hides: a list that is always the same gives nothing away.
std::vector<std::string> answer_lines(const course::Exercise& exercise, const Sentences& say) {
  std::vector<std::string> lines;
  for (const course::AnswerPart& part : exercise.parts) {
    std::vector<std::string> faults;
    for (const auto& [id, title] : part.faults) faults.push_back(part.id + "." + id);
    lines.push_back(part.title + ": " + listed(faults));
  }
  lines.push_back(say(OHMWRIGHT_TEXT("--nothing-wrong, if no part is at fault")));
  return lines;
}

std::vector<std::string> word_lines(const course::Exercise& exercise, const Sentences& say) {
  const std::string measure = say(OHMWRIGHT_TEXT(
      "measure POINT or POINT@SET-UP, then lead-off or in-circuit, range=RANGE (or range=auto), live-agreed with the "
      "supply on"));
  const std::string rest = say(OHMWRIGHT_TEXT("note WORDS; help; quit, or Ctrl-D: what you did stays recorded"));
  if (exercise.on_the_table) return {measure, rest};
  return {"unplug", "prove-dead", "plug-in", measure, "look ID", rest};
}

/// What can be done here, and where: once at the beginning.
std::string bench_page(const course::Exercise& exercise, const Sentences& say, const PageStyle& style) {
  PageLayout page(style);
  page.block(exercise.title);
  page.block(course::complaint_in_words(exercise, say));
  std::vector<std::string> lines;
  for (const auto& caution : exercise.cautions) lines.push_back(course::caution_in_words(caution, say));
  page.section(say(OHMWRIGHT_TEXT("Before you touch it")), lines);
  page.section(say(OHMWRIGHT_TEXT("What is stamped on the parts")), course::plates_of(exercise));
  page.section(say(OHMWRIGHT_TEXT("How warm it is, as found")), course::temperatures_as_found(exercise));
  page.section(say(OHMWRIGHT_TEXT("Test points")), test_point_lines(exercise, say));
  lines.clear();
  for (std::size_t i = 0; i < exercise.places.set_ups.size(); ++i)
    lines.push_back("@" + exercise.places.set_ups[i].id + ": " + course::set_up_in_words(exercise, i));
  page.section(say(OHMWRIGHT_TEXT("Set-ups")), lines);
  lines.clear();
  for (const course::Look& look : exercise.looks) lines.push_back(look.id + ": " + course::look_in_words(look, say));
  if (const std::string remark = course::remark_on_looks(exercise, say); !remark.empty()) lines.push_back(remark);
  page.section(say(OHMWRIGHT_TEXT("What you can look at")), lines);
  lines.clear();
  for (const Dimension dimension : {Dimension::resistance, Dimension::voltage, Dimension::current})
    lines.push_back(listed(course::range_names(exercise.meter, dimension)));
  page.section(exercise.meter.title, lines);
  page.section(say(OHMWRIGHT_TEXT("What you can say")), word_lines(exercise, say));
  page.section(say(OHMWRIGHT_TEXT("What you can answer, afterwards, with course answer")), answer_lines(exercise, say));
  return page.take();
}

/// What came of an entry, for the student.
std::string outcome_text(std::size_t number, const course::Entry& entry, const Sentences& say, int width) {
  std::string text;
  for (const std::string& hazard : entry.hazards)
    text += paragraph(say(course::hazard_text(hazard)), width, "! ", "  ");
  std::string line = std::to_string(number) + "  " + entry.action;
  if (!entry.subject.empty()) line += " " + course::place_in_words(entry);
  if (!entry.shown.empty()) line += ": " + course::shown_in_words(entry, say);
  return text + paragraph(line, width, "", "    ");
}

/// The cautions of a step, before it.
std::string cautions_before(const course::Exercise& exercise, const course::Entry& wish, int width) {
  if (wish.action == "plug-in" && !exercise.on_the_table)
    return paragraph(Sentences{UnitPreferences{}}(course::before_plugging_in()), width, "  ", "  ");
  std::vector<std::string> ids;
  for (const TestPoint& point : exercise.places.test_points)
    if (point.id == wish.subject) ids = point.cautions;
  for (const SetUp& set_up : exercise.places.set_ups)
    if (set_up.id == wish.set_up) ids.insert(ids.end(), set_up.cautions.begin(), set_up.cautions.end());
  std::string text;
  for (const auto& caution : exercise.cautions)
    if (std::find(ids.begin(), ids.end(), caution.first) != ids.end())
      text += paragraph(course::caution_in_words(caution, Sentences{UnitPreferences{}}), width, "  ", "  ");
  return text;
}

/// One line of a student. False when they leave.
bool take_line(CourseBench& bench, const std::string& line, const Sentences& say, Environment& environment) {
  const int width = environment.page.width;
  if (line == "end" || line == "quit") return false;
  if (line == "help") {
    environment.out << bench_page(bench.exercise(), say, environment.page);
    return true;
  }
  const course::Entry wish = course::wish_in(line);
  environment.out << cautions_before(bench.exercise(), wish, width);
  const DoneEntry done = bench.act(wish);
  environment.out << outcome_text(done.number, done.entry, say, width);
  const std::vector<std::string>& hazards = done.entry.hazards;
  if (std::find(hazards.begin(), hazards.end(), course::ohms_on_live) != hazards.end())
    environment.out << paragraph(
        say(OHMWRIGHT_TEXT("Check word, for your sheet and your instructor: {word}"), {{"word", bench.check_word()}}),
        width);
  environment.out << std::flush;
  return true;
}

void practise_from(std::istream& input, bool interactive, CourseBench& bench, const Sentences& say,
                   Environment& environment) {
  std::string line;
  for (;;) {
    if (interactive) environment.out << "> " << std::flush;
    if (!std::getline(input, line)) return;
    if (line.find_first_not_of(" \t\r") == std::string::npos) continue;
    if (!interactive) {
      if (!take_line(bench, line, say, environment)) return;
      continue;
    }
    try {
      if (!take_line(bench, line, say, environment)) return;
    } catch (const InputError& error) {  // a slip of the keyboard ends no exercise
      environment.out << paragraph(refusal_text(error), environment.page.width);
    }
  }
}

}  // namespace

int course_practise(const Arguments& arguments, Environment& environment) {
  CourseBench bench(arguments);
  const Sentences say{UnitPreferences{}};
  const auto tell_where = [&] {
    environment.out << paragraph(
        say(OHMWRIGHT_TEXT("Recorded in {file}. Answer: ohmwright course answer {exercise} --record {file} --named "
                           "PART.FAULT --because NUMBERS --confidence PERCENT"),
            {{"file", bench.record_file()}, {"exercise", arguments.operands[1]}}),
        environment.page.width);
  };
  const bool interactive = arguments.has("--interactive");
  if (interactive) environment.out << bench_page(bench.exercise(), say, environment.page);
  try {
    for (std::size_t i = 2; i < arguments.operands.size(); ++i)
      take_line(bench, arguments.operands[i], say, environment);
    if (arguments.operands.size() == 2) practise_from(std::cin, interactive, bench, say, environment);
  } catch (const InputError&) {  // what went before it is recorded all the same
    tell_where();
    throw;
  }
  tell_where();
  return bench.practice().is_stopped() ? exit_out_of_limits : exit_done;
}

}  // namespace ohmwright::cli
