#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// One action of `ohmwright job`: what stands behind the verb's name.
struct JobAction {
  std::string_view name;
  std::string_view summary;
  int (*run)(const Arguments&, Environment&) = nullptr;  ///< operands are those behind the action's name
  std::vector<std::string_view> options = {};            ///< beside --book, --job, --who and those of every verb
  std::string_view words = {};                           ///< what its help shows behind its name
  std::string_view example = {};
};

// Each gives its exit code. What they write is whole or not there: all at once, but `verify` what was proved one after
// the other, and `open --phone` each answer, so that what is in the book is known before the next is asked.
int open_job(const Arguments& arguments, Environment& environment);
int list_jobs(const Arguments& arguments, Environment& environment);
int show_job(const Arguments& arguments, Environment& environment);
int read_for_job(const Arguments& arguments, Environment& environment);
int note_sign(const Arguments& arguments, Environment& environment);
int next_of_job(const Arguments& arguments, Environment& environment);
int card_of_job(const Arguments& arguments, Environment& environment);
int why_of_job(const Arguments& arguments, Environment& environment);
int find_in_job(const Arguments& arguments, Environment& environment);
int replace_in_job(const Arguments& arguments, Environment& environment);
int verify_job(const Arguments& arguments, Environment& environment);
int close_job(const Arguments& arguments, Environment& environment);
int wait_in_job(const Arguments& arguments, Environment& environment);
int visit_again(const Arguments& arguments, Environment& environment);
int note_in_job(const Arguments& arguments, Environment& environment);
int correct_job(const Arguments& arguments, Environment& environment);
int report_of_job(const Arguments& arguments, Environment& environment);
int export_jobs(const Arguments& arguments, Environment& environment);
int import_jobs(const Arguments& arguments, Environment& environment);
int check_book(const Arguments& arguments, Environment& environment);

// The same as answers of the conversation: no command lines, and not what the next question asks anyhow.
int read_in_talk(const Arguments& arguments, Environment& environment);
int replace_in_talk(const Arguments& arguments, Environment& environment);
int verify_in_talk(const Arguments& arguments, Environment& environment);

/// `ohmwright job` alone: the whole call as questions, each answered by a digit or a value. What was answered is in the
/// book at once, so it may be stopped at any question, also by a kill, and goes on there.
int talk_through_call(const Arguments& arguments, Environment& environment);

/// What the options of `job` are.
std::vector<OptionSpec> job_options();

}  // namespace ohmwright::cli
