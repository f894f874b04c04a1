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

/// Good parts fill their limits, so where these have two sides the element lies in the middle of them, which is not the
/// nominal value where one side is the wider.
void fill_limits(const Expectation& expected, Element& element) {
  if (!expected.limits.lower || !expected.limits.upper) return;
  const double low = expected.limits.lower->value_in_si();
  const double high = expected.limits.upper->value_in_si();
  if (!(low >= 0.0) || !(high > low)) return;
  const Element filled = resistance_between(element.from, element.to, low, high);
  element.value_in_si = filled.value_in_si;
  element.relative_half_width = filled.relative_half_width;
}

/// The winding with its own protector, if it has one.
Element with_own_protector(Element winding, const Definition& definition, const Situation& situation) {
  const auto found = std::find_if(
      definition.own_protectors.begin(), definition.own_protectors.end(), [&](const OwnProtector& protector) {
        return winding.type == ElementType::resistance && protector.from == winding.from && protector.to == winding.to;
      });
  if (found == definition.own_protectors.end()) return winding;
  const std::optional<double> at = situation.condition(found->condition);
  if (!at || *at <= found->closed_to_kelvin) return winding;
  if (*at >= found->open_from_kelvin) return open_between(winding.from, winding.to);
  winding.type = ElementType::contact;
  winding.probability_closed = (found->open_from_kelvin - *at) / (found->open_from_kelvin - found->closed_to_kelvin);
  return winding;
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
    element.value_in_si = expected->nominal.value_in_si();
    if (row.tolerance == 0.0) fill_limits(*expected, element);
    element.value_in_si *= row.times;
  } else if (row.value.is_given()) {
    const std::optional<double> value = row.value.value(ratings);
    if (!value || !std::isfinite(*value) || *value < 0.0) return std::nullopt;
    element.value_in_si = row.times * *value;
  }
  return with_own_protector(element, definition, situation);
}

}  // namespace ohmwright::kind_file
