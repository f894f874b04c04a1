#include "part/rated_figures.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "part/trip_points.hpp"

namespace ohmwright::kind_file {

namespace {

/// Beyond this no value of a part lies, in whatever unit, and below it no product overflows [SI].
constexpr double most_of_a_formula = 1e30;

/// Law of a resistive load: what `wanted` is at that voltage, told by one other figure.
double of_load(Dimension wanted, double volt, Dimension other_is, double other) {
  double ampere = other;
  if (other_is == Dimension::power) ampere = other / volt;
  if (other_is == Dimension::resistance) ampere = volt / other;
  if (wanted == Dimension::current) return ampere;
  return wanted == Dimension::power ? volt * ampere : volt / ampere;
}

/// A side of the limits around a nominal value, or nothing where the form has none or its tolerance is not stated.
std::optional<double> side(double nominal, const Tolerance& tolerance, double sign, const RatingValues& ratings) {
  const std::optional<double> by = tolerance.figure.value(ratings);
  if (!by) return std::nullopt;
  return nominal + sign * (tolerance.is_share ? *by * nominal : *by);
}

/// A limit, or 1 where it is the formula that moves: then its value is the factor.
std::optional<double> limit_of(const Figure& figure, const RatingValues& ratings) {
  return figure.of_conditions() != nullptr ? std::optional(1.0) : figure.value(ratings);
}

std::optional<double> nominal_of(const LimitsForm& form, Dimension dimension, const RatingValues& ratings) {
  if (form.nominal.of_conditions() != nullptr) return 1.0;
  if (form.nominal.is_given()) return form.nominal.value(ratings);
  const std::optional<double> volt = form.load.voltage.value(ratings);
  const std::optional<double> other = form.load.other.value(ratings);
  if (!volt || !other) return std::nullopt;
  return of_load(dimension, *volt, form.load.other_is, *other);
}

bool know_movement(const Movement& form, const RatingValues& ratings, KnownMovement& known) {
  known.form = form.form;
  known.exponent = form.exponent;
  known.condition = form.condition();
  if (form.form == Movement::Form::none) return true;
  if (form.form == Movement::Form::formula) {
    known.formula = form.formula;
    known.ratings = ratings;
    return form.formula->is_known(ratings);
  }
  const std::optional<double> reference = form.reference.value(ratings);
  const std::optional<double> coefficient = form.coefficient.value(ratings);
  known.reference = reference.value_or(0.0);
  known.coefficient = coefficient.value_or(0.0);
  return reference && (coefficient || form.form == Movement::Form::power);
}

void know_limits(const LimitsForm& form, Dimension dimension, const RatingValues& ratings, KnownRule& rule) {
  bool all = know_movement(form.movement, ratings, rule.movement);
  if (form.has_nominal()) {
    rule.nominal = nominal_of(form, dimension, ratings);
    if (rule.nominal) {
      rule.lower = side(*rule.nominal, form.below, -1.0, ratings);
      rule.upper = side(*rule.nominal, form.above, 1.0, ratings);
    }
    for (const Tolerance* tolerance : {&form.below, &form.above})
      rule.above_all_of_it =
          rule.above_all_of_it || (tolerance->is_share && tolerance->figure.value(ratings).value_or(0.0) > 1.0);
  } else {
    rule.lower = limit_of(form.lower, ratings);
    rule.upper = limit_of(form.upper, ratings);
  }
  all = all && rule.lower.has_value() == form.has_lower() && rule.upper.has_value() == form.has_upper();
  rule.known = all;
}

std::string contradiction_in_limits(const LimitsForm& form, const KnownRule& rule) {
  if (rule.above_all_of_it) return std::string(above_all_of_it);
  if (!rule.known) return {};
  if (form.has_nominal() && !(std::isfinite(*rule.nominal) && *rule.nominal >= 0.0))
    return "its nominal value is no number; every figure of a load must be above 0";
  if (form.has_nominal() && (form.below.is_share || form.above.is_share) && !(*rule.nominal > 0.0))
    return "its nominal value has to be above 0: of nothing every share is nothing";
  for (const std::optional<double>& side : {rule.lower, rule.upper})
    if (side && !std::isfinite(*side)) return "a formula of its limits gives no number";
  if ((rule.lower && rule.nominal && *rule.lower > *rule.nominal) ||
      (rule.upper && rule.nominal && *rule.upper < *rule.nominal))
    return "a tolerance must be 0 or more";
  if (rule.lower && rule.upper && *rule.lower > *rule.upper) return "its lower limit lies above the upper one";
  if (form.movement.form == Movement::Form::power && !(rule.movement.reference > 0.0))
    return "the reference of \"proportional_to\" must be above 0";
  return {};
}

}  // namespace

bool KnownMovement::is_smooth(const ConditionValues& at) const {
  if (form != Movement::Form::formula) return true;
  return std::all_of(formula->conditions.begin(), formula->conditions.end(), [&](std::uint16_t along) {
    return std::abs(formula->at(ratings, at, along).slope) < most_of_a_formula;
  });
}

std::optional<double> KnownMovement::factor(const ConditionValues& at) const {
  constexpr double least = 0.05;  // a line that falls so far was never meant to reach there
  double by = 1.0;
  if (form == Movement::Form::formula) {
    by = formula->at(ratings, at).value;
    return by > 1.0 / most_of_a_formula && by < most_of_a_formula ? std::optional(by) : std::nullopt;
  }
  if (form == Movement::Form::linear) by = 1.0 + coefficient * (at[condition] - reference);
  if (form == Movement::Form::power) by = std::pow(at[condition] / reference, exponent);
  if (!std::isfinite(by) || by < least || by > 1.0 / least) return std::nullopt;
  return by;
}

double KnownMovement::slope(const ConditionValues& at, std::uint16_t along) const {
  if (form == Movement::Form::formula) return formula->at(ratings, at, along).slope;
  if (form == Movement::Form::none || along != condition) return 0.0;
  if (form == Movement::Form::linear) return coefficient;
  return exponent * std::pow(at[condition] / reference, exponent) / at[condition];
}

RatingValues read_rating_values(const Definition& definition, const ValueNode* ratings,
                                std::vector<Problem>& problems) {
  RatingValues values(definition.ratings.size());
  if (ratings == nullptr) return values;
  for (std::size_t i = 0; i < values.size(); ++i) {
    const RatingRow& row = definition.ratings[i];
    const ValueNode* node = ratings->find(row.id);
    if (node == nullptr) continue;
    if (const ValueNode* value = node->find("value")) node = value;
    if (node->text() == nullptr) continue;
    try {
      const StatedValue stated = parse_stated_value(*node->text(), row.dimension);
      if (stated.half_width)
        problems.push_back(
            node->problem("a rating has no ± of its own; how far good parts may be off is what the "
                          "kind says"));
      values[i] = stated.value.value_in_si();
    } catch (const InputError& error) {
      problems.push_back(node->problem(error.what()));
    }
  }
  return values;
}

KnownRule known_rule(const RuleForm& form, Dimension dimension, const RatingValues& ratings) {
  KnownRule rule;
  if (const LimitsForm* limits = form.limits()) {
    know_limits(*limits, dimension, ratings, rule);
  } else if (const InsulationForm* insulation = form.insulation()) {
    rule.lower = insulation->least.value(ratings);
    rule.known = rule.lower.has_value();
  } else {
    const ContactForm& contact = *form.contact();
    rule.lower_end = contact.lower_end.value(ratings);
    rule.upper_end = contact.upper_end.value(ratings);
    rule.rising_keeps_to = contact.hysteresis.rising_keeps_to.value(ratings);
    rule.falling_keeps_to = contact.hysteresis.falling_keeps_to.value(ratings);
    rule.known = !contact.depends() || rule.lower_end || rule.upper_end;
  }
  return rule;
}

std::string contradiction_in(const RuleForm& form, const KnownRule& rule) {
  if (const LimitsForm* limits = form.limits()) return contradiction_in_limits(*limits, rule);
  if (form.insulation() != nullptr)
    return rule.known && !(*rule.lower > 0.0) ? "the least insulation must be above 0" : std::string();
  for (const std::optional<double>& end : {rule.lower_end, rule.upper_end, rule.rising_keeps_to, rule.falling_keeps_to})
    if (end && !std::isfinite(*end)) return "a formula of its ends gives no number";
  if (!rule.lower_end || !rule.upper_end) return {};
  if (*rule.lower_end > *rule.upper_end)
    return "it would have to be closed and open at once: one end lies beyond the other";
  for (const std::optional<double>& keeps : {rule.rising_keeps_to, rule.falling_keeps_to})
    if (keeps && (*keeps < *rule.lower_end || *keeps > *rule.upper_end))
      return "what it keeps by hysteresis ends between its two ends, not beyond them";
  return {};
}

ContactEnds ends_of(const ContactForm& form, const KnownRule& rule, std::optional<std::uint16_t> came) {
  ContactEnds ends{rule.lower_end, rule.upper_end};
  if (form.hysteresis.state == not_found || !came) return ends;
  if (*came == form.hysteresis.rising && rule.rising_keeps_to && rule.lower_end) ends.lower = rule.rising_keeps_to;
  if (*came == form.hysteresis.falling && rule.falling_keeps_to && rule.upper_end) ends.upper = rule.falling_keeps_to;
  return ends;
}

std::vector<KnownRule> known_rules(const Definition& definition, const RatingValues& values, const ValueNode* ratings,
                                   std::vector<Problem>& problems) {
  std::vector<KnownRule> rules;
  for (std::size_t i = 0; i < definition.rules.size(); ++i) {
    const RuleForm& form = definition.rules[i];
    rules.push_back(known_rule(form, definition.descriptor.measurands[form.measurand].dimension, values));
    std::string why = contradiction_in(form, rules.back());
    if (why.empty()) why = contradiction_with_trip_points(definition, form, rules.back(), values);
    if (why.empty() || ratings == nullptr) continue;
    problems.push_back(ratings->problem("rule " + ohmwright::quoted(definition.descriptor.rules[i].id) + ": " + why));
  }
  return rules;
}

}  // namespace ohmwright::kind_file
