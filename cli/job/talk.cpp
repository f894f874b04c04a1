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
  if (!take_up()) return;
  while (!stopped_ && !job::is_closed(job_.call.state)) ask_next();
}

void CallTalk::line(const std::string& text, std::string_view indent) {
  environment_.out << paragraph(text, environment_.page.width, indent, indent);
}

std::string CallTalk::prompt_of(const std::string& question) const {
  std::string prompt = question.empty() ? question : paragraph(question + ">", environment_.page.width);
  if (prompt.empty()) return "> ";
  prompt.back() = ' ';  // in place of the end of its last line
  return prompt;
}

std::optional<std::string> CallTalk::typed(const std::string& prompt) {
  std::optional<std::string> answer = typed_line(std::cin, environment_, prompt_of(prompt));
  if (!answer || *answer == "0") {
    stopped_ = true;
    line(say_(OHMWRIGHT_TEXT("Stopped. All answers are in the book; ohmwright job goes on here.")));
    return std::nullopt;
  }
  return answer;
}

std::optional<std::string> CallTalk::typed_words(const std::string& prompt) {
  std::optional<std::string> answer = typed(prompt);
  if (answer && answer->empty()) return std::nullopt;
  return answer;
}

std::optional<std::string> CallTalk::typed_value(const std::string& prompt) {
  std::optional<std::string> answer = typed_line(std::cin, environment_, prompt_of(prompt));
  if (answer && answer->empty()) return std::nullopt;
  if (answer && *answer != "stop") return answer;
  stopped_ = true;
  line(say_(OHMWRIGHT_TEXT("Stopped. All answers are in the book; ohmwright job goes on here.")));
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

bool CallTalk::is_meant_as_a_reading(const std::string& typed) {
  bool is_meant = false;
  choose(say_(OHMWRIGHT_TEXT("{value}: is that what the meter shows?"), {{"value", typed}}),
         {{say_(OHMWRIGHT_TEXT("yes, it is the reading")), [&is_meant] { is_meant = true; }},
          {say_(OHMWRIGHT_TEXT("no, a digit was struck twice")), [] {}}});
  return is_meant;
}

void CallTalk::choose(const std::string& question, const std::vector<Choice>& choices, const Taken& taken) {
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

Arguments CallTalk::with(const std::vector<std::pair<std::string, std::string>>& options) const {
  Arguments of_action = arguments_;
  for (const auto& [option, value] : options) {
    std::vector<std::string>& values = of_action.options[option];
    if (!value.empty()) values.push_back(value);
  }
  return of_action;
}

bool CallTalk::act(int (*action)(const Arguments&, Environment&), std::vector<std::string> operands,
                   const std::vector<std::pair<std::string, std::string>>& options) {
  Arguments of_action = with(options);
  of_action.operands = std::move(operands);
  try {
    action(of_action, environment_);
    again();
    return true;
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    std::istringstream lines(refusal_text(error));
    for (std::string one; std::getline(lines, one);) line(one);
    again();  // a part of it may be in the book, or somebody else's entry
    return false;
  }
}

void CallTalk::again() { job_ = job_at_hand(arguments_); }

void CallTalk::keep(const std::vector<job::NewEntry>& entries) {
  try {
    job_.write(entries);
  } catch (const job::WrittenMeanwhile& error) {
    line(refusal_text(error));
    again();
  }
}

void CallTalk::note_stage(job::Stage stage) {
  keep({{job::EntryForm::stage, job::ContentWriter().text("stage", name_of(stage)).content()}});
}

namespace {

/// The job that was written to last, where it is closed: somebody may call back on it.
std::optional<job::JobLine> closed_last(const job::JobBook& book) {
  std::vector<job::JobLine> last = book.list({}, 1);
  const auto state = last.empty() ? std::nullopt : job::job_state_named(last.front().state);
  if (!state || !job::is_closed(*state)) return std::nullopt;
  return std::move(last.front());
}

}  // namespace

void CallTalk::choose_job(const std::optional<job::JobLine>& open, const std::optional<job::JobLine>& closed,
                          bool& begins) {
  if (!open && !closed) {
    begins = true;
    return;
  }
  const auto named = [this](std::string_view english, const job::JobLine& line) {
    return say_(english, {{"number", std::to_string(line.number)}, {"title", printable(line.title)}});
  };
  std::vector<Choice> choices;
  if (open)
    choices.push_back({named(OHMWRIGHT_TEXT("go on with job {number}: {title}"), *open),
                       [&] { arguments_.options["--job"] = {std::to_string(open->number)}; }});
  choices.push_back({say_(OHMWRIGHT_TEXT("a new call")), [&] { begins = true; }});
  if (closed)
    choices.push_back(
        {named(OHMWRIGHT_TEXT("another visit for job {number}, which was closed: {title}"), *closed), [&] {
           arguments_.options["--job"] = {std::to_string(closed->number)};
           again();
           act(visit_again, {});
         }});
  choose(say_(OHMWRIGHT_TEXT("Which call is it?")), choices);
}

bool CallTalk::take_up() {
  const std::unique_ptr<job::JobBook> book = open_book(arguments_, true);
  const std::optional<job::JobLine> open = book->at_hand();
  bool begin = false;
  if (!arguments_.has("--job")) choose_job(open, closed_last(*book), begin);
  if (stopped_) return false;
  if (begin) {
    line(say_(OHMWRIGHT_TEXT("A new call. What is it, in a few words? (0 stops)")));
    std::optional<std::string> title = typed("");
    while (title && title->empty()) title = typed("");
    if (!title) return false;
    std::vector<job::NewEntry> entries{{job::EntryForm::opened, job::ContentWriter().text("title", *title).content()}};
    if (arguments_.has("--appliance"))
      entries.push_back(appliance_entry(arguments_.value("--appliance"), environment_));
    const std::int64_t number = book->open_job(entries);
    arguments_.options["--job"] = {std::to_string(number)};
  }
  again();
  say_which(job_, environment_);
  if (!job_.call.has_appliance() && arguments_.has("--appliance"))
    keep({appliance_entry(arguments_.value("--appliance"), environment_)});
  arguments_.options.erase("--appliance");  // answers are actions that do not take it
  return true;
}

void CallTalk::ask_next() {
  if (const PhoneQuestion* next = next_phone_question(job_.call); next != nullptr && next->is_of_danger) {
    ask_phone();
    return;
  }
  if (!job_.call.has_appliance() && !job_.call.has_stage(job::Stage::generic_appliance)) return ask_appliance();
  if (ask_phone()) return;
  if (!job_.call.has_appliance()) return ask_kit();
  if (!was_looked_at()) return ask_symptoms();
  if (job_.call.state != job::JobState::open) return ask_waiting();
  const bool proves = job_.call.has_new_repair();
  const bool asks_of_safety = !job::bars_to_energising(job_.call).empty() && !safety_is_put_off_;
  if (searches_on_ || (!proves && !asks_of_safety)) return search();
  // A suspected leak comes before every test: the volts of one may be the spark.
  if (stops_at_sealed_system(job_.call, arguments_, environment_)) return search();
  return proves ? prove() : ask_safety_first();
}

bool CallTalk::was_looked_at() const {
  const bool is_call_back = job_.call.repairs_closed > 0 && !job_.call.has_new_repair();
  return std::any_of(job_.call.stages.begin(), job_.call.stages.end(), [&](const job::DoneStage& done) {
    return done.stage == job::Stage::looked && (!is_call_back || done.visit == job_.call.visits);
  });
}

void CallTalk::ask_safety_first() {
  ask_bar(job::bars_to_energising(job_.call).front(),
          {{say_(OHMWRIGHT_TEXT("later: go on looking, not plugged in")), [this] { safety_is_put_off_ = true; }}});
}

void CallTalk::ask_waiting() {
  for (const std::string& bar : texts_of(job::bars_to_leaving_it_plugged_in(job_.call), say_)) line(bar);
  choose(say_(OHMWRIGHT_TEXT("The job is {state}."), {{"state", job_state_text(job_.call.state, say_)}}),
         {{say_(OHMWRIGHT_TEXT("it is there: another visit begins")), [this] { act(visit_again, {}); }},
          {say_(OHMWRIGHT_TEXT("the log is there: type its file")), [this] { ask_log(); }},
          {say_(OHMWRIGHT_TEXT("close the job")), [this] { ask_close(); }}});
}

void CallTalk::close_as_repaired() {
  if (ask_what_bars_closing()) return;
  const bool is_untouched = tell_untouched_faults();
  const bool asks_why =
      job_.call.has_new_repair() && why_not_repaired(job_.call, arguments_, environment_).a_word_will_do;
  if (asks_why) {
    if (!is_untouched) tell_what_leaves_it_open();
    if (const auto why = typed(say_(OHMWRIGHT_TEXT("Why is it repaired all the same? (an empty line goes back)"))))
      if (!why->empty()) close_repaired({{"--because", *why}});
  } else if (job_.call.has_new_repair()) {
    close_repaired({});
  } else {
    ask_what_was_repaired();
  }
}

bool CallTalk::ask_what_bars_closing() {
  const std::vector<job::ProofStep> bars = job::bars_to_closing(job_.call, safety_asked(job_.call, environment_));
  if (!bars.empty()) ask_bar(bars.front(), {{say_(OHMWRIGHT_TEXT("go back")), [] {}}});
  return !bars.empty();
}

void CallTalk::tell_what_leaves_it_open() {
  if (speaks_of_a_fault_since_repair(job_.call, arguments_, environment_))
    return line(say_(OHMWRIGHT_TEXT("By what was read since the repair something is still wrong.")));
  for (const job::ProofStep& limit : heat_limits_unproved(job_.call, environment_)) line(proof_text(limit, say_));
}

void CallTalk::close_repaired(const std::vector<std::pair<std::string, std::string>>& options) {
  const bool may_be_closed = why_not_repaired(job_.call, with(options), environment_).why.empty();
  for (;;) {  // a day that is none is asked for again
    auto with_day = options;
    if (may_be_closed) {
      const auto day = typed_value(
          say_(OHMWRIGHT_TEXT("Which day is the customer called back (such as 2026-12-01; an empty line: no day)")));
      if (stopped_) return;
      if (day) with_day.emplace_back("--call-back", *day);
    }
    if (act(close_job, {"repaired"}, with_day) || with_day.size() == options.size()) return;
  }
}

void CallTalk::close_unrepaired(const std::string& how) {
  choose(
      say_(OHMWRIGHT_TEXT("It ends without a repair, and is offered here no more (ohmwright job visit --job {number} "
                          "opens it again)."),
           {{"number", std::to_string(job_.line.number)}}),
      {{say_(OHMWRIGHT_TEXT("yes, close it")), [this, how] { act(close_job, {how}); }},
       {say_(OHMWRIGHT_TEXT("go back")), [] {}}});
}

bool CallTalk::tell_untouched_faults() {
  if (!job_.call.has_new_repair()) return false;  // then closing refuses it, whatever is said
  const std::vector<NamedPart> untouched = named_and_untouched(job_.call, arguments_, environment_);
  for (const NamedPart& part : untouched)
    line(say_(OHMWRIGHT_TEXT("By what was read {part} is at fault, and nothing says that it was replaced or mended."),
              {{"part", printable(part.title)}}));
  return !untouched.empty();
}

void CallTalk::ask_what_was_repaired() {
  choose(say_(OHMWRIGHT_TEXT("No part was replaced. What was repaired?")),
         {{say_(OHMWRIGHT_TEXT("a part, joint or connector, in its place")),
           [this] { ask_mended(appliance_of(job_.call, environment_)); }},
          {say_(OHMWRIGHT_TEXT("something else (a drain, a door): type it")),
           [this] {
             if (const auto what = typed_words(say_(OHMWRIGHT_TEXT("What was repaired"))))
               close_repaired({{"--because", *what}});
           }},
          {say_(OHMWRIGHT_TEXT("go back")), [] {}}});
}

std::vector<std::string> CallTalk::places_left_open() {
  std::vector<std::string> places;
  for (const job::ProofStep& step : job::open_proof(job_.call))
    if (step.leaves_new_part_open() && !step.place.empty()) places.push_back(step.place);
  return places;
}

void CallTalk::ask_what_overheated_it(const std::string& part) {
  const std::vector<std::string>& may = job_.call.last_work_on(part)->overheating.causes;
  const Appliance appliance = appliance_of(job_.call, environment_);
  std::vector<Choice> choices{
      {say_(OHMWRIGHT_TEXT("a part: read it and replace it")), [this] { searches_on_ = true; }}};
  for (const OutsideCause& cause : appliance.outside_causes)
    if (std::find(may.begin(), may.end(), cause.id) != may.end())
      choices.push_back({cause.title, [this, id = cause.id] { sign("--looked", id + "=found"); }});
  choices.push_back({say_(OHMWRIGHT_TEXT("go back")), [] {}});
  choose(say_(OHMWRIGHT_TEXT("What overheated it?")), choices);
}

void CallTalk::wait_for(const std::string& what) { stopped_ = act(wait_in_job, {what}); }

void CallTalk::ask_close() {
  std::vector<Choice> choices{
      {say_(OHMWRIGHT_TEXT("repaired: close it")), [this] { close_as_repaired(); }},
      {say_(OHMWRIGHT_TEXT("declined: close it")), [this] { close_unrepaired("declined"); }},
      {say_(OHMWRIGHT_TEXT("wait for a part")), [this] { wait_for("part"); }},
      {say_(OHMWRIGHT_TEXT("wait for a log")), [this] { wait_for("log"); }},
      {say_(OHMWRIGHT_TEXT("stopped for licensed work: close it")), [this] { close_unrepaired("stopped"); }}};
  for (const std::string& place : places_left_open())
    choices.push_back({say_(OHMWRIGHT_TEXT("read the new part again: {place}"), {{"place", place}}),
                       [this, place] { read_at(place); }});
  for (const job::ProofStep& step : job::open_proof(job_.call))
    if (step.form == job::ProofStep::Form::part_not_within)
      choices.push_back({say_(OHMWRIGHT_TEXT("read it again: {place}"), {{"place", step.place}}),
                         [this, place = step.place] { read_at(place); }});
  for (const job::ProofStep& step : job::open_proof(job_.call))
    if (step.form == job::ProofStep::Form::cause_unlooked_for || step.form == job::ProofStep::Form::trip_unlooked_for)
      choices.push_back({say_(OHMWRIGHT_TEXT("what overheated it was found: {part}"), {{"part", step.subject}}),
                         [this, part = step.part] { ask_what_overheated_it(part); }});
  if (job_.call.has_new_repair())
    choices.push_back(
        {say_(OHMWRIGHT_TEXT("something is still wrong: go on searching")), [this] { searches_on_ = true; }});
  choices.push_back({say_(OHMWRIGHT_TEXT("go on")), [] {}});
  for (const job::ProofStep& step : job::open_proof(job_.call))
    if (step.leaves_new_part_open()) line(proof_text(step, say_));
  choose(say_(OHMWRIGHT_TEXT("How does the job stand?")), choices);
}

int talk_through_call(const Arguments& arguments, Environment& environment) {
  CallTalk(arguments, environment).run();
  return exit_done;
}

}  // namespace ohmwright::cli
