#include "job/talked_job.hpp"

#include <sstream>

#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/quantity/error.hpp>

#include "job/actions.hpp"
#include "job/signs.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

Arguments TalkedJob::with(const std::vector<std::pair<std::string, std::string>>& options) const {
  Arguments of_action = arguments_;
  for (const auto& [option, value] : options) {
    std::vector<std::string>& values = of_action.options[option];
    if (!value.empty()) values.push_back(value);
  }
  return of_action;
}

bool TalkedJob::act(int (*action)(const Arguments&, Environment&), std::vector<std::string> operands,
                    const std::vector<std::pair<std::string, std::string>>& options) {
  Arguments of_action = with(options);
  of_action.operands = std::move(operands);
  try {
    action(of_action, environment_);
    again();
    passed_over_ = 0;
    return true;
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    std::istringstream lines(refusal_text(error));
    for (std::string one; std::getline(lines, one);) screen_.line(one);
    again();  // a part of it may be in the book, or somebody else's entry
    return false;
  }
}

void TalkedJob::again() { job_ = job_at_hand(arguments_); }

void TalkedJob::keep(const std::vector<job::NewEntry>& entries) {
  try {
    job_.write(entries);
  } catch (const job::WrittenMeanwhile& error) {
    screen_.line(refusal_text(error));
    again();
  }
}

void TalkedJob::note_stage(job::Stage stage) {
  keep({{job::EntryForm::stage, job::ContentWriter().text("stage", name_of(stage)).content()}});
}

void TalkedJob::sign(const std::string& option, const std::string& word) {
  passed_over_ = 0;
  keep({sign_entry(option, word)});
}

void TalkedJob::take_back() { act(correct_job, {"last"}); }

void TalkedJob::take_reading_back(const std::string& place) {
  if (const job::MeasuredValue* last = job_.call.last_reading_at(place)) act(correct_job, {last->entry});
}

}  // namespace ohmwright::cli
