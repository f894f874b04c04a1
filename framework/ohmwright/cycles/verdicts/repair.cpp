#include <algorithm>
#include <cstddef>
#include <optional>
#include <utility>
#include <vector>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/verdicts/counted_interval.hpp>
#include <ohmwright/cycles/verdicts/defrost_wait.hpp>
#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/cycles/verdicts/repair.hpp>

namespace ohmwright::cycles {

namespace {

/// One defrost can come right by chance; the second shows that it was started again, too.
constexpr std::uint64_t enough_defrosts = 2;

RepairStand stand_of(const LogVerdict& before, const LogVerdict& after) {
  const bool was_out = before.outcome == Outcome::out_of_limits;
  if (after.outcome == Outcome::out_of_limits) return was_out ? RepairStand::still_there : RepairStand::appeared;
  if (!was_out) return RepairStand::fine;
  return after.outcome == Outcome::within_limits ? RepairStand::gone : RepairStand::unproved;
}

std::uint64_t whole_defrosts(const LogAnalysis& log) {
  return static_cast<std::uint64_t>(
      std::count_if(log.defrosts.begin(), log.defrosts.end(), [](const Defrost& one) { return !one.is_cut; }));
}

/// Median load of the heatings that a log shows whole; 0 where it shows none.
double seen_heater_load(const LogAnalysis& log) {
  std::vector<double> loads;
  for (const Defrost& one : log.defrosts)
    if (one.heater_is_seen && !one.is_cut && !one.draws_like_compressor) loads.push_back(one.heater_load);
  return median_of(std::move(loads));
}

/// A log without any heating cannot say whether the heater draws like the compressor; the other log of the repair shows
/// what it draws.
void rate_heater_by(const LogAnalysis& log, const LogAnalysis& other, LogRatings& ratings) {
  const double load = seen_heater_load(other);
  if (load <= 0.0 || ratings.heater_watt || log.load_is_current != other.load_is_current) return;
  constexpr double volt = 1.0;  // of watts as they were seen, whatever the line was
  ratings.heater_watt = RatedBand{load, load / widest_power_by_line, widest_power_by_line * load};
  ratings.heater_volt = volt;
  ratings.line_volt = volt;
  ratings.line_half_width_volt = 0.0;
}

/// The longest interval that a log shows whole, by the compressor's running where that is known of all [s]; none of
/// fewer than two.
std::optional<BothCounts> longest_interval(const LogAnalysis& log) {
  constexpr std::size_t fewest = 2;
  BothCounts longest;
  longest.running_second = 0.0;
  std::size_t count = 0;
  for (const Defrost& one : log.defrosts) {
    if (!one.interval_second || one.gap_in_interval_second > 0.0) continue;
    ++count;
    longest.clock_second = std::max(longest.clock_second, *one.interval_second);
    if (!one.interval_running_second)
      longest.running_second.reset();
    else if (longest.running_second)
      longest.running_second = std::max(*longest.running_second, *one.interval_running_second);
  }
  return count < fewest ? std::nullopt : std::optional<BothCounts>(longest);
}

/// Whether a wait without defrosts is a slow control's, the other log of the repair shows: it waited for less there.
void rate_interval_by(const LogAnalysis& other, LogRatings& ratings) {
  constexpr double clearly_longer = 2.0;
  const std::optional<BothCounts> longest = longest_interval(other);
  if (!longest || ratings.interval_most_second) return;
  ratings.interval_counts_running = longest->running_second.has_value();
  ratings.interval_most_second = clearly_longer * longest->running_second.value_or(longest->clock_second);
}

/// Judges again with what the other log of the repair shows whether its defrosts come, where the log alone leaves it
/// open.
void judge_with_other(const LogAnalysis& log, const LogAnalysis& other, LogRatings ratings,
                      const JudgeSettings& settings, std::vector<LogVerdict>& verdicts) {
  rate_heater_by(log, other, ratings);
  for (LogVerdict& verdict : verdicts)
    if (log.defrost_count == 0 && verdict.rule == "defrosts-come" &&
        verdict.text == text_of(WhyUnseen::load_hides_heater))
      verdict = judge_defrosts_come({log, ratings, settings.confidence});
  rate_interval_by(other, ratings);
  for (LogVerdict& verdict : verdicts)
    if (verdict.rule == "defrosts-come" && verdict.text == "slow-or-none")
      if (LogVerdict again = judge_defrosts_come({log, ratings, settings.confidence});
          again.outcome == Outcome::out_of_limits)
        verdict = std::move(again);
}

std::vector<LogVerdict> verdicts_after(const RepairComparison& comparison) {
  std::vector<LogVerdict> verdicts;
  for (const RuleChange& one : comparison.rules) verdicts.push_back(one.after);
  return verdicts;
}

/// Rules that the log after has to pass, whatever was wrong before: that it runs, that defrosts come to its end, and,
/// where the coil was logged, that they end as they should.
bool must_pass(const RuleChange& change, const LogAnalysis& after) {
  if (change.rule == "defrosts-come") return true;
  if (change.rule == "runs-and-cools") return change.after.outcome != Outcome::silent;
  return change.rule == "defrost-end" && after.has_coil;
}

/// The heater draws more or less than the line explains: another appliance, another heater, or a part of one. P is as
/// V², and a line of 90 % at one log and 110 % at the other makes a factor of 1.49 (EN 50160: ± 10 %).
bool heater_differs(const RepairComparison& comparison) {
  const auto power = std::find_if(comparison.figures.begin(), comparison.figures.end(),
                                  [](const FigureChange& one) { return one.id == "heater_power"; });
  if (power == comparison.figures.end() || !power->before || !power->after) return false;
  // Where the heater was the fault, and what it should draw is known, its rule tells.
  for (const RuleChange& one : comparison.rules)
    if (one.rule == "heater-power" && one.stand == RepairStand::gone) return false;
  const double ratio = power->after->mean / power->before->mean;
  return ratio > widest_power_by_line || ratio < 1.0 / widest_power_by_line;
}

/// What a repair of a defrost system has to show: defrosts that end as they should, twice.
bool shows_the_defrosts(const RepairComparison& comparison, const LogAnalysis& after) {
  if (whole_defrosts(after) < enough_defrosts || leaves_a_question(after, verdicts_after(comparison))) return false;
  return std::all_of(comparison.rules.begin(), comparison.rules.end(), [&](const RuleChange& one) {
    return !must_pass(one, after) || one.after.outcome == Outcome::within_limits;
  });
}

bool any_unit_in_doubt(const LogAnalysis& analysis) {
  return std::any_of(analysis.unit_in_doubt.begin(), analysis.unit_in_doubt.end(), [](bool one) { return one; });
}

/// Whether a unit, the time or a column of the log has to be settled first.
bool is_in_doubt(const LogAnalysis& analysis) {
  return any_unit_in_doubt(analysis) || analysis.time_in_doubt ||
         find_finding(analysis.findings, "column-may-be-coil") != nullptr;
}

Outcome outcome_of(const RepairComparison& comparison, const LogAnalysis& before, const LogAnalysis& after) {
  const auto any = [&](RepairStand stand) {
    return std::any_of(comparison.rules.begin(), comparison.rules.end(),
                       [stand](const RuleChange& one) { return one.stand == stand; });
  };
  if (any(RepairStand::still_there) || any(RepairStand::appeared)) return Outcome::out_of_limits;
  if (!comparison.fault_before || is_in_doubt(before) || any(RepairStand::unproved) ||
      !shows_the_defrosts(comparison, after) || heater_differs(comparison))
    return Outcome::undecided;
  return Outcome::within_limits;
}

void say_unproved(const LogAnalysis& before, const LogAnalysis& after, RepairComparison& comparison) {
  const auto add = [&](LogFinding finding) { comparison.unproved.push_back(std::move(finding)); };
  if (before.has_load && !after.has_load) add({"load-no-longer-logged"});
  if (before.has_coil && !after.has_coil) add({"coil-no-longer-logged"});
  if (before.has_cabinet && !after.has_cabinet) add({"cabinet-no-longer-logged"});
  for (const RuleChange& one : comparison.rules)
    if (one.stand == RepairStand::unproved || (must_pass(one, after) && one.after.outcome != Outcome::within_limits &&
                                               one.after.outcome != Outcome::out_of_limits))
      add({"rule-cannot-tell", {{"rule", std::string(one.rule)}}});
  for (const RuleChange& one : comparison.rules)
    if (one.rule == "heater-power" && one.after.outcome == Outcome::silent && after.has_load)
      add({"heater-power-not-judged"});
  if (heater_differs(comparison)) add({"heater-power-differs"});
  if (const LogFinding* alike = find_finding(after.findings, "heat-draws-like-compressor"))
    add({"heat-draws-like-compressor-after", {{"count", alike->number("count").value_or(0.0)}}});
  if (after.standstill) add({"stood-after", {{"second", after.standstill->second()}}});
  if (any_unit_in_doubt(after)) add({"unit-in-doubt-after"});
  if (any_unit_in_doubt(before)) add({"unit-in-doubt-before"});
  if (before.time_in_doubt || after.time_in_doubt) add({"time-in-doubt"});
  for (const LogAnalysis* one : {&before, &after})
    if (find_finding(one->findings, "column-may-be-coil") != nullptr &&
        find_finding(comparison.unproved, "column-may-be-coil") == nullptr)
      add({"column-may-be-coil"});
  if (find_finding(after.findings, "column-never-moved") != nullptr) add({"column-never-moved-after"});
  for (const LogQuantity quantity : log_quantities) {
    const double logged = after.coverage.logged_second[index_of(quantity)];
    const double missing = after.coverage.observed_second - logged;
    if (logged > 0.0 && missing > 0.05 * after.coverage.observed_second)
      add({"column-has-holes-after",
           {{"quantity", std::string(name_of(quantity))}, {"share", missing / after.coverage.observed_second}}});
  }
  const std::uint64_t whole = whole_defrosts(after);
  if (whole < enough_defrosts)
    add({"few-defrosts-after", {{"count", static_cast<double>(whole)}, {"span_second", after.coverage.span_second}}});
  if (after.coverage.hidden_share > 0.0) add({"gaps-after", {{"share", after.coverage.hidden_share}}});
  if (!after.has_coil && !before.has_coil) add({"coil-not-logged"});
  // What takes days to come back: frost that grows behind a door that gapes, a fault that comes and goes.
  const LogVerdict* frost = nullptr;
  for (const RuleChange& one : comparison.rules)
    if (one.rule == "frost-load") frost = &one.after;
  if (frost != nullptr && frost->outcome != Outcome::within_limits && frost->outcome != Outcome::out_of_limits)
    add({"frost-load-not-settled"});
}

}  // namespace

std::string_view name_of(RepairStand stand) {
  switch (stand) {
    case RepairStand::gone:
      return "gone";
    case RepairStand::still_there:
      return "still-there";
    case RepairStand::appeared:
      return "appeared";
    case RepairStand::unproved:
      return "unproved";
    case RepairStand::fine:
      return "fine";
  }
  return "";
}

RepairComparison compare_repair(const LogAnalysis& before, const LogAnalysis& after, const LogRatings& ratings,
                                const JudgeSettings& settings) {
  RepairComparison comparison;
  std::vector<LogVerdict> was = judge_log(before, ratings, settings);
  std::vector<LogVerdict> is = judge_log(after, ratings, settings);
  judge_with_other(before, after, ratings, settings, was);
  judge_with_other(after, before, ratings, settings, is);
  comparison.fault_before = asks_for_a_test(was);
  for (std::size_t i = 0; i < was.size(); ++i)
    comparison.rules.push_back({was[i].rule, was[i], is[i], stand_of(was[i], is[i])});
  comparison.figures = compare_figures(before, after);
  comparison.outcome = outcome_of(comparison, before, after);
  say_unproved(before, after, comparison);
  return comparison;
}

}  // namespace ohmwright::cycles
