#include "job/talk.hpp"

#include <algorithm>
#include <cctype>
#include <charconv>
#include <iostream>
#include <ostream>
#include <sstream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>

#include "exit_codes.hpp"
#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/phone.hpp"
#include "job/repaired.hpp"
#include "job/safety.hpp"
#include "job/untouched.hpp"
#include "job/worked_part.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

void CallTalk::run() {
  if (!intake_.take_up()) return;
  while (!screen_.has_stopped() && !job::is_closed(job_.call().state)) ask_next();
}

void CallTalk::ask_next() {
  if (const PhoneQuestion* next = next_phone_question(job_.call()); next != nullptr && next->is_of_danger) {
    intake_.ask_phone();
    return;
  }
  if (!job_.call().has_appliance() && !job_.call().has_stage(job::Stage::generic_appliance))
    return intake_.ask_appliance();
  if (intake_.ask_phone()) return;
  if (!job_.call().has_appliance()) return intake_.ask_kit();
  if (!intake_.was_looked_at()) return intake_.ask_symptoms();
  if (job_.call().state != job::JobState::open) return ask_waiting();
  const bool proves = job_.call().has_new_repair();
  const bool asks_of_safety = !job::bars_to_energising(job_.call()).empty() && !safety_is_put_off_;
  if (searches_on_ || (!proves && !asks_of_safety)) return search();
  // A suspected leak comes before every test: the volts of one may be the spark.
  if (stops_at_sealed_system(job_.call(), job_.arguments(), environment_)) return search();
  return proves ? prove() : ask_safety_first();
}

void CallTalk::ask_safety_first() {
  ask_bar(job::bars_to_energising(job_.call()).front(),
          {{say_(OHMWRIGHT_TEXT("later: go on looking, not plugged in")), [this] { safety_is_put_off_ = true; }}});
}

void CallTalk::ask_waiting() {
  for (const std::string& bar : texts_of(job::bars_to_leaving_it_plugged_in(job_.call()), say_)) screen_.line(bar);
  std::vector<Choice> choices;
  if (job_.call().state == job::JobState::waits_for_log)
    choices.push_back({say_(OHMWRIGHT_TEXT("the log is there: type its file")), [this] { ask_log(); }});
  choices.push_back({job_.call().state == job::JobState::waits_for_log
                         ? say_(OHMWRIGHT_TEXT("another visit begins"))
                         : say_(OHMWRIGHT_TEXT("it is there: another visit begins")),
                     [this] { job_.act(visit_again, {}); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("close the job")), [this] { ask_close(); }});
  screen_.choose(say_(OHMWRIGHT_TEXT("The job is {state}."), {{"state", job_state_text(job_.call().state, say_)}}),
                 choices);
}

void CallTalk::close_as_repaired() {
  if (!job_.call().has_new_repair()) return ask_what_was_repaired();
  if (ask_what_bars_closing()) return;
  const bool is_untouched = tell_untouched_faults();
  if (!why_not_repaired(job_.call(), job_.arguments(), environment_).a_word_will_do) return close_repaired({});
  if (!is_untouched) tell_what_leaves_it_open();
  const auto why = screen_.typed(say_(OHMWRIGHT_TEXT("Why is it repaired all the same? (an empty line goes back)")));
  if (why && !why->empty()) close_repaired({{"--because", *why}});
}

bool CallTalk::ask_what_bars_closing() {
  const std::vector<job::ProofStep> bars = job::bars_to_closing(job_.call(), safety_asked(job_.call(), environment_));
  if (!bars.empty()) ask_bar(bars.front(), {{say_(OHMWRIGHT_TEXT("go back")), [] {}}});
  return !bars.empty();
}

void CallTalk::tell_what_leaves_it_open() {
  if (speaks_of_a_fault_since_repair(job_.call(), job_.arguments(), environment_))
    return screen_.line(say_(OHMWRIGHT_TEXT("By what was read since the repair something is still wrong.")));
  for (const job::ProofStep& limit : heat_limits_unproved(job_.call(), environment_))
    screen_.line(proof_text(limit, say_));
}

void CallTalk::close_repaired(const TalkedJob::Options& options) {
  const bool may_be_closed = why_not_repaired(job_.call(), job_.with(options), environment_).why.empty();
  for (;;) {  // a day that is none is asked for again
    auto with_day = options;
    if (may_be_closed) {
      const auto day = screen_.typed_value(
          say_(OHMWRIGHT_TEXT("Which day is the customer called back (such as 2026-12-01; an empty line: no day)")));
      if (screen_.has_stopped()) return;
      if (day) with_day.emplace_back("--call-back", *day);
    }
    if (job_.act(close_job, {"repaired"}, with_day) || with_day.size() == options.size()) return;
  }
}

void CallTalk::close_unrepaired(const std::string& how) {
  screen_.choose(
      say_(OHMWRIGHT_TEXT("It ends without a repair, and is offered here no more (ohmwright job visit --job {number} "
                          "opens it again)."),
           {{"number", std::to_string(job_.at_hand().line.number)}}),
      {{say_(OHMWRIGHT_TEXT("yes, close it")), [this, how] { job_.act(close_job, {how}); }},
       {say_(OHMWRIGHT_TEXT("go back")), [] {}}});
}

bool CallTalk::tell_untouched_faults() {
  if (!job_.call().has_new_repair()) return false;  // then closing refuses it, whatever is said
  const std::vector<NamedPart> untouched = named_and_untouched(job_.call(), job_.arguments(), environment_);
  for (const NamedPart& part : untouched)
    screen_.line(
        say_(OHMWRIGHT_TEXT("By what was read {part} is at fault, and nothing says that it was replaced or mended."),
             {{"part", printable(part.title)}}));
  return !untouched.empty();
}

void CallTalk::ask_what_was_repaired() {
  screen_.choose(say_(OHMWRIGHT_TEXT("No part was replaced. What was repaired?")),
                 {{say_(OHMWRIGHT_TEXT("a part, joint or connector, in its place")),
                   [this] { ask_mended(appliance_of(job_.call(), environment_)); }},
                  {say_(OHMWRIGHT_TEXT("something else (a drain, a door): type it")),
                   [this] {
                     if (ask_what_bars_closing()) return;
                     if (const auto what = screen_.typed_words(say_(OHMWRIGHT_TEXT("What was repaired"))))
                       close_repaired({{"--because", *what}});
                   }},
                  {say_(OHMWRIGHT_TEXT("go back")), [] {}}});
}

std::vector<std::string> CallTalk::places_left_open() {
  std::vector<std::string> places;
  for (const job::ProofStep& step : job::open_proof(job_.call()))
    if (step.leaves_new_part_open() && !step.place.empty()) places.push_back(step.place);
  return places;
}

void CallTalk::ask_what_overheated_it(const std::string& part) {
  const std::vector<std::string>& may = job_.call().last_work_on(part)->overheating.causes;
  const Appliance appliance = appliance_of(job_.call(), environment_);
  std::vector<Choice> choices{
      {say_(OHMWRIGHT_TEXT("a part: read it and replace it")), [this] { searches_on_ = true; }}};
  for (const OutsideCause& cause : appliance.outside_causes)
    if (std::find(may.begin(), may.end(), cause.id) != may.end())
      choices.push_back({cause.title, [this, id = cause.id] { job_.sign("--looked", id + "=found"); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("go back")), [] {}});
  screen_.choose(say_(OHMWRIGHT_TEXT("What overheated it?")), choices);
}

void CallTalk::wait_for(const std::string& what) {
  if (job_.act(wait_in_job, {what})) screen_.end();
}

void CallTalk::ask_close() {
  std::vector<Choice> choices{
      {say_(OHMWRIGHT_TEXT("repaired: close it")), [this] { close_as_repaired(); }},
      {say_(OHMWRIGHT_TEXT("declined: close it")), [this] { close_unrepaired("declined"); }},
      {say_(OHMWRIGHT_TEXT("wait for a part")), [this] { wait_for("part"); }},
      {say_(OHMWRIGHT_TEXT("wait for a log")), [this] { wait_for("log"); }},
      {say_(OHMWRIGHT_TEXT("stopped for licensed work: close it")), [this] { close_unrepaired("stopped"); }}};
  for (const std::string& place : places_left_open())
    choices.push_back({say_(OHMWRIGHT_TEXT("read the new part again: {place}"), {{"place", place}}),
                       [this, place] { reading_.read_at(place); }});
  for (const job::ProofStep& step : job::open_proof(job_.call()))
    if (step.form == job::ProofStep::Form::part_not_within)
      choices.push_back({say_(OHMWRIGHT_TEXT("read it again: {place}"), {{"place", step.place}}),
                         [this, place = step.place] { reading_.read_at(place); }});
  for (const job::ProofStep& step : job::open_proof(job_.call()))
    if (step.form == job::ProofStep::Form::cause_unlooked_for || step.form == job::ProofStep::Form::trip_unlooked_for)
      choices.push_back({say_(OHMWRIGHT_TEXT("what overheated it was found: {part}"), {{"part", step.subject}}),
                         [this, part = step.part] { ask_what_overheated_it(part); }});
  if (job_.call().has_new_repair())
    choices.push_back(
        {say_(OHMWRIGHT_TEXT("something is still wrong: go on searching")), [this] { searches_on_ = true; }});
  choices.push_back({say_(OHMWRIGHT_TEXT("go on")), [] {}});
  for (const job::ProofStep& step : job::open_proof(job_.call()))
    if (step.leaves_new_part_open()) screen_.line(proof_text(step, say_));
  screen_.choose(say_(OHMWRIGHT_TEXT("How does the job stand?")), choices);
}

int talk_through_call(const Arguments& arguments, Environment& environment) {
  CallTalk(arguments, environment).run();
  return exit_done;
}

}  // namespace ohmwright::cli
