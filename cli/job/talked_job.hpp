#pragma once

#include <cstddef>
#include <string>
#include <utility>
#include <vector>

#include "environment.hpp"
#include "job/book_file.hpp"
#include "job/talk_screen.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// The job that a conversation is about, and what its answers do to it: every one is an action of `ohmwright job`, and
/// in the book before the next question.
class TalkedJob {
 public:
  using Options = std::vector<std::pair<std::string, std::string>>;

  TalkedJob(const Arguments& arguments, Environment& environment, TalkScreen& screen)
      : arguments_(arguments), environment_(environment), screen_(screen) {}

  const JobAtHand& at_hand() const { return job_; }
  const job::ServiceCall& call() const { return job_.call; }
  /// Those of the conversation; --job names the job once it is known.
  Arguments& arguments() { return arguments_; }
  const Arguments& arguments() const { return arguments_; }
  /// The arguments of the conversation with those of an action.
  Arguments with(const Options& options) const;

  /// Does an action as if it was typed, then tells the call anew. What is refused is said; false then.
  bool act(int (*action)(const Arguments&, Environment&), std::vector<std::string> operands,
           const Options& options = {});
  /// Tells the call anew.
  void again();
  /// Writes down; where another process wrote in the job meanwhile, says so, and what is asked next is asked anew.
  void keep(const std::vector<job::NewEntry>& entries);
  void note_stage(job::Stage stage);
  void sign(const std::string& option, const std::string& word);
  void take_back();
  /// Takes the last reading at a test point back, of several the one that says that it leaks.
  void take_reading_back(const std::string& place);

  /// How many of the next steps were passed over since the last answer.
  std::size_t passed_over() const { return passed_over_; }
  void pass_over() { ++passed_over_; }

 private:
  Arguments arguments_;
  Environment& environment_;
  TalkScreen& screen_;
  JobAtHand job_;
  std::size_t passed_over_ = 0;
};

}  // namespace ohmwright::cli
