#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/job/proof.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job/search.hpp"
#include "job/talk_intake.hpp"
#include "job/talk_reading.hpp"
#include "job/talk_screen.hpp"
#include "job/talked_job.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A whole call as questions: asks what the book does not say yet, one question after the other. The search is in
/// talk_search.cpp, the proof of a repair in talk_proof.cpp, the end of a job in talk.cpp.
class CallTalk {
 public:
  CallTalk(const Arguments& arguments, Environment& environment)
      : environment_(environment), screen_(environment), job_(arguments, environment, screen_) {}

  void run();

 private:
  using Choice = TalkScreen::Choice;
  using Taken = TalkScreen::Taken;

  void ask_next();
  void ask_waiting();
  void close_as_repaired();
  /// Asks for the first of what no word lets through; whether there is any.
  bool ask_what_bars_closing();
  /// Why closing it as repaired asks for a word.
  void tell_what_leaves_it_open();
  /// Ends the conversation once the job waits.
  void wait_for(const std::string& what);
  /// Closes it so, after a yes where it ends without a repair.
  void close_unrepaired(const std::string& how);
  /// Closes it as repaired, and asks when the customer is called back.
  void close_repaired(const TalkedJob::Options& options);
  /// Says which parts were named and left as they are, where others were replaced; whether there are any.
  bool tell_untouched_faults();
  void ask_what_was_repaired();
  /// The first of what bars energising, before anything is looked for.
  void ask_safety_first();
  void search();
  void offer(JobSearch& found, const std::vector<locate::Step>& steps, const LocateReport& report);
  void add_step(JobSearch& found, const locate::Step& step, std::vector<Choice>& choices);
  void take_reading(const Appliance& appliance, const locate::Step& step, const std::string& value = {});
  void ask_part(const Appliance& appliance);
  /// Whether a part goes in that nothing condemns, neither a reading of it nor the search.
  bool goes_in_all_the_same(const Appliance& appliance, std::size_t part);
  /// A part or joint that stays in its place, and what was done to it.
  void ask_mended(const Appliance& appliance);
  void replace(const Appliance& appliance, std::size_t part);
  std::string ask_ratings(const PlacedPart& placed);
  /// After a part went in: refitted, insulation and earth bond, the new part read, panel on, forced defrost, log.
  void prove();
  void ask_new_part(const job::ProofStep& step);
  void ask_mended_again(const job::ProofStep& step);
  Choice take_back_choice();
  /// Of a proof that failed: back to the search, with what was read since the repair.
  std::vector<Choice> ways_on_from(const job::ProofStep& step);
  Choice replace_choice();
  Choice mistyped_choice(const std::string& entry);
  /// Asks for what proves it. `more` is offered beside.
  void ask_bar(const job::ProofStep& bar, std::vector<Choice> more);
  std::vector<Choice> ways_to_prove(const job::ProofStep& bar);
  /// What read it: only a tester at 500 V proves that it is good.
  enum class InsulationMeter : std::uint8_t { tester, ordinary };
  std::vector<Choice> ways_to_read_insulation(const std::function<void(InsulationMeter)>& read);
  std::vector<Choice> ways_to_read_bond();
  void ask_insulation(const std::string& part, InsulationMeter meter);
  void ask_whose_insulation(InsulationMeter meter);
  void ask_forced_defrost();
  void ask_log();
  void ask_log_or_not();
  /// Where the new parts were read, or the old ones, of which nobody can tell whether they are good.
  std::vector<std::string> places_left_open();
  /// What made that open which heat opens: a part, or a cause outside the parts that may.
  void ask_what_overheated_it(const std::string& part);
  void ask_close();

  Environment& environment_;
  Sentences say_{UnitPreferences{}};
  TalkScreen screen_;
  TalkedJob job_;
  TalkIntake intake_{environment_, screen_, job_};
  TalkReading reading_{environment_, screen_, job_};
  std::vector<std::string> told_;  ///< remarks on readings that were printed
  bool safety_is_put_off_ = false;
  bool searches_on_ = false;  ///< after a repair that is none, until the next part goes in
};

}  // namespace ohmwright::cli
