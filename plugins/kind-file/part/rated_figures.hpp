#pragma once

#include <array>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

#include "model/definition.hpp"

namespace ohmwright::kind_file {

/// Values of a kind's conditions in one place [SI]; those that a rule does not need may be missing, and are 0.
using ConditionValues = std::array<double, most_conditions>;

/// How the limits of one part move with a condition.
struct KnownMovement {
  Movement::Form form = Movement::Form::none;
  std::uint16_t condition = not_found;
  double coefficient = 0.0;  ///< [1/K]
  int exponent = 1;
  double reference = 0.0;  ///< [SI]
  std::shared_ptr<const Formula> formula;
  RatingValues ratings;  ///< of a formula

  /// By which the limits at the reference are multiplied where the conditions are `at`; nothing where that is no
  /// positive number, so that nothing can be judged there. Of a formula the value itself [SI].
  std::optional<double> factor(const ConditionValues& at) const;
  /// Whether it has a slope there; at the end of a root it has none.
  bool is_smooth(const ConditionValues& at) const;
  /// Its derivative by a condition there.
  double slope(const ConditionValues& at, std::uint16_t along) const;
};

/// A rule with the figures of one part [SI]; of insulation `lower` is the least.
struct KnownRule {
  bool known = false;  ///< all figures that its form gives are stated; of a contact: one end or more
  std::optional<double> lower;
  std::optional<double> upper;
  std::optional<double> nominal;
  bool above_all_of_it = false;  ///< a tolerance of more than 100 % was stated
  KnownMovement movement;
  std::optional<double> lower_end;
  std::optional<double> upper_end;
  std::optional<double> rising_keeps_to;   ///< of hysteresis: an end of its own for who came from below …
  std::optional<double> falling_keeps_to;  ///< … and for who came from above
};

/// The two ends of a contact for one reading or situation [SI].
struct ContactEnds {
  std::optional<double> lower;
  std::optional<double> upper;
};

/// The ends by where it came from: where a state of hysteresis is said, the narrower ones. `came` is its value.
ContactEnds ends_of(const ContactForm& form, const KnownRule& rule, std::optional<std::uint16_t> came);

/// What ratings that are valid against the kind's schema state; null gives nothing at all. What cannot be read is added
/// to `problems` at its place.
RatingValues read_rating_values(const Definition& definition, const ValueNode* ratings, std::vector<Problem>& problems);

/// The rule with these ratings; `dimension` is that of its measurand.
KnownRule known_rule(const RuleForm& form, Dimension dimension, const RatingValues& ratings);
/// Why figures do not fit each other, or nothing: a lower limit above the upper one, a tolerance below zero.
std::string contradiction_in(const RuleForm& form, const KnownRule& rule);

/// What is said of a tolerance of more than 100 %.
inline constexpr std::string_view above_all_of_it =
    "a tolerance is 100 % of the nominal value at most, such as \"10 %\"; where a good part may read several times as "
    "much, write \"lower\" and \"upper\"";

/// All rules with these ratings; contradictions are added to `problems` at the ratings' own place.
std::vector<KnownRule> known_rules(const Definition& definition, const RatingValues& values, const ValueNode* ratings,
                                   std::vector<Problem>& problems);

}  // namespace ohmwright::kind_file
