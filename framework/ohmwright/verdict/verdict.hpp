#pragma once

#include <array>
#include <cstdint>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include <boost/container/static_vector.hpp>

#include <ohmwright/quantity/any_quantity.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright {

/// What is said of a part, or what one rule says.
enum class Outcome : std::uint8_t {
  within_limits,
  out_of_limits,
  undecided,
  silent,  ///< a rule that had nothing to go on; never the verdict on a part
};

/// "within-limits", "out-of-limits", "undecided", "silent": the words of files and JSON.
OHMWRIGHT_CORE_API std::string_view name_of(Outcome outcome);
OHMWRIGHT_CORE_API std::optional<Outcome> outcome_named(std::string_view name);

/// Limits of a measurand at the conditions of the reading; a side that does not exist is empty.
struct Limits {
  std::optional<AnyQuantity> lower;
  std::optional<AnyQuantity> upper;
};

/// What a rule's probability means.
enum class ProbabilityMeaning : std::uint8_t {
  none,                ///< the rule gives none (a comparison, a sum that closes)
  within_limits,       ///< P(part within limits | reading), JCGM 106: continuous measurands
  observed_if_within,  ///< P(this observation | a part within limits): states and over-range; at most 1 − c condemns
};

/// Index of a text in the descriptor that the finding belongs to.
using TextIndex = std::uint16_t;

/// A named value of a finding's sentence. Names and words point at constants of the plugin, which is never unloaded.
struct FindingArgument {
  std::string_view name;
  std::variant<AnyQuantity, double, std::string> value;
};

/// Arguments in place, so that a finding allocates nothing for them.
using FindingArguments = boost::container::static_vector<FindingArgument, 10>;

inline std::span<const FindingArgument> view(const FindingArguments& arguments) {
  return {arguments.data(), arguments.size()};
}

/// What one rule found: numbers and named arguments, no wording.
struct Finding {
  Finding() = default;
  /// What must be said. Room for the rest stays as it is: `Finding{}` would first write a kilobyte of noughts into it.
  Finding(std::uint16_t of_rule, Outcome found, TextIndex said) : rule(of_rule), outcome(found), text(said) {}

  std::uint16_t rule = 0;  ///< index into `Descriptor::rules`
  Outcome outcome = Outcome::silent;
  TextIndex text = 0;  ///< index into the texts of that rule
  FindingArguments arguments;
  /// An undecided that keeps the part from passing, whatever its essential rules say: a contact that came and went.
  bool holds_back = false;

  std::optional<AnyQuantity> measured;         ///< the estimate as the rule saw it
  std::optional<double> measured_uncertainty;  ///< standard, in the SI unit of `measured`
  Limits limits;
  ProbabilityMeaning meaning = ProbabilityMeaning::none;
  double probability = 0.0;

  /// The judged variable with its error terms and its limits, in whatever unit the rule judges (often a logarithm):
  /// from these come the joint probability, the budget and what would decide an undecided. Empty for states.
  std::optional<Estimate> judged;
  double judged_lower = 0.0;
  double judged_upper = 0.0;
};

/// A way to make an undecided decidable, or what to do next.
struct Advice {
  Advice() = default;
  explicit Advice(TextIndex said) : text(said) {}

  TextIndex text = 0;  ///< index into `Descriptor::advice`
  FindingArguments arguments;
  std::optional<double> probability_decided;  ///< chance that following it decides the part, where it was computed
};

/// Where the doubt of a verdict comes from: a source and its share of the variance.
struct BudgetShare {
  SourceIndex source = 0;
  double share = 0.0;  ///< 0…1
};

/// Everything the rules of a part found. Reused from call to call: `clear` keeps its memory.
class Findings {
 public:
  void clear() {
    findings_.clear();
    advice_.clear();
  }
  Finding& add(std::uint16_t rule, Outcome outcome, TextIndex text) {
    return findings_.emplace_back(rule, outcome, text);
  }
  Advice& advise(TextIndex text) { return advice_.emplace_back(text); }

  /// Whether that rule has spoken so. A rule that asks this of another one has to be judged after it.
  OHMWRIGHT_CORE_API bool has(std::uint16_t rule, Outcome outcome) const;
  /// Whether any rule has.
  OHMWRIGHT_CORE_API bool has(Outcome outcome) const;
  /// Whether that rule has said this.
  OHMWRIGHT_CORE_API bool has_text(std::uint16_t rule, TextIndex text) const;
  OHMWRIGHT_CORE_API bool advised(TextIndex text) const;

  const std::vector<Finding>& findings() const { return findings_; }
  const std::vector<Advice>& advice() const { return advice_; }
  std::vector<Finding>& findings() { return findings_; }
  std::vector<Advice>& advice() { return advice_; }

 private:
  std::vector<Finding> findings_;
  std::vector<Advice> advice_;
};

/// How a probability was drawn, where it was (`joint_probability`).
struct Drawing {
  std::uint64_t seed = 0;
  std::uint64_t trials = 0;
  double standard_error = 0.0;  ///< of the probability [dimensionless]

  friend bool operator==(const Drawing&, const Drawing&) = default;
};

/// The verdict on a part: the outcome, its probability, and all that was found.
struct Verdict {
  Outcome outcome = Outcome::undecided;
  /// Joint probability over the essential measurands with their shared errors; empty where no continuous rule spoke.
  std::optional<double> probability_within;
  std::optional<Drawing> drawing = {};  ///< of that probability; empty where it was computed in closed form
  std::vector<Finding> findings;
  std::vector<BudgetShare> budget;  ///< largest first, of the finding that decides or leaves undecided
  std::vector<Advice> advice;
};

}  // namespace ohmwright
