#include "part/expectation.hpp"

#include <algorithm>

namespace ohmwright::kind_file {

namespace {

/// What a contact reads while it is closed, where no rule on limits says more.
Expectation closed_contact(const ContactForm& form) {
  Expectation expected{AnyQuantity(Dimension::resistance, 0.0), {}, 0.0, {}};
  expected.limits.upper = AnyQuantity(Dimension::resistance, form.closed_up_to_ohms);
  return expected;
}

/// Between limits that name no nominal value a good part reads anything; what is drawn is their middle.
double middle_of(const KnownRule& rule) {
  if (rule.nominal) return *rule.nominal;
  if (rule.lower && rule.upper) return 0.5 * (*rule.lower + *rule.upper);
  return rule.lower ? *rule.lower : 0.5 * *rule.upper;
}

}  // namespace

std::optional<double> share_closed(const ContactForm& form, const KnownRule& rule, const Situation& situation) {
  const bool closed_below = form.below == ContactState::closed;
  if (form.is_set_by_state()) {
    const std::optional<std::uint16_t> set = situation.state(form.set_by.state);
    if (!set || *set >= form.set_by.is_closed.size()) return std::nullopt;
    return form.set_by.is_closed[*set] ? 1.0 : 0.0;
  }
  if (!form.depends()) return closed_below ? 1.0 : 0.0;
  const std::optional<double> at = situation.condition(form.condition);
  if (!at) return std::nullopt;
  const ContactEnds ends = ends_of(form, rule, situation.state(form.hysteresis.state));
  std::optional<double> share_below;
  if (ends.lower && *at <= *ends.lower) share_below = 1.0;
  if (ends.upper && *at >= *ends.upper) share_below = 0.0;
  if (!share_below && ends.lower && ends.upper) share_below = (*ends.upper - *at) / (*ends.upper - *ends.lower);
  if (!share_below) return std::nullopt;
  return closed_below ? *share_below : 1.0 - *share_below;
}

std::optional<Expectation> expected_by_limits(const RuleForm& form, const KnownRule& rule, Dimension dimension,
                                              const Situation& situation) {
  if (!rule.known) return std::nullopt;
  double factor = 1.0;
  const Movement& movement = form.limits()->movement;
  if (movement.moves()) {
    ConditionValues at{};
    for (const std::uint16_t condition : movement.conditions) {
      const std::optional<double> given = situation.condition(condition);
      if (!given) return std::nullopt;
      at[condition] = *given;
    }
    const std::optional<double> by = rule.movement.factor(at);
    if (!by) return std::nullopt;
    factor = *by;
  }
  Expectation expected{AnyQuantity(dimension, factor * middle_of(rule)), {}, 0.0, {}};
  if (rule.lower) expected.limits.lower = AnyQuantity(dimension, factor * *rule.lower);
  if (rule.upper) expected.limits.upper = AnyQuantity(dimension, factor * *rule.upper);
  return expected;
}

std::optional<Expectation> expected_reading(const Definition& definition, std::span<const KnownRule> rules,
                                            std::uint16_t measurand, const Situation& situation) {
  if (measurand >= definition.descriptor.measurands.size()) return std::nullopt;
  const Dimension dimension = definition.descriptor.measurands[measurand].dimension;
  std::optional<Expectation> by_limits;
  bool limits_known = false;  ///< then no later rule says more: a limit of what is open is none of a good part
  const ContactForm* contact = nullptr;
  std::optional<double> share;
  for (std::size_t i = 0; i < rules.size(); ++i) {
    const RuleForm& form = definition.rules[i];
    if (form.measurand != measurand) continue;
    if (form.limits() != nullptr) {
      if (!limits_known) by_limits = expected_by_limits(form, rules[i], dimension, situation);
      limits_known = limits_known || rules[i].known;
    } else if (form.contact() != nullptr && contact == nullptr) {
      contact = form.contact();
      share = share_closed(*contact, rules[i], situation);
    }
  }
  if (contact == nullptr) return by_limits;
  if (!share) return std::nullopt;
  if (!by_limits) by_limits = closed_contact(*contact);
  by_limits->share_closed = share;
  return by_limits;
}

}  // namespace ohmwright::kind_file
