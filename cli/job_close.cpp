#include <algorithm>
#include <array>
#include <ostream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"
#include "job_actions.hpp"
#include "job_book_file.hpp"
#include "job_safety.hpp"
#include "job_search.hpp"
#include "job_worked_part.hpp"

namespace ohmwright::cli {

namespace {

struct StateWord {
  std::string_view typed;
  job::JobState state = job::JobState::open;
};
constexpr std::array closing_words{StateWord{"repaired", job::JobState::repaired},
                                   StateWord{"declined", job::JobState::declined},
                                   StateWord{"stopped", job::JobState::stopped}};
constexpr std::array waiting_words{StateWord{"part", job::JobState::waits_for_part},
                                   StateWord{"log", job::JobState::waits_for_log}};

template <class Words>
job::JobState state_typed(const Words& words, const Arguments& arguments, std::string_view action) {
  std::string known;
  for (const StateWord& word : words) {
    if (!arguments.operands.empty() && arguments.operands.front() == word.typed) return word.state;
    known += (known.empty() ? "" : ", ") + std::string(word.typed);
  }
  throw InputError(
      "job " + std::string(action) + " takes one of " + known +
      (arguments.operands.empty() ? std::string() : ", got " + ohmwright::quoted(arguments.operands.front())));
}

/// A day as it is kept: somebody calls back on it.
std::string day_to_call_back(const Arguments& arguments) {
  const std::string day = arguments.value("--call-back");
  if (!day.empty() && !job::milliseconds_of(day + "T00:00:00.000Z"))
    throw InputError("--call-back takes a day such as 2026-12-01, got " + ohmwright::quoted(day));
  return day;
}

job::NewEntry state_entry(job::JobState state, const Arguments& arguments) {
  return {job::EntryForm::state, job::ContentWriter()
                                     .text("state", job::name_of(state))
                                     .text("reason", arguments.value("--because"))
                                     .text("call_back", day_to_call_back(arguments))
                                     .content()};
}

/// A new part that nobody could tell to be good is called a repair only by who says why.
void ask_why_a_new_part_is_open(const JobAtHand& job, const Arguments& arguments, const Sentences& say) {
  if (arguments.has("--because")) return;
  std::string all;
  for (const job::ProofStep& step : job::open_proof(job.call))
    if (step.leaves_new_part_open()) all += " " + printable(proof_text(step, say)) + " " + proof_command(step) + ".";
  if (!all.empty())
    throw InputError("job " + std::to_string(job.line.number) + " is not closed as repaired without a word why:" + all +
                     " Read it so that it can be told, or say why it is repaired all the same: --because TEXT");
}

/// What nobody proved, said to who closes: of a repair all of it, else what bars plugging it in.
void tell_what_is_unproved(const JobAtHand& job, const Sentences& say, Environment& environment) {
  std::vector<std::string> bars;
  std::vector<std::string> unproved;
  for (const job::ProofStep& step : job::open_proof(job.call))
    (step.bars_energising() ? bars : unproved).push_back(printable(proof_text(step, say)));
  PageLayout page(environment.page);
  page.section(say(OHMWRIGHT_TEXT("Not plugged in before")), bars);
  if (job.call.state != job::JobState::repaired) unproved.clear();
  page.section(say(OHMWRIGHT_TEXT("Still unproved")), unproved);
  if (!bars.empty() || !unproved.empty()) page.blank_line();
  environment.out << page.take();
}

/// What is recorded as repaired is what somebody will plug in and touch.
void refuse_unproved_repair(const JobAtHand& job, const Sentences& say, const Environment& environment) {
  std::string all;
  std::string ways;
  for (const job::ProofStep& bar : job::bars_to_closing(job.call, safety_asked(job.call, environment))) {
    all += " " + printable(proof_text(bar, say));
    if (!bar.bars_energising()) ways += (ways.empty() ? " " : "; ") + proof_command(bar);
  }
  if (all.empty()) return;
  throw InputError("job " + std::to_string(job.line.number) + " is not closed as repaired:" + all +
                   (ways.empty() ? " See: ohmwright job verify" : " See: ohmwright job verify;" + printable(ways)));
}

/// A part that the search names by what was read is no good one because nobody says what was done to it.
void refuse_fault_that_nobody_mended(const JobAtHand& job, const Arguments& arguments, const Environment& environment) {
  if (!job.call.replaced.empty() || job.call.readings.empty() || !job.call.has_appliance()) return;
  JobSearch now(job.call, arguments, environment, JobSearch::Reach::now);
  const locate::Standing& standing = now.search().standing();
  if (!standing.is_named() || standing.parts.empty()) return;
  const PlacedPart& part = now.appliance().parts[standing.parts.front()];
  throw InputError("job " + std::to_string(job.line.number) + " is not closed as repaired: by what was read " +
                   printable(part.title) +
                   " is at fault, and nothing says that it was replaced or mended; say which: "
                   "ohmwright job replace " +
                   part.id + " --new NAME, or --mended TEXT where it stays in its place");
}

void say_state(const JobAtHand& job, const Sentences& say, Environment& environment) {
  say_which(job, environment);
  environment.out << paragraph(say(OHMWRIGHT_TEXT("State: {state}"), {{"state", job_state_text(job.call.state, say)}}),
                               environment.page.width);
}

std::string all_words(const Arguments& arguments) {
  std::string text;
  for (const std::string& word : arguments.operands) text += (text.empty() ? "" : " ") + word;
  return text;
}

}  // namespace

int close_job(const Arguments& arguments, Environment& environment) {
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  const job::JobState state = state_typed(closing_words, arguments, "close");
  const Sentences say{UnitPreferences{}};
  if (state == job::JobState::repaired) {
    refuse_unproved_repair(job, say, environment);
    refuse_fault_that_nobody_mended(job, arguments, environment);
    ask_why_a_new_part_is_open(job, arguments, say);
    if (job.call.replaced.empty() && !arguments.has("--because"))
      throw InputError(
          "job " + std::to_string(job.line.number) +
          " has no part replaced or mended in place; say with --because what was repaired, or close it as declined");
  }
  job.write({state_entry(state, arguments)});
  say_state(job, say, environment);
  tell_what_is_unproved(job, say, environment);
  environment.out << paragraph(
      say(OHMWRIGHT_TEXT("The report: ohmwright job report --job {number} --format html --out FILE"),
          {{"number", std::to_string(job.line.number)}}),
      environment.page.width);
  return exit_done;
}

int wait_in_job(const Arguments& arguments, Environment& environment) {
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  job.write({state_entry(state_typed(waiting_words, arguments, "wait"), arguments)});
  say_state(job, Sentences{UnitPreferences{}}, environment);
  return exit_done;
}

int visit_again(const Arguments& arguments, Environment& environment) {
  JobAtHand job = job_at_hand(arguments);
  job.write({{job::EntryForm::visit, "{}"}, state_entry(job::JobState::open, {})});
  const Sentences say{UnitPreferences{}};
  say_which(job, environment);
  environment.out << paragraph(
      say(OHMWRIGHT_TEXT("Visit {number} begins."), {{"number", std::to_string(job.call.visits)}}),
      environment.page.width);
  return exit_done;
}

int note_in_job(const Arguments& arguments, Environment& environment) {
  const std::string text = all_words(arguments);
  if (text.empty()) throw InputError("missing: the note; such as: ohmwright job note \"gasket torn at the hinge\"");
  JobAtHand job = job_at_hand(arguments);
  job.write({{job::EntryForm::note, job::ContentWriter().text("text", text).content(), time_happened(arguments)}});
  say_which(job, environment);
  environment.out << Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("Noted.")) << '\n';
  return exit_done;
}

int correct_job(const Arguments& arguments, Environment& environment) {
  if (arguments.operands.empty())
    throw InputError("missing: the entry to take back; ohmwright job show lists them, or: ohmwright job correct last");
  JobAtHand job = job_at_hand(arguments);
  const std::string& typed = arguments.operands.front();
  const job::Entry* entry = nullptr;
  if (typed == "last") {
    entry = job::last_to_take_back(job.entries);
    if (entry == nullptr) throw InputError("the job has no entry that can be taken back");
  } else {
    constexpr std::size_t least_letters = 4;
    std::size_t found = 0;
    for (const job::Entry& one : job.entries)
      if (typed.size() >= least_letters && one.id.compare(0, typed.size(), typed) == 0) {
        entry = &one;
        ++found;
      }
    if (found != 1)
      throw InputError((found == 0 ? "the job has no entry " : "more than one entry begins with ") +
                       ohmwright::quoted(typed) + "; see: ohmwright job show");
  }
  if (entry->is(job::EntryForm::opened)) throw InputError("the opening of a job is not taken back; close it instead");
  const std::string what = entry->form + " " + entry->id.substr(0, 8);
  job.write({{job::EntryForm::taken_back,
              job::ContentWriter().text("reason", arguments.value("--because")).content(),
              {},
              entry->id}});
  say_which(job, environment);
  environment.out << paragraph(
      Sentences{UnitPreferences{}}(OHMWRIGHT_TEXT("Taken back: {what}. It stays in the book and no longer counts."),
                                   {{"what", what}}),
      environment.page.width);
  return exit_done;
}

}  // namespace ohmwright::cli
