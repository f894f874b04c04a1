#pragma once

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/appliance/kit.hpp>
#include <ohmwright/job/closing.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job_book_file.hpp"
#include "job_search.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A whole call as questions. Asks what the book does not say yet, one question after the other; every answer is an
/// action of `ohmwright job`, and in the book before the next question. Between the files job_talk*.cpp.
class CallTalk {
 public:
  CallTalk(const Arguments& arguments, Environment& environment) : arguments_(arguments), environment_(environment) {}

  void run();

 private:
  struct Choice {
    std::string text;
    std::function<void()> then;
  };

  void line(const std::string& text, std::string_view indent = "");
  /// A line that was typed, or nothing where the person stops with 0, or the input ends.
  std::optional<std::string> typed(const std::string& prompt);
  /// Offers choices by digits, 0 to stop, and does what was chosen.
  void choose(const std::string& question, const std::vector<Choice>& choices);
  /// Does an action as if it was typed, then tells the call anew. What is refused is said, and asked again.
  bool act(int (*action)(const Arguments&, Environment&), std::vector<std::string> operands,
           std::vector<std::pair<std::string, std::string>> options = {});
  void again();
  void note_stage(std::string_view stage);
  /// The job that is open, or a new one.
  bool take_up();
  void ask_next();
  bool ask_phone();
  KitAnswers kit_answers() const;
  /// What the phone said already is not asked again.
  void take_from_phone(KitAnswers& answers) const;
  /// Six questions about it, each answer kept; then a generic one is built.
  void ask_appliance();
  /// All that is seen in one line: numbers with blanks between them.
  void ask_symptoms();
  void offer_number(std::size_t number, const std::string& text);
  void ask_waiting();
  void close_as_repaired();
  void search();
  void offer(JobSearch& found, const std::vector<locate::Step>& steps, const LocateReport& report);
  void add_step(JobSearch& found, const locate::Step& step, std::vector<Choice>& choices);
  void sign(const std::string& option, const std::string& word);
  void take_back();
  void take_reading(const Appliance& appliance, const locate::Step& step);
  void ask_part(const Appliance& appliance);
  void replace(const Appliance& appliance, std::size_t part);
  /// After a part went in: refitted, insulation and earth bond, the new part read, panel on, forced defrost, log.
  void prove();
  /// Where the part that was replaced was read, as long as the new one was not; else nothing.
  std::string place_of_new_part() const;
  void ask_new_part(const std::string& place);
  void ask_obstacle(const job::Obstacle& obstacle);
  void ask_forced_defrost();
  void ask_log();
  void ask_log_or_not();
  void ask_close();

  Arguments arguments_;
  Environment& environment_;
  Sentences say_{UnitPreferences{}};
  JobAtHand job_;
  std::vector<std::string> told_;  ///< remarks on readings that were printed
  std::size_t chosen_ = 0;         ///< which of the steps is offered
  bool stopped_ = false;
};

}  // namespace ohmwright::cli
