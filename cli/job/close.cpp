// A job that comes to an end, waits, or is taken up again.

#include <algorithm>
#include <array>
#include <ostream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/locate/work.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>
#include <ohmwright/report/page_layout.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/book_file.hpp"
#include "job/repaired.hpp"
#include "job/safety.hpp"
#include "job/search.hpp"

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
  const std::string today = local_time(job::time_text(milliseconds_now())).substr(0, day.size());
  if (!day.empty() && day < today)
    throw InputError("--call-back takes a day that is still to come, got " + ohmwright::quoted(day) + "; today is " +
                     today);
  return day;
}

/// Of the page that ends in "stop: licensed refrigerant work".
std::vector<std::string> cautions_of_stop(const JobAtHand& job, const Arguments& arguments,
                                          const Environment& environment) {
  if (!job.call.has_appliance())
    return signs_speak_of_sealed_system(job.call) && label_may_burn(job.call)
               ? std::vector<std::string>{"flammable-refrigerant"}
               : std::vector<std::string>{};
  const JobSearch search(job.call, arguments, environment, JobSearch::Reach::now);
  return search.stops_at_sealed_system() ? locate::cautions_of_arrival(search.appliance()) : std::vector<std::string>{};
}

job::NewEntry state_entry(job::JobState state, const Arguments& arguments,
                          const std::vector<std::string>& cautions = {}) {
  return {job::EntryForm::state, job::ContentWriter()
                                     .text("state", job::name_of(state))
                                     .text("reason", arguments.value("--because"))
                                     .text("call_back", day_to_call_back(arguments))
                                     .texts("cautions", cautions)
                                     .content()};
}

/// What nobody proved, said to who closes: of a repair all of it, else what bars plugging it in.
void tell_what_is_unproved(const JobAtHand& job, const Sentences& say, Environment& environment) {
  std::vector<std::string> bars;
  std::vector<std::string> unproved;
  for (const job::ProofStep& step : job::open_proof(job.call))
    (step.bars_leaving_it_plugged_in() ? bars : unproved).push_back(printable(proof_text(step, say)));
  for (const job::ProofStep& step : heat_limits_unproved(job.call, environment)) {
    const std::string text = printable(proof_text(step, say));
    std::erase(unproved, text);
    if (!step.bars_leaving_it_plugged_in()) (step.is_read_bad() ? bars : unproved).push_back(text);
  }
  PageLayout page(environment.page);
  page.section(say(OHMWRIGHT_TEXT("Not plugged in before")), bars);
  if (job.call.state != job::JobState::repaired) unproved.clear();
  page.section(say(OHMWRIGHT_TEXT("Still unproved")), unproved);
  if (!bars.empty() || !unproved.empty()) page.blank_line();
  environment.out << page.take();
}

void say_state(const JobAtHand& job, const Sentences& say, Environment& environment) {
  say_which(job, environment);
  environment.out << paragraph(say(OHMWRIGHT_TEXT("State: {state}"), {{"state", job_state_text(job.call.state, say)}}),
                               environment.page.width);
}

}  // namespace

int close_job(const Arguments& arguments, Environment& environment) {
  JobAtHand job = job_at_hand(arguments);
  refuse_closed(job);
  const job::JobState state = state_typed(closing_words, arguments, "close");
  const Sentences say{UnitPreferences{}};
  if (state == job::JobState::repaired) {
    const std::string why_not = why_not_repaired(job.call, arguments, environment).why;
    if (!why_not.empty()) throw InputError("job " + std::to_string(job.line.number) + " " + why_not);
  }
  std::vector<std::string> cautions;
  if (state == job::JobState::stopped) cautions = cautions_of_stop(job, arguments, environment);
  job.write({state_entry(state, arguments, cautions)});
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
  const job::JobState waiting = state_typed(waiting_words, arguments, "wait");
  if (waiting == job::JobState::waits_for_log) refuse_to_leave_it_plugged_in(job, environment);
  job.write({state_entry(waiting, arguments)});
  const Sentences say{UnitPreferences{}};
  say_state(job, say, environment);
  tell_what_is_unproved(job, say, environment);
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

}  // namespace ohmwright::cli
