#pragma once

#include <array>
#include <cstddef>
#include <cstdint>

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// What the rules of a part have said, gathered in one pass: for advice, which asks for it a dozen times, where
/// `Findings::has` looks through all findings each time. What a rule adds or changes later is not in it. The findings
/// must outlive it.
class RuleOutcomes {
 public:
  explicit RuleOutcomes(const Findings& findings) : findings_(findings) {
    for (const Finding& finding : findings.findings()) {
      const std::uint8_t bit = bit_of(finding.outcome);
      if (finding.rule < gathered_rules) of_rule_[finding.rule] |= bit;
      of_any_ |= bit;
      holds_back_ = holds_back_ || finding.holds_back;
    }
  }

  /// Whether that rule has spoken so.
  bool has(std::uint16_t rule, Outcome outcome) const {
    return rule < gathered_rules ? (of_rule_[rule] & bit_of(outcome)) != 0 : findings_.has(rule, outcome);
  }
  /// Whether any rule has.
  bool has(Outcome outcome) const { return (of_any_ & bit_of(outcome)) != 0; }
  /// Whether a finding keeps the part from passing, whatever its essential rules say.
  bool holds_back() const { return holds_back_; }

 private:
  static std::uint8_t bit_of(Outcome outcome) {
    return static_cast<std::uint8_t>(1U << static_cast<unsigned>(outcome));
  }

  /// More than any kind has; a rule past them is looked for.
  static constexpr std::size_t gathered_rules = 32;

  const Findings& findings_;
  std::array<std::uint8_t, gathered_rules> of_rule_{};
  std::uint8_t of_any_ = 0;
  bool holds_back_ = false;
};

}  // namespace ohmwright
