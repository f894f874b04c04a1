#include <algorithm>
#include <array>
#include <cmath>

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

}  // namespace

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
  return {judge_defrosts_come(log),    judge_interval(log),          judge_heat_comes_from_heater(log),
          judge_heater_power(log),     judge_heater_warms_coil(log), judge_defrost_end(log),
          judge_frost_load(log),       judge_air_over_coil(log),     judge_compressor_stops(log),
          judge_compressor_starts(log)};
}

const LogVerdict* find_verdict(const std::vector<LogVerdict>& verdicts, std::string_view rule) {
  const auto found =
      std::find_if(verdicts.begin(), verdicts.end(), [rule](const LogVerdict& one) { return one.rule == rule; });
  return found == verdicts.end() ? nullptr : &*found;
}

bool asks_for_a_test(const std::vector<LogVerdict>& verdicts) {
  return std::any_of(verdicts.begin(), verdicts.end(),
                     [](const LogVerdict& one) { return one.outcome == Outcome::out_of_limits; });
}

}  // namespace ohmwright::cycles
