#include "part/rated_figures.hpp"

#include <cmath>

#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright::kind_file {

namespace {

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

std::optional<double> nominal_of(const LimitsForm& form, Dimension dimension, const RatingValues& ratings) {
  if (form.nominal.is_given()) return form.nominal.value(ratings);
  const std::optional<double> volt = form.load.voltage.value(ratings);
  const std::optional<double> other = form.load.other.value(ratings);
  if (!volt || !other) return std::nullopt;
  return of_load(dimension, *volt, form.load.other_is, *other);
}

bool know_movement(const Movement& form, const RatingValues& ratings, KnownMovement& known) {
  known.form = form.form;
  known.exponent = form.exponent;
  if (form.form == Movement::Form::none) return true;
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
  } else {
    rule.lower = form.lower.value(ratings);
    rule.upper = form.upper.value(ratings);
  }
  all = all && rule.lower.has_value() == form.has_lower() && rule.upper.has_value() == form.has_upper();
  rule.known = all;
}

std::string contradiction_in_limits(const LimitsForm& form, const KnownRule& rule) {
  if (!rule.known) return {};
  if (form.has_nominal() && !(std::isfinite(*rule.nominal) && *rule.nominal >= 0.0))
    return "its nominal value is no number; every figure of a load must be above 0";
  if ((rule.lower && rule.nominal && *rule.lower > *rule.nominal) ||
      (rule.upper && rule.nominal && *rule.upper < *rule.nominal))
    return "a tolerance must be 0 or more";
  if (rule.lower && rule.upper && *rule.lower > *rule.upper) return "its lower limit lies above the upper one";
  if (form.movement.form == Movement::Form::power && !(rule.movement.reference > 0.0))
    return "the reference of \"proportional_to\" must be above 0";
  return {};
}

}  // namespace

std::optional<double> KnownMovement::factor(double at) const {
  constexpr double least = 0.05;  // a line that falls so far was never meant to reach there
  double by = 1.0;
  if (form == Movement::Form::linear) by = 1.0 + coefficient * (at - reference);
  if (form == Movement::Form::power) by = std::pow(at / reference, exponent);
  if (!std::isfinite(by) || by < least || by > 1.0 / least) return std::nullopt;
  return by;
}

double KnownMovement::slope(double at) const {
  if (form == Movement::Form::linear) return coefficient;
  if (form == Movement::Form::power) return exponent * std::pow(at / reference, exponent) / at;
  return 0.0;
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
  } else {
    const ContactForm& contact = *form.contact();
    rule.lower_end = contact.lower_end.value(ratings);
    rule.upper_end = contact.upper_end.value(ratings);
    rule.known = !contact.depends() || rule.lower_end || rule.upper_end;
  }
  return rule;
}

std::string contradiction_in(const RuleForm& form, const KnownRule& rule) {
  if (const LimitsForm* limits = form.limits()) return contradiction_in_limits(*limits, rule);
  if (!rule.lower_end || !rule.upper_end || *rule.lower_end <= *rule.upper_end) return {};
  return "it would have to be closed and open at once: one end lies beyond the other";
}

std::vector<KnownRule> known_rules(const Definition& definition, const RatingValues& values, const ValueNode* ratings,
                                   std::vector<Problem>& problems) {
  std::vector<KnownRule> rules;
  for (std::size_t i = 0; i < definition.rules.size(); ++i) {
    const RuleForm& form = definition.rules[i];
    rules.push_back(known_rule(form, definition.descriptor.measurands[form.measurand].dimension, values));
    const std::string why = contradiction_in(form, rules.back());
    if (why.empty() || ratings == nullptr) continue;
    problems.push_back(ratings->problem("rule " + ohmwright::quoted(definition.descriptor.rules[i].id) + ": " + why));
  }
  return rules;
}

}  // namespace ohmwright::kind_file
