#include "rules/contact_rule.hpp"

#include <algorithm>
#include <cstdint>
#include <limits>
#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::kind_file {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

/// What a contact is that has to be closed or open to be right.
ContactEndsInOhms ends_in_ohms_of(const ContactForm& form) {
  return {form.closed_up_to_ohms, form.not_closed_from_ohms(), form.open_from_ohms};
}

/// What a contact is that has to be open: a burnt one that still conducts is not.
ContactEndsInOhms ends_of_what_conducts(const ContactForm& form) {
  ContactEndsInOhms ends = ends_in_ohms_of(form);
  ends.closed_up_to = std::clamp(closed_up_to_ohms, ends.closed_up_to, ends.poor_up_to);
  return ends;
}

/// One reading of the contact against the ends of its condition.
struct Judged {
  const PreparedReading* reading = nullptr;
  const Estimate* at = nullptr;  ///< null: no condition is needed, or none was given to a part that opened for good
  bool closed = false;
  bool as_below = false;  ///< the state that it has to be in below the lower end
  double good = 1.0;      ///< P(a good part may be so there)
  bool right = false;     ///< surely where it has to be so
  ContactEnds ends;       ///< of this reading, by where the contact came from
};

class ContactRule {
 public:
  ContactRule(const Scene& scene, std::uint16_t rule)
      : scene_(scene), rule_(rule), form_(*scene.definition.rules[rule].contact()), known_(scene.known[rule]) {}

  void judge() {
    for (const PreparedReading& reading : scene_.evidence.readings())
      if (reading.measurand == scene_.definition.rules[rule_].measurand) take(reading);
    if (wrong_in_circuit_.reading != nullptr && !closed_alone_) keep_worst(wrong_in_circuit_);
    if (comes_and_goes_)
      say(scene_, rule_, Outcome::undecided, ContactText::comes_and_goes).holds_back = true;
    else if (wrong_.reading != nullptr)
      condemn();
    else if (poor_ != nullptr)
      say_poor();
    else if (wrong_in_circuit_.reading != nullptr && !connection_unstated_)
      say(scene_, rule_, Outcome::undecided, ContactText::right_alone);
    else if (passes())
      pass();
    else if (connection_unstated_)
      say(scene_, rule_, Outcome::undecided, ContactText::connection_unstated);
    else if (either_.reading != nullptr)
      say_undecided(either_, either_.closed ? ContactText::closed_either : ContactText::open_either);
    else if (right_below_.reading != nullptr || right_above_.reading != nullptr)
      say_half_shown();
    else
      say_why_not();
  }

 private:
  void take(const PreparedReading& reading) {
    const ContactSeen seen = contact_seen(reading, ends_in_ohms_of(form_));
    const bool tells = seen != ContactSeen::nothing;
    if (is_live(reading)) {
      live_ = live_ || tells;
    } else if (tells && is_in_circuit(reading) && !is_not_closed(seen)) {
      in_circuit_ = true;
    } else if (tells && repeats_jump_past_digits(scene_.evidence, reading)) {
      comes_and_goes_ = true;
    } else if (const std::optional<bool> closed = state_of(reading, seen)) {
      take_state(reading, *closed);
    } else if (!tells) {
      refused_ = &reading;
    } else if (is_in_circuit(reading)) {
      in_circuit_ = true;
    } else {
      poor_ = &reading;
    }
  }

  /// Whether it counts as closed or open; nothing for what is neither. What lies between the two counts only against
  /// the part: burnt it is no open contact, and leaking no closed one.
  std::optional<bool> state_of(const PreparedReading& reading, ContactSeen seen) {
    if (seen == ContactSeen::closed) return true;
    if (seen == ContactSeen::open) return false;
    if (is_not_closed(seen)) return is_wrong(reading, false) ? std::optional(false) : std::nullopt;
    const bool conducts = contact_seen(reading, ends_of_what_conducts(form_)) == ContactSeen::closed;
    return conducts && !is_in_circuit(reading) && is_wrong(reading, true) ? std::optional(true) : std::nullopt;
  }

  bool is_wrong(const PreparedReading& reading, bool closed) {
    const std::optional<Judged> judged = judged_state(reading, closed);
    return judged && decide_observed(judged->good, scene_.settings.confidence) == Outcome::out_of_limits;
  }

  void take_state(const PreparedReading& reading, bool closed) {
    if (!is_in_circuit(reading)) {  // what opens once and for good is never closed after it was open
      comes_and_goes_ = comes_and_goes_ || (form_.single_operation && closed && seen_open_);
      seen_open_ = seen_open_ || !closed;
      closed_alone_ = closed_alone_ || closed;
    }
    const std::optional<Judged> judged = judged_state(reading, closed);
    if (!judged) return;
    const bool wrong = decide_observed(judged->good, scene_.settings.confidence) == Outcome::out_of_limits;
    if (is_in_circuit(reading)) {  // it is open: a path beside it can only make it look closed
      if (wrong && reading.supply == Supply::proved_dead)
        wrong_in_circuit_ = *judged;
      else if (wrong)
        open_in_circuit_ = true;
      else
        in_circuit_ = true;
    } else if (closed && !is_lead_off(reading) && (wrong || judged->right)) {
      connection_unstated_ = true;
    } else if (wrong) {
      keep_worst(*judged);
    } else if (judged->right) {
      if (const std::optional<std::uint16_t> set = value_of_state(reading)) seen_right_ |= 1U << *set;
      (judged->as_below ? right_below_ : right_above_) = *judged;
    } else {
      either_ = *judged;
    }
  }

  void keep_worst(const Judged& judged) {
    if (wrong_.reading == nullptr || judged.good <= wrong_.good) wrong_ = judged;
  }

  std::optional<Judged> judged_state(const PreparedReading& reading, bool closed) {
    Judged judged;
    judged.reading = &reading;
    judged.closed = closed;
    judged.as_below = closed == (form_.below == ContactState::closed);
    judged.at = form_.depends() ? reading.condition(form_.condition) : nullptr;
    if (form_.is_set_by_state()) return judged_by_state(judged);
    judged.ends = ends_of(form_, known_, reading.state(form_.hysteresis.state));
    if (!form_.depends() || (form_.single_operation && !closed)) {
      judged.good = judged.as_below ? 1.0 : 0.0;
      judged.right = judged.as_below;
      return judged;
    }
    if (judged.at == nullptr) {
      no_condition_ = true;
      return std::nullopt;
    }
    if (!known_.known) {
      no_figure_ = true;
      return std::nullopt;
    }
    judged.good = judged.as_below ? below(judged, judged.ends.upper, 1.0) : 1.0 - below(judged, judged.ends.lower, 0.0);
    judged.right = scene_.sure(judged.as_below ? below(judged, judged.ends.lower, 0.0)
                                               : 1.0 - below(judged, judged.ends.upper, 1.0));
    return judged;
  }

  /// Against what a good one is in the state that was said with the reading.
  std::optional<Judged> judged_by_state(Judged judged) {
    const std::optional<std::uint16_t> set = value_of_state(*judged.reading);
    if (!set) {
      no_condition_ = true;
      return std::nullopt;
    }
    judged.right = judged.closed == form_.set_by.is_closed[*set];
    judged.good = judged.right ? 1.0 : 0.0;
    return judged;
  }

  /// The value of the state that sets it, if it is set by one and the reading says which.
  std::optional<std::uint16_t> value_of_state(const PreparedReading& reading) const {
    if (!form_.is_set_by_state()) return std::nullopt;
    const std::optional<std::uint16_t> set = reading.state(form_.set_by.state);
    return set && *set < form_.set_by.is_closed.size() ? set : std::nullopt;
  }
  /// Each value of a state may be a contact of its own: that one of two is closed says nothing of the other.
  bool is_to_read(std::size_t value) const {
    const bool as_below = form_.set_by.is_closed[value] == (form_.below == ContactState::closed);
    return (as_below ? form_.passes_on_below : form_.passes_on_above) && (seen_right_ & (1U << value)) == 0;
  }
  bool is_any_to_read() const {
    for (std::size_t value = 0; value < form_.set_by.is_closed.size(); ++value)
      if (is_to_read(value)) return true;
    return false;
  }

  /// P(the condition lies at that end or below); `unknown` where the end is not known.
  double below(const Judged& judged, std::optional<double> end, double unknown) const {
    if (!end) return unknown;
    return probability_between(*judged.at, scene_.evidence.sources(), -infinity, *end);
  }

  bool passes() const {
    if (form_.is_set_by_state()) return seen_right_ != 0 && !is_any_to_read();
    if (form_.passes_on_below && right_below_.reading == nullptr) return false;
    if (form_.passes_on_above && right_above_.reading == nullptr) return false;
    return right_below_.reading != nullptr || right_above_.reading != nullptr;
  }

  AnyQuantity along(double value) const {
    return {scene_.definition.descriptor.conditions[form_.condition].dimension, value};
  }

  FieldValues values_of(const Judged& judged) const {
    FieldValues values;
    if (judged.at != nullptr) values.set(Field::at, along(judged.at->value()));
    values.set(Field::chance_percent, 100.0 * judged.good);
    const bool closed_first = form_.below == ContactState::closed;
    const ContactEnds& ends = judged.ends;
    if (ends.lower) values.set(closed_first ? Field::closed_below : Field::open_below, along(*ends.lower));
    if (ends.upper) values.set(closed_first ? Field::open_above : Field::closed_above, along(*ends.upper));
    return values;
  }

  /// The figures of a state: the condition, and the end beyond which a good part is in the other one.
  void tell_figures(const Judged& judged, Finding& finding) const {
    if (judged.at == nullptr) return;
    finding.measured = along(judged.at->value());
    finding.measured_uncertainty = judged.at->standard_uncertainty();
    if (judged.as_below && judged.ends.upper) finding.limits.upper = along(*judged.ends.upper);
    if (!judged.as_below && judged.ends.lower) finding.limits.lower = along(*judged.ends.lower);
  }

  void tell_probability(const Judged& judged, Finding& finding) const {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = judged.good;
  }

  void condemn() {
    Finding& finding = say(scene_, rule_, Outcome::out_of_limits,
                           wrong_.closed ? ContactText::closed_wrong : ContactText::open_wrong, values_of(wrong_));
    tell_figures(wrong_, finding);
    tell_probability(wrong_, finding);
  }

  void say_poor() {
    FieldValues values;
    const AnyQuantity measured(Dimension::resistance, poor_->value.value());
    values.set(Field::measured, measured);
    say(scene_, rule_, Outcome::undecided, ContactText::poor, values).measured = measured;
  }

  void pass() {
    if (form_.passes_on_below && form_.passes_on_above) {
      say(scene_, rule_, Outcome::within_limits, ContactText::both_right);
      return;
    }
    const Judged& right = form_.passes_on_below ? right_below_ : right_above_;
    Finding& finding = say(scene_, rule_, Outcome::within_limits,
                           right.closed ? ContactText::closed_right : ContactText::open_right, values_of(right));
    tell_figures(right, finding);
  }

  void say_undecided(const Judged& judged, ContactText text) {
    Finding& finding = say(scene_, rule_, Outcome::undecided, text, values_of(judged));
    tell_figures(judged, finding);
    tell_probability(judged, finding);
  }

  /// Right where it was looked at, but that is not enough.
  void say_half_shown() {
    if (form_.is_set_by_state()) {
      say_states_to_read();
      return;
    }
    const Judged& right = right_below_.reading != nullptr ? right_below_ : right_above_;
    say_undecided(right, right.closed ? ContactText::closed_right : ContactText::open_right);
  }

  void say_states_to_read() {
    const auto& state = scene_.definition.descriptor.states[form_.set_by.state];
    std::string missing(state.title);
    std::string_view between = " ";
    for (std::size_t value = 0; value < state.values.size(); ++value) {
      if (!is_to_read(value)) continue;
      missing.append(between).append(state.values[value].english);
      between = ", ";
    }
    FieldValues fields;
    fields.set(Field::missing, std::move(missing));
    say(scene_, rule_, Outcome::undecided, ContactText::states_to_read, fields);
  }

  void say_range() {
    FieldValues values;
    values.set(Field::range, AnyQuantity(Dimension::resistance, refused_->range_full_scale));
    say(scene_, rule_, Outcome::undecided,
        refused_->shown == Shown::value ? ContactText::range_too_coarse : ContactText::range_too_low, values);
  }

  void say_why_not() {
    if (refused_ != nullptr)
      say_range();
    else if (open_in_circuit_)
      say(scene_, rule_, Outcome::undecided, ContactText::open_in_circuit);
    else if (in_circuit_)
      say(scene_, rule_, Outcome::undecided, ContactText::in_circuit);
    else if (no_condition_)
      say(scene_, rule_, Outcome::silent, ContactText::no_condition);
    else if (no_figure_)
      say(scene_, rule_, Outcome::silent, ContactText::no_figure);
    else
      say(scene_, rule_, Outcome::silent, live_ ? ContactText::live : ContactText::not_read);
  }

  const Scene& scene_;
  std::uint16_t rule_;
  const ContactForm& form_;
  const KnownRule& known_;
  Judged wrong_;
  Judged wrong_in_circuit_;    ///< open where it has to be closed, its points proved dead
  bool closed_alone_ = false;  ///< then the lead or a splice is what is open there
  Judged either_;
  Judged right_below_;
  Judged right_above_;
  const PreparedReading* poor_ = nullptr;
  const PreparedReading* refused_ = nullptr;  ///< on a range that cannot tell it
  std::uint32_t seen_right_ = 0;              ///< bits: values of the state that sets it
  bool comes_and_goes_ = false;
  bool seen_open_ = false;
  bool connection_unstated_ = false;
  bool in_circuit_ = false;
  bool open_in_circuit_ = false;
  bool live_ = false;
  bool no_condition_ = false;
  bool no_figure_ = false;
};

}  // namespace

void judge_contact(const Scene& scene, std::uint16_t rule) { ContactRule(scene, rule).judge(); }

}  // namespace ohmwright::kind_file
