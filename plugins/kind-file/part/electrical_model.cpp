#include "part/electrical_model.hpp"

#include <algorithm>
#include <cmath>

#include "part/expectation.hpp"

namespace ohmwright::kind_file {

namespace {

/// Share of good parts whose contact is closed; where the situation does not say, as it is most of its life.
double share_of(const Definition& definition, std::span<const KnownRule> rules, const ElementRow& row,
                const Situation& situation) {
  const ContactForm& form = *definition.rules[row.of_rule].contact();
  const double most_of_its_life = form.below == ContactState::closed ? 1.0 : 0.0;
  return share_closed(form, rules[row.of_rule], situation).value_or(most_of_its_life);
}

/// A contact that is closed in that share of good parts, with its ohms while it is, if the file states them.
Element contact_of(const ElementRow& row, double share, double ohms) {
  if (share <= 0.0) return open_between(row.from, row.to);
  Element contact = closed_between(row.from, row.to);
  contact.type = share >= 1.0 ? ElementType::closed : ElementType::contact;
  if (ohms > 0.0) {
    contact.type = share >= 1.0 ? ElementType::resistance : ElementType::contact;
    contact.value_in_si = ohms;
    contact.relative_half_width = row.tolerance;
  }
  contact.probability_closed = share;
  return contact;
}

/// Half the width of the limits as a share of the nominal value, where both sides are there.
double tolerance_of(const Expectation& expected) {
  if (!expected.limits.lower || !expected.limits.upper || !(expected.nominal.value_in_si() > 0.0)) return 0.0;
  const double width = expected.limits.upper->value_in_si() - expected.limits.lower->value_in_si();
  return std::clamp(0.5 * width / expected.nominal.value_in_si(), 0.0, 1.0);
}

}  // namespace

std::optional<Element> element_of(const Definition& definition, std::span<const KnownRule> rules,
                                  const RatingValues& ratings, const ElementRow& row, const Situation& situation) {
  if (!row.type) {
    const double ohms = row.value.value(ratings).value_or(0.0);
    if (!std::isfinite(ohms)) return std::nullopt;
    return contact_of(row, share_of(definition, rules, row, situation), ohms);
  }
  Element element;
  element.from = row.from;
  element.to = row.to;
  element.type = *row.type;
  element.relative_half_width = row.tolerance;
  if (row.of_rule != not_found) {
    const RuleForm& form = definition.rules[row.of_rule];
    const Dimension dimension = definition.descriptor.measurands[form.measurand].dimension;
    const std::optional<Expectation> expected = expected_by_limits(form, rules[row.of_rule], dimension, situation);
    if (!expected) return std::nullopt;
    element.value_in_si = row.times * expected->nominal.value_in_si();
    if (row.tolerance == 0.0) element.relative_half_width = tolerance_of(*expected);
  } else if (row.value.is_given()) {
    const std::optional<double> value = row.value.value(ratings);
    if (!value || !std::isfinite(*value) || *value < 0.0) return std::nullopt;
    element.value_in_si = row.times * *value;
  }
  return element;
}

}  // namespace ohmwright::kind_file
