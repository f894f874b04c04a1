#include <algorithm>
#include <optional>
#include <ostream>
#include <string>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/key.hpp>
#include <ohmwright/course/secret.hpp>
#include <ohmwright/course/worksheet.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/appliance_drawing.hpp>

#include "appliance/files.hpp"
#include "course/actions.hpp"
#include "course/files.hpp"
#include "exit_codes.hpp"

namespace ohmwright::cli {

namespace {

/// By the names that are the same in every language; titles are in the one that the exercise was made in.
bool is_made_from(const course::Exercise& exercise, const Appliance& appliance) {
  const auto has_part = [&](const course::AnswerPart& one) {
    return std::any_of(appliance.parts.begin(), appliance.parts.end(),
                       [&](const PlacedPart& part) { return part.id == one.id; });
  };
  return std::ranges::equal(exercise.places.test_points, appliance.test_points, {}, &TestPoint::id, &TestPoint::id) &&
         std::ranges::equal(exercise.places.set_ups, appliance.set_ups, {}, &SetUp::id, &SetUp::id) &&
         std::all_of(exercise.parts.begin(), exercise.parts.end(), has_part);
}

/// The circuit that the exercise was made of, where --appliance names it; empty without Graphviz.
std::string circuit_of(const Arguments& arguments, const Environment& environment, const course::Exercise& exercise,
                       const Sentences& say) {
  if (!arguments.has("--appliance")) return {};
  const std::string name = arguments.value("--appliance");
  if (exercise.on_the_table) throw InputError("a part on the table has no circuit to draw; leave --appliance away");
  const Appliance appliance = open_appliance(environment, name);
  if (appliance.title != exercise.title && !is_made_from(exercise, appliance))
    throw InputError("the exercise is of " + ohmwright::quoted(exercise.title) + ", and " + ohmwright::quoted(name) +
                     " is " + ohmwright::quoted(appliance.title) + "; name the appliance that it was made from");
  return appliance_drawing(appliance, {}, say, TestPointList::left_out).value_or("");
}

std::string answers_of(const Arguments& arguments, const course::Exercise& exercise,
                       const course::WorksheetStyle& style, const Sentences& say) {
  const std::string file = arguments.value("--key", "course.key");
  const std::string passphrase = course_passphrase(arguments, PassphraseFor::made_key);
  const course::CourseKey key = course::read_key(course::opened(text_of_file(file), passphrase, file), file);
  const auto made = std::find_if(key.exercises.begin(), key.exercises.end(),
                                 [&](const course::MadeExercise& one) { return one.truth.exercise == exercise.name; });
  if (made == key.exercises.end())
    throw InputError("the key " + ohmwright::quoted(file) + " knows no exercise " + exercise.name +
                     "; take the key that was made with it");
  return course::answer_sheet_html(*made, style, say);
}

}  // namespace

int course_worksheet(const Arguments& arguments, Environment& environment) {
  const std::string& path = course_operand(arguments, 1, "EXERCISE, a file of course make");
  if (arguments.operands.size() > 2)
    throw InputError("a sheet is of one exercise, and " + ohmwright::quoted(arguments.operands[2]) +
                     " is another; make one sheet after the other, each with its --out FILE");
  const course::Exercise exercise =
      course::read_exercise(parse_document_to_check(text_of_file(path), path, course::course_limits()));
  if (arguments.has("--slips") && arguments.has("--answers"))
    throw InputError("--slips are for students, --answers for you: choose one of them");
  const course::WorksheetStyle style{arguments.has("--large")};
  const Sentences say{UnitPreferences{}};
  const bool is_sheet = !arguments.has("--slips") && !arguments.has("--answers");
  if (is_sheet && !exercise.on_the_table && !arguments.has("--appliance"))
    environment.err
        << "ohmwright: the sheet has no circuit; --appliance NAME draws that of the appliance it was made from\n";
  const std::string page =
      arguments.has("--answers") ? answers_of(arguments, exercise, style, say)
      : arguments.has("--slips")
          ? course::slips_html(exercise, style, say)
          : course::worksheet_html(exercise, circuit_of(arguments, environment, exercise, say), style, say);
  deliver_beside_the_class(page, arguments, environment);
  return exit_done;
}

}  // namespace ohmwright::cli
