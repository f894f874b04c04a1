#pragma once

#include <array>
#include <optional>
#include <string_view>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::cycles {

/// A source's share of the variance of what a rule judged.
struct LogDoubt {
  std::string_view source;  ///< points at a constant: "line-voltage"
  double share = 0.0;       ///< 0…1
};

/// What one rule says of a log: ids, numbers and named arguments, no sentence.
///
/// Rules that measure give P(within limits | log) and go through `decide`; rules that only saw, or did not see, give
/// P(seen | a good appliance) and go through `decide_observed`. A rule that has nothing to go on is silent and says
/// why.
struct LogVerdict {
  std::string_view rule;  ///< "defrosts-come"; points at a constant
  std::string_view text;  ///< what it says, within its rule: "none-seen"
  Outcome outcome = Outcome::silent;
  std::vector<LogArgument> arguments = {};
  ProbabilityMeaning meaning = ProbabilityMeaning::none;
  double probability = 0.0;
  std::optional<AnyQuantity> measured = {};
  std::optional<double> measured_uncertainty = {};  ///< standard, in the SI unit of `measured`
  Limits limits = {};
  std::vector<LogDoubt> doubt = {};  ///< largest first
  /// Symptoms of component/symptom.hpp that a search for the fault may take as seen.
  std::vector<std::string_view> symptoms = {};
  /// What it leaves open has to be settled before the log says that a part needs no test; only of undecided ones.
  bool asks = false;
};

/// Every rule on the log, in the order in which they are told.
std::vector<LogVerdict> judge_log(const LogAnalysis& analysis, const LogRatings& ratings,
                                  const JudgeSettings& settings = {});

/// The verdict of that rule, or null.
const LogVerdict* find_verdict(const std::vector<LogVerdict>& verdicts, std::string_view rule);

/// Every symptom that a rule may hand over.
inline constexpr std::array log_symptoms{std::string_view("no-defrost"),
                                         std::string_view("short-defrost"),
                                         std::string_view("long-defrost"),
                                         std::string_view("no-heat"),
                                         std::string_view("little-heat"),
                                         std::string_view("no-air"),
                                         std::string_view("frost-whole-coil"),
                                         std::string_view("compressor-never-stops"),
                                         std::string_view("warm-food-after-defrost")};

/// `LogVerdict::text` of a rule that rests on a column whose unit is in doubt.
inline constexpr std::string_view unit_in_doubt_text = "unit-in-doubt";

/// Whether something has to be settled before the log says anything: a rule asks, or a column never moved.
bool leaves_a_question(const LogAnalysis& analysis, const std::vector<LogVerdict>& verdicts);

/// Whether a rule found the log out of limits.
bool asks_for_a_test(const std::vector<LogVerdict>& verdicts);

}  // namespace ohmwright::cycles
