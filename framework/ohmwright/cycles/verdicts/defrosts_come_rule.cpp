#include <algorithm>
#include <cstdint>
#include <optional>
#include <string_view>
#include <utility>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/verdicts/lasting_changes.hpp>
#include <ohmwright/cycles/verdicts/missed_rises.hpp>
#include <ohmwright/cycles/weakest_heater.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cycles {

namespace {

/// Past so many of its longest intervals a log that had defrosts leaves it open whether they still come.
constexpr double overdue_intervals = 2.5;

double longest_seen_interval(const LogAnalysis& analysis) {
  double longest = 0.0;
  for (const Defrost& defrost : analysis.defrosts)
    if (defrost.gap_in_interval_second <= 0.0) longest = std::max(longest, defrost.interval_second.value_or(0.0));
  return longest;
}

/// Another rule asks about heat that goes on, and a coil that thaws in pauses needs no defrosts.
bool is_to_be_asked_about(WhyUnseen why) { return why != WhyUnseen::heats_on && why != WhyUnseen::thaws_in_pauses; }

/// What is left open of a wait that is too long for good controls.
LogVerdict left_open(const JudgedLog& log, const OpenInterval& open, const DefrostWait& wait, WhyUnseen why) {
  // Rows that step over rises show the one or other in part: there it seems to defrost.
  const bool seems_to_come = why == WhyUnseen::rows_too_far && shows_warm_rows(log, open, wait);
  if (!is_to_be_asked_about(why) || seems_to_come) return LogVerdict{"defrosts-come", text_of(why), Outcome::undecided};
  if (why != WhyUnseen::rows_too_far) return question("defrosts-come", text_of(why));
  return question("defrosts-come", "rows-hide-them",
                  {{"waited_second", wait.waited_second}, {"longest_interval_second", wait.longest_second}});
}

/// Whether the coil got as warm as in a defrost and stayed so to the log's end: no rise stands out of that, and what
/// warms it is another rule's question.
bool coil_stays_warm(const LogAnalysis& analysis) {
  constexpr double hardly_frozen_kelvin = 268.15;  // -5 degC
  const std::optional<OtherTemperature> other = other_coil(analysis);
  return other && other->is_warmer() && other->kelvin_after > hardly_frozen_kelvin;
}

/// A wait that is too long for good controls: out of limits, or left open where one may have come unseen. False where
/// the wait is not too long.
bool settles_wait(const JudgedLog& log, const OpenInterval& open, std::string_view text, LogVerdict& verdict) {
  const DefrostWait wait = wait_of(log, open);
  double probability = probability_of_wait(wait);
  if (probability > 1.0 - log.confidence) return false;
  if (const WhyUnseen why = why_unseen(log); why != WhyUnseen::nothing) {
    // Whatever the load hides: a coil that stayed cold was not defrosted, as far as its rows show that.
    const bool coil_may_tell = is_to_be_asked_about(why);
    probability = std::max(probability, coil_may_tell ? probability_of_missed_rises(log, open, wait) : 1.0);
    if (probability > 1.0 - log.confidence) {
      verdict = left_open(log, open, wait, why);
      return true;
    }
  }
  if (!log.analysis.has_load && coil_stays_warm(log.analysis)) {
    verdict = LogVerdict{"defrosts-come", "coil-stays-warm", Outcome::undecided};
    return true;
  }
  // Where nothing freezes no defrost need come, and its parts are not to blame.
  if (const auto warm = no_cold(log.analysis); warm && warm->coil_is_warm) {
    verdict = LogVerdict{"defrosts-come", "needs-none", Outcome::undecided};
    return true;
  }
  if (const auto longest_running = longest_running_of_slow_control(log, open)) {
    verdict = question("defrosts-come", "slow-or-none",
                       {{"waited_second", wait.waited_second},
                        {"longest_interval_second", wait.longest_second},
                        {"longest_running_second", *longest_running}});
    return true;
  }
  verdict.outcome = Outcome::out_of_limits;
  verdict.text = text;
  verdict.meaning = ProbabilityMeaning::observed_if_within;
  verdict.probability = probability;
  verdict.arguments = {{"count", static_cast<double>(log.analysis.defrost_count)},
                       {"waited_second", wait.waited_second},
                       {"longest_interval_second", wait.longest_second}};
  verdict.symptoms = {"no-defrost"};
  return true;
}

/// What comes oftener than any control starts it, however it was counted, is asked about; not beside heat that goes on.
std::optional<LogVerdict> asked_often(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  if (analysis.lasting_heat && analysis.lasting_heat->takes_over()) return std::nullopt;
  const double span = analysis.coverage.span_second;
  const auto asked = [span](std::string_view text, std::uint64_t count) {
    return question("defrosts-come", text, {{"count", static_cast<double>(count)}, {"waited_second", span}});
  };
  if (thaws_in_a_freezer(analysis))
    return asked(analysis.has_cabinet ? "thaws-in-freezer" : "thaws-as-no-freezer", analysis.coil_thaws);
  if (analysis.defrost_count == 0 && analysis.frequent_heatings > 0)
    return asked("heats-too-often", analysis.frequent_heatings);
  if (const auto usual = too_short_usual_interval(log)) {
    LogVerdict verdict = asked("too-often", analysis.defrost_count);
    verdict.arguments.push_back({"usual_interval_second", *usual});
    return verdict;
  }
  return std::nullopt;
}

/// Whether so many in the log are more than any control starts (common practice, no source).
bool come_oftener_than_controls(const LogAnalysis& analysis, double count) {
  return count * shortest_of_controls_second > analysis.coverage.span_second;
}

/// The highest that a column of the picture is in the mean of its least and its greatest: no start of some seconds.
double highest_running_load(const LogAnalysis& analysis) {
  double most = 0.0;
  const std::size_t load = index_of(analysis.load_is_current ? LogQuantity::current : LogQuantity::power);
  for (const auto& column : analysis.outline.columns())
    if (!column[load].is_empty())
      most = std::max(most, 0.5 * static_cast<double>(column[load].least + column[load].most));
  return most;
}

/// Whether an inverter's load is all that was seen, and less than any heater's: it hides none, and its fast runs behind
/// pauses look like one.
bool is_weak_inverter(const LogAnalysis& analysis) {
  const double weakest = analysis.load_is_current ? weakest_heater_ampere : weakest_heater_watt;
  return analysis.has_load && analysis.speed_varies && highest_running_load(analysis) < weakest;
}

/// With no defrost the whole log is an interval of which neither end is seen.
void judge_none_seen(const JudgedLog& log, LogVerdict& verdict) {
  const LogAnalysis& analysis = log.analysis;
  if (!analysis.has_load && !analysis.has_coil) {
    verdict.outcome = Outcome::undecided;  // the air of a cabinet may hardly show a defrost
    verdict.text = "cabinet-only";
    return;
  }
  if (const auto often = asked_often(log)) {
    verdict = *often;
    return;
  }
  // A load that behaves so, and that no heater draws, may be hot gas: the log does not tell it from a compressor that
  // catches up behind a pause.
  if (!analysis.has_coil && (analysis.weak_heatings > 0 || is_weak_inverter(analysis))) {
    verdict = question("defrosts-come", analysis.load_is_current ? "no-heater-seen-load" : "no-heater-seen",
                       {{"times", static_cast<double>(analysis.weak_heatings)},
                        {"watt", std::max(analysis.weak_heating_load, highest_running_load(analysis))},
                        {"least_watt", weakest_heater_watt}});
    return;
  }
  const DefrostWait wait = wait_of(log, analysis.before_first);
  if (settles_wait(log, analysis.before_first, "none-seen", verdict)) return;
  verdict.outcome = Outcome::undecided;
  if (analysis.lasting_heat && analysis.lasting_heat->takes_over() && wait.unseen_share > 0.0) {
    verdict.text = text_of(WhyUnseen::heats_on);  // no gap hides them
    return;
  }
  if (!analysis.has_load && coil_stays_warm(analysis)) {
    verdict.text = "coil-stays-warm";
    return;
  }
  verdict.text = wait.waited_second - wait.doubt_second <= wait.longest_second ? "log-too-short" : "gaps-hide";
  verdict.arguments = {{"waited_second", wait.waited_second},
                       {"longest_interval_second", wait.longest_second},
                       {"hidden_share", wait.unseen_share}};
}

/// Where defrosts were seen: whether they came from the beginning on and to the end.
void judge_open_ends(const JudgedLog& log, LogVerdict& verdict) {
  const LogAnalysis& analysis = log.analysis;
  const double seen_longest = longest_seen_interval(analysis);
  for (const auto& [open, text] : {std::pair{&analysis.after_last, std::string_view("none-since")},
                                   std::pair{&analysis.before_first, std::string_view("none-before")}}) {
    if (settles_wait(log, *open, text, verdict)) return;
    const double clock_waited = open->second - open->unseen_second;
    if (open == &analysis.after_last && seen_longest > 0.0 && clock_waited > overdue_intervals * seen_longest) {
      if (const auto warm = no_cold(analysis); warm && warm->coil_is_warm) {
        verdict = LogVerdict{"defrosts-come", "needs-none", Outcome::undecided};
        return;
      }
      verdict = question("defrosts-come", "overdue",
                         {{"count", static_cast<double>(analysis.defrost_count)},
                          {"waited_second", clock_waited},
                          {"longest_interval_second", seen_longest}});
      return;
    }
  }
}

/// Whether the load tells alone and most of what it shows draws as the compressor does: what is like a run hides among
/// runs.
bool others_may_hide(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  if (!analysis.has_load || analysis.has_coil || log.ratings.heater_watt) return false;
  const auto alike = std::count_if(analysis.defrosts.begin(), analysis.defrosts.end(),
                                   [](const Defrost& one) { return one.draws_like_compressor; });
  return 2 * static_cast<std::size_t>(alike) > analysis.defrosts.size();
}

}  // namespace

LogVerdict judge_defrosts_come(const JudgedLog& log) {
  const LogAnalysis& analysis = log.analysis;
  LogVerdict verdict{"defrosts-come", "no-rows"};
  if (analysis.coverage.span_second <= 0.0) return verdict;
  if (!analysis.has_load && !analysis.has_coil && !analysis.has_cabinet) {
    verdict.text = "nothing-moves";
    return verdict;
  }
  if (analysis.defrost_count == 0) {
    judge_none_seen(log, verdict);
    return verdict;
  }
  verdict.arguments = {{"count", static_cast<double>(analysis.defrost_count)}};
  verdict.outcome = Outcome::undecided;
  if (!analysis.has_load && !analysis.has_coil) {
    verdict.text = "by-air-alone";  // what warms the air may be something else
    return verdict;
  }
  if (may_be_cooling_alone(analysis)) {
    verdict.text = "cools-or-heats";
    return verdict;
  }
  // Of the load such rows show no defrost for sure; a rise of the coil is one, whatever others went by.
  if (!analysis.has_coil && rows_step_over_heating(analysis))
    return LogVerdict{"defrosts-come", "rows-too-far", Outcome::undecided};
  if (const auto often = asked_often(log)) return *often;
  verdict.outcome = heatings_fill_few_rows(analysis) ? Outcome::undecided : Outcome::within_limits;
  verdict.text = heatings_fill_few_rows(analysis) ? "seen-in-few-rows" : "seen";
  // A start of the compressor stands out so now and then, too.
  constexpr std::uint64_t fewest_others = 3;
  const bool are_many =
      analysis.short_stand_outs >= fewest_others && 2 * analysis.short_stand_outs >= analysis.defrost_count;
  if (heatings_fill_few_rows(analysis) && are_many) {
    const double others = static_cast<double>(analysis.short_stand_outs);
    if (come_oftener_than_controls(analysis, others + static_cast<double>(analysis.defrost_count)))
      return question("defrosts-come", "heats-too-often",
                      {{"count", others + static_cast<double>(analysis.defrost_count)},
                       {"waited_second", analysis.coverage.span_second}});
    verdict.text = "seen-in-part";
    verdict.arguments.push_back({"others", others});
  }
  judge_open_ends(log, verdict);
  if (verdict.text == "seen" && others_may_hide(log))
    return question("defrosts-come", "others-may-hide", {{"count", static_cast<double>(analysis.defrost_count)}});
  return verdict;
}

}  // namespace ohmwright::cycles
