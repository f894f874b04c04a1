#include "job_talk.hpp"

#include <algorithm>
#include <iostream>
#include <ostream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/report/job_report.hpp>

#include "exit_codes.hpp"
#include "job_actions.hpp"
#include "job_phone.hpp"

namespace ohmwright::cli {

void CallTalk::run() {
  if (!take_up()) return;
  while (!stopped_ && !job::is_closed(job_.call.state)) ask_next();
}

void CallTalk::line(const std::string& text, std::string_view indent) {
  environment_.out << paragraph(text, environment_.page.width, indent, indent);
}

std::optional<std::string> CallTalk::typed(const std::string& prompt) {
  std::optional<std::string> answer = typed_line(std::cin, environment_, prompt + "> ");
  if (!answer || *answer == "0") {
    stopped_ = true;
    line(say_(OHMWRIGHT_TEXT("Stopped. All answers are in the book; ohmwright job goes on here.")));
    return std::nullopt;
  }
  return answer;
}

void CallTalk::choose(const std::string& question, const std::vector<Choice>& choices) {
  environment_.out << '\n';
  line(question);
  for (std::size_t i = 0; i < choices.size(); ++i)
    environment_.out << paragraph(choices[i].text, environment_.page.width, "  " + std::to_string(i + 1) + "  ",
                                  "     ");
  environment_.out << paragraph(say_(OHMWRIGHT_TEXT("stop here; it goes on here")), environment_.page.width, "  0  ",
                                "     ");
  while (const std::optional<std::string> answer = typed("")) {
    const std::size_t digit = answer->size() == 1 ? static_cast<std::size_t>((*answer)[0] - '1') : choices.size();
    if (digit < choices.size()) return choices[digit].then();
    line(say_(OHMWRIGHT_TEXT("Type one of the digits.")));
  }
}

bool CallTalk::act(int (*action)(const Arguments&, Environment&), std::vector<std::string> operands,
                   std::vector<std::pair<std::string, std::string>> options) {
  Arguments of_action = arguments_;
  of_action.operands = std::move(operands);
  for (auto& [option, value] : options) {
    std::vector<std::string>& values = of_action.options[option];
    if (!value.empty()) values.push_back(value);
  }
  try {
    action(of_action, environment_);
    again();
    return true;
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    line(error.what());
    return false;
  }
}

void CallTalk::again() { job_ = job_at_hand(arguments_); }

void CallTalk::note_stage(std::string_view stage) {
  job_.write({{std::string(job::forms::stage), job::ContentWriter().text("stage", stage).content()}});
}

bool CallTalk::take_up() {
  const std::unique_ptr<job::JobBook> book = open_book(arguments_, true);
  const std::optional<job::JobLine> open = book->at_hand();
  bool begin = !open && !arguments_.has("--job");
  if (open && !arguments_.has("--job"))
    choose(say_(OHMWRIGHT_TEXT("Which call is it?")),
           {{say_(OHMWRIGHT_TEXT("go on with job {number}: {title}"),
                  {{"number", std::to_string(open->number)}, {"title", printable(open->title)}}),
             [&] { arguments_.options["--job"] = {std::to_string(open->number)}; }},
            {say_(OHMWRIGHT_TEXT("a new call")), [&] { begin = true; }}});
  if (stopped_) return false;
  if (begin) {
    line(say_(OHMWRIGHT_TEXT("A new call. What is it, in a few words? (0 stops)")));
    std::optional<std::string> title = typed("");
    while (title && title->empty()) title = typed("");
    if (!title) return false;
    const std::int64_t number = book->open_job(std::vector<job::NewEntry>{
        {std::string(job::forms::opened), job::ContentWriter().text("title", *title).content()}});
    arguments_.options["--job"] = {std::to_string(number)};
  }
  again();
  say_which(job_, environment_);
  return true;
}

void CallTalk::ask_next() {
  if (ask_phone()) return;
  if (!job_.call.has_appliance()) return ask_appliance();
  if (!job_.call.has_stage("looked")) return ask_symptoms();
  if (job_.call.state != job::is_open) return ask_waiting();
  if (job_.call.replaced.empty()) return search();
  return prove();
}

void CallTalk::ask_waiting() {
  choose(say_(OHMWRIGHT_TEXT("The job is {state}."), {{"state", job_state_text(job_.call.state, say_)}}),
         {{say_(OHMWRIGHT_TEXT("it is there: another visit begins")), [this] { act(visit_again, {}); }},
          {say_(OHMWRIGHT_TEXT("the log is there: type its file")), [this] { ask_log(); }},
          {say_(OHMWRIGHT_TEXT("close the job")), [this] { ask_close(); }}});
}

void CallTalk::close_as_repaired() {
  if (!job_.call.replaced.empty()) {
    act(close_job, {"repaired"});
  } else if (const std::optional<std::string> what =
                 typed(say_(OHMWRIGHT_TEXT("No part was replaced. What was repaired (a splice, a drain)?")))) {
    act(close_job, {"repaired"}, {{"--because", *what}});
  }
}

void CallTalk::ask_close() {
  choose(say_(OHMWRIGHT_TEXT("How does the job stand?")),
         {{say_(OHMWRIGHT_TEXT("repaired: close it")), [this] { close_as_repaired(); }},
          {say_(OHMWRIGHT_TEXT("declined: close it")), [this] { act(close_job, {"declined"}); }},
          {say_(OHMWRIGHT_TEXT("wait for a part")),
           [this] {
             act(wait_in_job, {"part"});
             stopped_ = true;
           }},
          {say_(OHMWRIGHT_TEXT("wait for a log")),
           [this] {
             act(wait_in_job, {"log"});
             stopped_ = true;
           }},
          {say_(OHMWRIGHT_TEXT("stopped for licensed work: close it")), [this] { act(close_job, {"stopped"}); }},
          {say_(OHMWRIGHT_TEXT("go on")), [] {}}});
}

int talk_through_call(const Arguments& arguments, Environment& environment) {
  CallTalk(arguments, environment).run();
  return exit_done;
}

}  // namespace ohmwright::cli
