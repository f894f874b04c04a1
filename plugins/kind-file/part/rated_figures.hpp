#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

#include "model/definition.hpp"

namespace ohmwright::kind_file {

/// How the limits of one part move with a condition.
struct KnownMovement {
  Movement::Form form = Movement::Form::none;
  double coefficient = 0.0;  ///< [1/K]
  int exponent = 1;
  double reference = 0.0;  ///< [SI]

  /// By which the limits at the reference are multiplied where the condition is `at`; nothing where that is no positive
  /// number, so that nothing can be judged there.
  std::optional<double> factor(double at) const;
  /// Its derivative by the condition there.
  double slope(double at) const;
};

/// A rule with the figures of one part [SI].
struct KnownRule {
  bool known = false;  ///< all figures that its form gives are stated; of a contact: one end or more
  std::optional<double> lower;
  std::optional<double> upper;
  std::optional<double> nominal;
  KnownMovement movement;
  std::optional<double> lower_end;
  std::optional<double> upper_end;
};

/// What ratings that are valid against the kind's schema state; null gives nothing at all. What cannot be read is added
/// to `problems` at its place.
RatingValues read_rating_values(const Definition& definition, const ValueNode* ratings, std::vector<Problem>& problems);

/// The rule with these ratings; `dimension` is that of its measurand.
KnownRule known_rule(const RuleForm& form, Dimension dimension, const RatingValues& ratings);
/// Why figures do not fit each other, or nothing: a lower limit above the upper one, a tolerance below zero.
std::string contradiction_in(const RuleForm& form, const KnownRule& rule);

/// All rules with these ratings; contradictions are added to `problems` at the ratings' own place.
std::vector<KnownRule> known_rules(const Definition& definition, const RatingValues& values, const ValueNode* ratings,
                                   std::vector<Problem>& problems);

}  // namespace ohmwright::kind_file
