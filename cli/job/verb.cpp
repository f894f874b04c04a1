#include <algorithm>
#include <array>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "circumstances.hpp"
#include "command_line.hpp"
#include "job/actions.hpp"
#include "verbs.hpp"
#include "word_stream.hpp"

namespace ohmwright::cli {

namespace {

const std::vector<JobAction>& job_actions() {
  static const std::vector<JobAction> actions{
      {"open",
       OHMWRIGHT_TEXT("begin a call: open TITLE [--phone] [--appliance NAME]"),
       open_job,
       {"--phone", "--answer", "--complaint", "--appliance", "--symptom", "--no-symptom", "--meter", "--zone",
        "--time"},
       "TITLE",
       "ohmwright job open \"Freezer warm, frost at the back\" --appliance upright-thermistor-230v"},
      {"sign",
       OHMWRIGHT_TEXT("what is seen and known without a meter, and which appliance it is"),
       note_sign,
       {"--appliance", "--symptom", "--no-symptom", "--looked", "--code", "--repaired", "--thawed", "--unplugged",
        "--ran-well", "--zone", "--state", "--cannot-reach", "--meter", "--time"},
       "",
       "ohmwright job sign --symptom frost-whole-coil --looked door=fine"},
      {"next",
       OHMWRIGHT_TEXT("what to look at or measure now, and why"),
       next_of_job,
       {"--allow-live", "--cautions"},
       "",
       "ohmwright job next"},
      {"card",
       OHMWRIGHT_TEXT("the next five steps on a card as wide as a phone"),
       card_of_job,
       {"--allow-live", "--most"},
       "",
       "ohmwright job card --most 3"},
      {"read",
       OHMWRIGHT_TEXT("a reading: read TESTPOINT[@SETUP]=VALUE, or read PART|KIND READING"),
       read_for_job,
       {"--time", "--live-agreed", "--meter", "--ratings", "--control", "--confidence", "--readings", "--series",
        "--from", "--four-wire", "--timeout", "--every-rule", "--cautions"},
       "TESTPOINT[@SETUP]=VALUE... | PART|KIND READING...",
       "ohmwright job read heater 48.9 --lead-off"},
      {"why",
       OHMWRIGHT_TEXT("why that step, and what each fault would show"),
       why_of_job,
       {"--allow-live"},
       "",
       "ohmwright job why"},
      {"find",
       OHMWRIGHT_TEXT("the possible faults now"),
       find_in_job,
       {"--allow-live", "--cautions"},
       "",
       "ohmwright job find"},
      {"replace",
       OHMWRIGHT_TEXT("a part goes in for another, or is mended in place: replace PART --new NAME|--mended TEXT"),
       replace_in_job,
       {"--new", "--old", "--mended", "--because", "--time"},
       "PART",
       "ohmwright job replace heater --new heater-450w-120v"},
      {"verify",
       OHMWRIGHT_TEXT("proof after the repair, and what is still unproved"),
       verify_job,
       {"--earth-bond", "--test-current", "--forced-defrost", "--live-agreed", "--log", "--before", "--column",
        "--every", "--line", "--time", "--because"},
       "",
       "ohmwright job verify --earth-bond 0.12ohm --test-current 10A"},
      {"close",
       OHMWRIGHT_TEXT("close repaired, declined or stopped"),
       close_job,
       {"--because", "--call-back"},
       "repaired|declined|stopped",
       "ohmwright job close repaired --call-back 2026-12-01"},
      {"wait",
       OHMWRIGHT_TEXT("wait part, or wait log"),
       wait_in_job,
       {"--because"},
       "part|log",
       "ohmwright job wait part --because \"ordered\""},
      {"visit", OHMWRIGHT_TEXT("another visit begins"), visit_again, {}, "", "ohmwright job visit --job 3"},
      {"note",
       OHMWRIGHT_TEXT("a note in your own words"),
       note_in_job,
       {"--time"},
       "TEXT",
       "ohmwright job note \"the drain was iced up\""},
      {"correct",
       OHMWRIGHT_TEXT("take an entry back: correct ENTRY (show lists them), or correct last"),
       correct_job,
       {"--because"},
       "ENTRY|last",
       "ohmwright job correct last --because \"the wrong lead was off\""},
      {"list",
       OHMWRIGHT_TEXT("the jobs of the book"),
       list_jobs,
       {"--in-state", "--most"},
       "",
       "ohmwright job list --in-state waiting-for-part"},
      {"show", OHMWRIGHT_TEXT("all entries of a job"), show_job, {}, "[N]", "ohmwright job show"},
      {"report",
       OHMWRIGHT_TEXT("for the customer and the shop"),
       report_of_job,
       {"--format", "--out"},
       "[N]",
       "ohmwright job report --format html --out call.html"},
      {"export",
       OHMWRIGHT_TEXT("the book, or the job of --job, as lines of JSON"),
       export_jobs,
       {"--out"},
       "",
       "ohmwright job export --out book.jsonl"},
      {"import",
       OHMWRIGHT_TEXT("take in what another book exported: import FILE"),
       import_jobs,
       {},
       "FILE",
       "ohmwright job import book.jsonl"},
      {"check", OHMWRIGHT_TEXT("whether the book is sound"), check_book, {}, "", "ohmwright job check"},
  };
  return actions;
}

const JobAction& action_named(const std::string& name) {
  std::vector<std::string> names;
  for (const JobAction& action : job_actions()) {
    if (action.name == name) return action;
    names.emplace_back(action.name);
  }
  throw InputError("ohmwright job has no action " + ohmwright::quoted(name) + did_you_mean(name, names) +
                   "; it has: " + listed(names));
}

constexpr std::array<std::string_view, 3> of_every_action{"--book", "--job", "--who"};

bool is_common(const std::string& option) {
  const auto options = common_options();
  return std::find(of_every_action.begin(), of_every_action.end(), option) != of_every_action.end() ||
         std::any_of(options.begin(), options.end(), [&](const OptionSpec& one) { return one.name == option; });
}

/// What an action does not take would be dropped without a word.
void refuse_what_it_does_not_take(const JobAction& action, const Arguments& arguments) {
  for (const auto& [option, values] : arguments.options)
    if (!is_common(option) && std::find(action.options.begin(), action.options.end(), option) == action.options.end())
      throw InputError("job " + std::string(action.name) + (action.name.empty() ? "" : " ") + "does not take " +
                       option + (action.options.empty() ? std::string() : "; it takes: " + listed(action.options)));
  if (action.run == read_for_job) return;  // circumstances stand among its readings
  for (const std::string& word : arguments.operands)
    if (is_option(word))
      throw InputError("unknown option " + ohmwright::quoted(word) + did_you_mean(word, arguments.option_names) +
                       "; see: ohmwright job --help");
}

int run_job(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.empty()) {
    refuse_what_it_does_not_take({"", "", talk_through_call, {"--appliance"}}, arguments);
    return talk_through_call(arguments, environment);
  }
  const JobAction& action = action_named(arguments.operands.front());
  Arguments of_action = arguments;
  of_action.operands.erase(of_action.operands.begin());
  refuse_what_it_does_not_take(action, of_action);
  return action.run(of_action, environment);
}

std::vector<std::string_view> action_names() {
  std::vector<std::string_view> names;
  for (const JobAction& action : job_actions()) names.push_back(action.name);
  return names;
}

/// What the help of one action shows.
std::vector<ActionSpec> action_specs() {
  std::vector<ActionSpec> specs;
  for (const JobAction& action : job_actions()) {
    ActionSpec spec{action.name,    action.words,   action.summary,
                    action.example, action.options, action.run == read_for_job};
    spec.options.insert(spec.options.end(), of_every_action.begin(), of_every_action.end());
    specs.push_back(std::move(spec));
  }
  return specs;
}

std::vector<OperandSpec> job_operands() {
  return {
      {"ACTION",
       OHMWRIGHT_TEXT(
           "open, sign, next, card, read, why, find, replace, verify, close, wait, visit, note, correct, list, show, "
           "report, export, import, check; without one the whole call is asked step by step, by digits"),
       false, false, action_names()},
      {"WORD", OHMWRIGHT_TEXT("What the action is about: a title, a reading, a part, a note, a file"), false, true}};
}

}  // namespace

VerbSpec job_verb() {
  return {
      .name = "job",
      .summary = OHMWRIGHT_TEXT("One service call from the complaint to the record, kept in a book"),
      .example = "ohmwright job open \"Freezer warm, frost at the back\" --appliance upright-thermistor-230v",
      .operands = job_operands(),
      .options = job_options(),
      .circumstances = {circumstance_options().begin(), circumstance_options().end()},
      .takes_conditions = true,
      .run = run_job,
      .actions = action_specs(),
  };
}

}  // namespace ohmwright::cli
