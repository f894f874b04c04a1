#include <algorithm>
#include <string_view>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "course/actions.hpp"
#include "verbs.hpp"

namespace ohmwright::cli {

namespace {

/// What a course can do, and the options that belong to it.
struct CourseAction {
  ActionSpec spec;
  int (*run)(const Arguments&, Environment&) = nullptr;
};

std::vector<CourseAction> course_actions() {
  return {{{"make",
            "APPLIANCE|KIND",
            OHMWRIGHT_TEXT("Writes exercises with a hidden fault, and the sealed key of them"),
            "ohmwright course make upright-thermistor-230v --seed 7 --count 20 --out class --key course.key",
            {"--lesson", "--seed", "--count", "--part", "--ratings", "--meter", "--course", "--key",
             "--passphrase-file", "--page", "--out"}},
           course_make},
          {{"practise",
            "EXERCISE [WHAT TO DO...]",
            OHMWRIGHT_TEXT("Works at an exercise: each thing that is done or read goes into the record"),
            "ohmwright course practise class/exercise-001.json unplug prove-dead",
            {"--record", "--student", "--interactive"}},
           course_practise},
          {{"answer",
            "EXERCISE",
            OHMWRIGHT_TEXT("Writes down what is at fault, how sure you are and why"),
            "ohmwright course answer class/exercise-001.json --named timer.bad-contact --because 4,5,6 --confidence 90",
            {"--record", "--student", "--named", "--nothing-wrong", "--because", "--confidence", "--why"}},
           course_answer},
          {{"grade",
            "FOLDER",
            OHMWRIGHT_TEXT("Marks the records of a folder by the key"),
            "ohmwright course grade class --key course.key --feedback",
            {"--key", "--passphrase-file", "--weights", "--override", "--feedback", "--format", "--out"}},
           course_grade},
          {{"worksheet",
            "EXERCISE",
            OHMWRIGHT_TEXT("Exercises on paper: the questions, slips with the readings, the answers"),
            "ohmwright course worksheet class/exercise-001.json --appliance upright-thermistor-230v --out sheet.html",
            {"--appliance", "--slips", "--answers", "--large", "--key", "--passphrase-file", "--out"}},
           course_worksheet},
          {{"explain",
            "KIND",
            OHMWRIGHT_TEXT("Shows what a good part reads, and what each fault makes of it"),
            "ohmwright course explain thermistor --ratings ntc-10k-b3977 --format html --out sensor.html",
            {"--ratings", "--meter", "--format", "--out"}},
           course_explain},
          {{"lab",
            "PARTS READINGS...",
            OHMWRIGHT_TEXT("Compares what students read of your tagged parts with their reference values"),
            "ohmwright course lab lab.json readings.csv",
            {"--format", "--out"}},
           course_lab}};
}

/// Options of the verb that this action has no use for.
void refuse_foreign_options(const CourseAction& action, const Arguments& arguments) {
  for (const CourseAction& other : course_actions())
    for (const std::string_view option : other.spec.options)
      if (arguments.has(option) &&
          std::find(action.spec.options.begin(), action.spec.options.end(), option) == action.spec.options.end())
        throw InputError("course " + std::string(action.spec.name) + " takes no " + std::string(option) +
                         "; it takes: " + listed(action.spec.options));
}

int run_course(const Arguments& arguments, Environment& environment) {
  const std::string& typed = arguments.operands[0];
  std::vector<std::string> names;
  for (const CourseAction& action : course_actions()) {
    names.emplace_back(action.spec.name);
    if (action.spec.name != typed) continue;
    refuse_foreign_options(action, arguments);
    return action.run(arguments, environment);
  }
  throw InputError("course cannot " + ohmwright::quoted(typed) + did_you_mean(typed, names) +
                   "; it can: " + listed(names));
}

std::vector<ActionSpec> course_specs() {
  std::vector<ActionSpec> specs;
  for (const CourseAction& action : course_actions()) specs.push_back(action.spec);
  return specs;
}

std::vector<OptionSpec> course_options() {
  return {
      {"--lesson",
       "LESSON",
       OHMWRIGHT_TEXT("make: what is hidden (default: one-fault); mixed draws it anew for each exercise"),
       {"one-part", "one-fault", "two-faults", "healthy", "mixed"}},
      {"--seed",
       "N",
       OHMWRIGHT_TEXT("make: another number, another set; with the passphrase it gives the same again"),
       {}},
      {"--count", "K", OHMWRIGHT_TEXT("make: how many exercises (default: 1)"), {}},
      {"--part", "PART", OHMWRIGHT_TEXT("make, one-part: which part lies on the table (default: drawn)"), {}},
      {"--ratings", "NAME", OHMWRIGHT_TEXT("make, of a kind: the class of the part"), {}},
      {"--meter", "NAME|FILE", OHMWRIGHT_TEXT("make: the meter that students have (default: basic)"), {}},
      {"--course",
       "NAME",
       OHMWRIGHT_TEXT("make: your school and class; sets of other schools share nothing with it"),
       {}},
      {"--page", "", OHMWRIGHT_TEXT("make: each exercise as a page for any browser, too"), {}},
      {"--key", "FILE", OHMWRIGHT_TEXT("make, grade: the sealed key (default: course.key)"), {}},
      {"--passphrase-file", "FILE", OHMWRIGHT_TEXT("make, grade: its first line is the passphrase"), {}},
      {"--record", "FILE", OHMWRIGHT_TEXT("practise, answer: what was done (default: beside the exercise)"), {}},
      {"--student", "NAME:ROLE", OHMWRIGHT_TEXT("practise, answer: who works; may be given again"), {}, true},
      {"--interactive", "", OHMWRIGHT_TEXT("practise: ask line by line"), {}},
      {"--named", "PART.FAULT", OHMWRIGHT_TEXT("answer: what is at fault; may be given again"), {}, true},
      {"--nothing-wrong", "", OHMWRIGHT_TEXT("answer: no part is at fault"), {}},
      {"--because", "NUMBERS", OHMWRIGHT_TEXT("answer: the entries that ruled the others out: 3,5,8"), {}},
      {"--confidence", "PERCENT", OHMWRIGHT_TEXT("answer: how sure you are; an honest figure earns most"), {}},
      {"--why", "WORDS", OHMWRIGHT_TEXT("answer: in your own words"), {}},
      {"--weights", "FILE", OHMWRIGHT_TEXT("grade: what each mark counts; one left out counts nothing"), {}},
      {"--override",
       "FILE=MARKS:NOTE",
       OHMWRIGHT_TEXT("grade: your own total and why, or a file of such lines; may be given again"),
       {},
       true},
      {"--feedback", "", OHMWRIGHT_TEXT("grade: what each student can learn, below the table"), {}},
      {"--appliance", "NAME|FILE", OHMWRIGHT_TEXT("worksheet: draws the circuit of the appliance"), {}},
      {"--slips", "", OHMWRIGHT_TEXT("worksheet: a slip to be closed for each test point, instead"), {}},
      {"--answers", "", OHMWRIGHT_TEXT("worksheet: what is wrong and every reading, for you, by --key"), {}},
      {"--large", "", OHMWRIGHT_TEXT("worksheet: in large type"), {}},
      {"--format",
       "FORMAT",
       OHMWRIGHT_TEXT("grade, lab: text, csv or html; explain: text or html"),
       {"text", "csv", "html"}},
      {"--out", "FILE|FOLDER", OHMWRIGHT_TEXT("make: the folder for the exercises; else write there"), {}},
  };
}

}  // namespace

VerbSpec course_verb() {
  return {
      .name = "course",
      .summary = OHMWRIGHT_TEXT("Make exercises with a hidden fault, practise them, mark them"),
      .example = "ohmwright course make upright-thermistor-230v --seed 7 --count 20 --out class --key course.key",
      .operands = {{"ACTION", OHMWRIGHT_TEXT("make, practise, answer, grade, worksheet, explain or lab"), true, false},
                   {"WORDS",
                    OHMWRIGHT_TEXT("make: an appliance or a kind; practise, answer: the exercise, then what "
                                   "to do; grade: the folder with the records; lab: your parts, what "
                                   "students handed in"),
                    false, true}},
      .options = course_options(),
      .circumstances = {},
      .takes_conditions = false,
      .run = run_course,
      .actions = course_specs(),
  };
}

}  // namespace ohmwright::cli
