#include "part/electrical_model.hpp"

#include <algorithm>

#include "part/expectation.hpp"

namespace ohmwright::kind_file {

namespace {

bool is_closed(const Definition& definition, std::span<const KnownRule> rules, const ElementRow& row,
               const Situation& situation) {
  const ContactForm& form = *definition.rules[row.of_rule].contact();
  constexpr double half_of_them = 0.5;
  const std::optional<double> share = share_closed(form, rules[row.of_rule], situation);
  return share ? *share >= half_of_them : form.below == ContactState::closed;  // as it is most of its life
}

/// Half the width of the limits as a share of the nominal value, where both sides are there.
double tolerance_of(const Expectation& expected) {
  if (!expected.limits.lower || !expected.limits.upper || !(expected.nominal.value_in_si() > 0.0)) return 0.0;
  const double width = expected.limits.upper->value_in_si() - expected.limits.lower->value_in_si();
  return std::clamp(0.5 * width / expected.nominal.value_in_si(), 0.0, 1.0);
}

}  // namespace

void append_element(const Definition& definition, std::span<const KnownRule> rules, const RatingValues& ratings,
                    const ElementRow& row, const Situation& situation, std::vector<Element>& elements) {
  Element element;
  element.from = row.from;
  element.to = row.to;
  if (!row.type) {
    element.type = is_closed(definition, rules, row, situation) ? ElementType::closed : ElementType::open;
    elements.push_back(element);
    return;
  }
  element.type = *row.type;
  element.relative_half_width = row.tolerance;
  if (row.of_rule != not_found) {
    const RuleForm& form = definition.rules[row.of_rule];
    const Dimension dimension = definition.descriptor.measurands[form.measurand].dimension;
    const std::optional<Expectation> expected = expected_by_limits(form, rules[row.of_rule], dimension, situation);
    if (!expected) return;
    element.value_in_si = row.times * expected->nominal.value_in_si();
    if (row.tolerance == 0.0) element.relative_half_width = tolerance_of(*expected);
  } else if (row.value.is_given()) {
    const std::optional<double> value = row.value.value(ratings);
    if (!value) return;
    element.value_in_si = row.times * *value;
  }
  elements.push_back(element);
}

}  // namespace ohmwright::kind_file
