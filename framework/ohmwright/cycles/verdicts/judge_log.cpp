#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::cycles {

namespace {

/// The constant that names a source: verdicts point at constants.
std::string_view name_of_source(std::string_view id) {
  constexpr std::array names{"meter-gain",   "line-voltage", "standing-load", "scatter-of-defrosts",
                             "row-interval", "coil-logger",  "cabinet-logger"};
  const auto found = std::find(names.begin(), names.end(), id);
  return found == names.end() ? std::string_view("other") : std::string_view(*found);
}

/// A rule, and what of a log it rests on.
struct LogRule {
  LogVerdict (*judge)(const JudgedLog&);
  bool rests_on_load = false;
  bool rests_on_coil = false;
  bool rests_on_cabinet = false;
};

constexpr std::array log_rules{
    LogRule{judge_runs_and_cools, true, true, false},    LogRule{judge_heat_stops, true, true, false},
    LogRule{judge_coil_heat, false, true, false},        LogRule{judge_defrosts_come, true, true, false},
    LogRule{judge_interval, true, true, false},          LogRule{judge_heat_comes_from_heater, true, true, false},
    LogRule{judge_heater_power, true, false, false},     LogRule{judge_heater_warms_coil, true, true, false},
    LogRule{judge_defrost_end, true, true, false},       LogRule{judge_frost_load, true, true, false},
    LogRule{judge_air_over_coil, false, true, true},     LogRule{judge_lasting_change, true, true, true},
    LogRule{judge_compressor_stops, true, false, false}, LogRule{judge_compressor_starts, true, false, false}};

/// What rests on a column whose unit is in doubt is not judged: not for, and not against.
void withhold_doubted(const LogAnalysis& analysis, const LogRule& rule, LogVerdict& verdict) {
  const auto in_doubt = [&](LogQuantity quantity) { return analysis.unit_in_doubt[index_of(quantity)]; };
  const bool load = in_doubt(LogQuantity::power) || in_doubt(LogQuantity::current);
  const bool is_doubted = (rule.rests_on_load && load) ||
                          (rule.rests_on_coil && in_doubt(LogQuantity::coil_temperature)) ||
                          (rule.rests_on_cabinet && in_doubt(LogQuantity::cabinet_temperature));
  if (!is_doubted || verdict.outcome == Outcome::silent) return;
  verdict = question(verdict.rule, unit_in_doubt_text);
}

}  // namespace

LogVerdict question(std::string_view rule, std::string_view text, std::vector<LogArgument> arguments) {
  LogVerdict verdict{rule, text, Outcome::undecided, std::move(arguments)};
  verdict.asks = true;
  return verdict;
}

void judge_quantity(const JudgedLog& log, const JudgedQuantity& quantity, LogVerdict& verdict) {
  const Conformance conformance = conformance_of(quantity.estimate, quantity.sources, quantity.lower, quantity.upper);
  verdict.outcome = decide(conformance, log.confidence);
  verdict.meaning = ProbabilityMeaning::within_limits;
  verdict.probability = conformance.within;
  verdict.measured = AnyQuantity(quantity.dimension, quantity.estimate.value());
  verdict.measured_uncertainty = quantity.estimate.standard_uncertainty();
  for (const BudgetShare& share : budget_of(quantity.estimate))
    if (share.share > 0.0) verdict.doubt.push_back({name_of_source(quantity.sources[share.source].id), share.share});
  if (std::isfinite(quantity.lower)) verdict.limits.lower = AnyQuantity(quantity.dimension, quantity.lower);
  if (std::isfinite(quantity.upper)) verdict.limits.upper = AnyQuantity(quantity.dimension, quantity.upper);
}

std::vector<LogVerdict> judge_log(const LogAnalysis& analysis, const LogRatings& ratings,
                                  const JudgeSettings& settings) {
  const JudgedLog log{analysis, ratings, settings.confidence};
  std::vector<LogVerdict> verdicts;
  for (const LogRule& rule : log_rules) {
    verdicts.push_back(rule.judge(log));
    withhold_doubted(analysis, rule, verdicts.back());
  }
  return verdicts;
}

const LogVerdict* find_verdict(const std::vector<LogVerdict>& verdicts, std::string_view rule) {
  const auto found =
      std::find_if(verdicts.begin(), verdicts.end(), [rule](const LogVerdict& one) { return one.rule == rule; });
  return found == verdicts.end() ? nullptr : &*found;
}

bool leaves_a_question(const LogAnalysis& analysis, const std::vector<LogVerdict>& verdicts) {
  const bool is_asked = std::any_of(verdicts.begin(), verdicts.end(), [](const LogVerdict& one) { return one.asks; });
  const bool is_to_be_settled =
      std::any_of(analysis.findings.begin(), analysis.findings.end(), [](const LogFinding& one) { return one.asks; });
  return is_asked || is_to_be_settled || analysis.time_in_doubt ||
         find_finding(analysis.findings, "column-never-moved") != nullptr;
}

bool asks_for_a_test(const std::vector<LogVerdict>& verdicts) {
  return std::any_of(verdicts.begin(), verdicts.end(),
                     [](const LogVerdict& one) { return one.outcome == Outcome::out_of_limits; });
}

}  // namespace ohmwright::cycles
