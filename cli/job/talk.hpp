#pragma once

#include <cstddef>
#include <cstdint>
#include <functional>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/appliance/kit.hpp>
#include <ohmwright/job/proof.hpp>
#include <ohmwright/report/locate_report.hpp>
#include <ohmwright/report/sentences.hpp>

#include "environment.hpp"
#include "job/book_file.hpp"
#include "job/reading_judged.hpp"
#include "job/search.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// A whole call as questions. Asks what the book does not say yet, one question after the other; every answer is an
/// action of `ohmwright job`, and in the book before the next question. Its functions are in the files talk*.cpp.
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
  /// Words: nothing for an empty line, which goes back, and for 0, which stops.
  std::optional<std::string> typed_words(const std::string& prompt);
  /// A value: 0 is one. Nothing for an empty line, which goes back, and for "stop".
  std::optional<std::string> typed_value(const std::string& prompt);
  /// A question as the last lines before the prompt, no wider than the page.
  std::string prompt_of(const std::string& question) const;
  /// Takes what was typed instead of a digit: a reading.
  using Taken = std::function<void(const std::string& value)>;
  /// Offers choices by their numbers, 0 to stop, and does what was chosen. Where a reading is asked for, `taken` takes
  /// one that is typed instead of the digit.
  void choose(const std::string& question, const std::vector<Choice>& choices, const Taken& taken = {});
  /// Asks whether digits that may be a slip are what the meter shows.
  bool is_meant_as_a_reading(const std::string& typed);
  /// Does an action as if it was typed, then tells the call anew. What is refused is said, and asked again.
  bool act(int (*action)(const Arguments&, Environment&), std::vector<std::string> operands,
           const std::vector<std::pair<std::string, std::string>>& options = {});
  /// The arguments of the conversation with those of an action.
  Arguments with(const std::vector<std::pair<std::string, std::string>>& options) const;
  void again();
  /// Writes down; where another process wrote in the job meanwhile, says so, and what is asked next is asked anew.
  void keep(const std::vector<job::NewEntry>& entries);
  void note_stage(job::Stage stage);
  /// Which job it is, where there is more to choose than a new one: the open one, or the last that was closed.
  void choose_job(const std::optional<job::JobLine>& open, const std::optional<job::JobLine>& closed, bool& begins);
  /// The job that is open, another visit for a closed one, or a new one.
  bool take_up();
  void ask_next();
  bool ask_phone();
  KitAnswers kit_answers() const;
  /// What the phone said already is not asked again.
  void take_from_phone(KitAnswers& answers) const;
  /// Which of the shipped ones it is, a file, or none of them.
  void ask_appliance();
  /// Questions about one that has no file, each answer kept; then a generic one is built.
  void ask_kit();
  /// All that is seen in one line: numbers with blanks between them.
  void ask_symptoms();
  void offer_number(std::size_t number, const std::string& text);
  /// Whether somebody said what is seen, on a call-back since that began.
  bool was_looked_at() const;
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
  void close_repaired(const std::vector<std::pair<std::string, std::string>>& options);
  /// Says which parts were named and left as they are, where others were replaced; whether there are any.
  bool tell_untouched_faults();
  void ask_what_was_repaired();
  /// The first of what bars energising, before anything is looked for.
  void ask_safety_first();
  void search();
  void offer(JobSearch& found, const std::vector<locate::Step>& steps, const LocateReport& report);
  void add_step(JobSearch& found, const locate::Step& step, std::vector<Choice>& choices);
  void sign(const std::string& option, const std::string& word);
  void take_back();
  void take_reading(const Appliance& appliance, const locate::Step& step, const std::string& value = {});
  /// Asks what is shown at a test point, or of a part, and takes it; a `value` is typed already. What is refused is
  /// asked again.
  void read_at(const std::string& place, const std::string& value = {},
               const std::vector<std::pair<std::string, std::string>>& options = {});
  bool read_once(const std::string& place, const std::string& value,
                 const std::vector<std::pair<std::string, std::string>>& options);
  /// Asks for the temperature at the part, where its verdict hangs on it, and whether one that was said before still
  /// holds; false to go back.
  bool ask_temperature(const std::string& word);
  std::string question_of_temperature(const ZoneToMeasure& hangs_on, const Appliance& appliance,
                                      const locate::Site& site, const UnitPreferences& units) const;
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
  /// Takes the last reading at a test point back, of several the one that says that it leaks.
  void take_reading_back(const std::string& place);
  void ask_forced_defrost();
  void ask_log();
  void ask_log_or_not();
  /// Where the new parts were read, or the old ones, of which nobody can tell whether they are good.
  std::vector<std::string> places_left_open();
  /// What made that open which heat opens: a part, or a cause outside the parts that may.
  void ask_what_overheated_it(const std::string& part);
  void ask_close();

  Arguments arguments_;
  Environment& environment_;
  Sentences say_{UnitPreferences{}};
  JobAtHand job_;
  std::vector<std::string> told_;  ///< remarks on readings that were printed
  std::size_t chosen_ = 0;         ///< which of the steps is offered
  bool safety_is_put_off_ = false;
  bool searches_on_ = false;  ///< after a repair that is none, until the next part goes in
  bool stopped_ = false;
};

}  // namespace ohmwright::cli
