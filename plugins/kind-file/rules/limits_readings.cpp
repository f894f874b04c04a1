#include "rules/limits_readings.hpp"

#include <cmath>

#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/component/repeated_readings.hpp>

#include "reading/rule_reader.hpp"

namespace ohmwright::kind_file {

namespace {

/// How often that reading was taken: its scatter has one degree of freedom less.
double times_taken(const Evidence& evidence, const PreparedReading& reading) {
  for (const Term& term : reading.value.terms()) {
    const ErrorSource& source = evidence.sources()[term.source];
    if (source.shape == Shape::student_t) return source.degrees_of_freedom + 1.0;
  }
  return 1.0;
}

/// Reads one rule's measurand off the evidence.
class Collector {
 public:
  Collector(const Scene& scene, std::uint16_t rule)
      : evidence_(scene.evidence),
        form_(*scene.definition.rules[rule].limits()),
        known_(scene.known[rule]),
        measurand_(scene.definition.descriptor.measurands[scene.definition.rules[rule].measurand]) {}

  void take(const PreparedReading& reading) {
    if (is_live(reading) && is_passive(measurand_.dimension)) {
      found.live = true;
    } else if (reading.shown != Shown::value) {
      take_over_range(reading);
    } else if (!std::isfinite(reading.value.value())) {
      return;
    } else if (is_in_circuit(reading)) {
      found.in_circuit = true;
    } else if (is_wet(reading) && measurand_.dimension == Dimension::resistance) {
      found.wet = true;
    } else {
      take_value(reading);
    }
  }

  LimitsReadings found;

 private:
  /// Of a contact "open" and OL are a state, which a rule on its contact judges.
  void take_over_range(const PreparedReading& reading) {
    if (measurand_.takes_contact_state || reading.shown != Shown::over_range) return;
    if (is_in_circuit(reading)) {
      found.in_circuit = true;
    } else if (const std::optional<MovedReading> moved = moved_reading(reading)) {
      if (found.over_range == nullptr || reading.range_full_scale > found.over_range->range_full_scale)
        found.over_range = &reading;
      note_connection(reading);
    }
  }

  void take_value(const PreparedReading& reading) {
    const std::optional<MovedReading> moved = moved_reading(reading);
    if (!moved) return;
    Estimate at_reference(reading.value.value() / moved->factor);
    at_reference.add_uncertainty(reading.value, 1.0 / moved->factor);
    for (const std::uint16_t condition : form_.movement.conditions)
      at_reference.add_uncertainty(
          *reading.condition(condition),
          -at_reference.value() * known_.movement.slope(moved->conditions, condition) / moved->factor);
    if (!can_be_fused({found.at_reference.data(), found.at_reference.size()}, at_reference)) {
      found.rest_apart = std::max(found.rest_apart, disagreement_of(found.at_reference.front(), at_reference));
      return;
    }
    found.jumping = found.jumping || repeats_jump_past_digits(evidence_, reading);
    found.shown += times_taken(evidence_, reading);
    found.usable.push_back(*moved);
    found.at_reference.push_back(at_reference);
    note_connection(reading);
  }

  void note_connection(const PreparedReading& reading) {
    const bool matters = is_passive(measurand_.dimension) && reading.connection == Connection::unstated;
    found.connection_unstated = found.connection_unstated || matters;
  }

  std::optional<MovedReading> moved_reading(const PreparedReading& reading) {
    if (!form_.movement.moves()) return MovedReading{&reading, 1.0, std::nullopt};
    const std::optional<ConditionValues> at = conditions_of(form_.movement, reading);
    if (!at) {
      found.no_condition = true;
      return std::nullopt;
    }
    // Without its ratings a formula has no value; that they are missing is told by the rule.
    const bool unknown = form_.movement.form == Movement::Form::formula && !known_.known;
    const std::optional<double> factor = unknown ? std::optional(1.0) : known_.movement.factor(*at);
    if (!factor || (!unknown && !known_.movement.is_smooth(*at))) {
      found.out_of_reach = true;
      return std::nullopt;
    }
    return MovedReading{&reading, *factor, (*at)[form_.movement.condition()], *at};
  }

  const Evidence& evidence_;
  const LimitsForm& form_;
  const KnownRule& known_;
  const MeasurandDescriptor& measurand_;
};

}  // namespace

std::optional<PreparedReading> difference_reading(const Scene& scene, std::uint16_t rule) {
  const Difference& difference = scene.definition.rules[rule].limits()->difference;
  if (!difference.is_given()) return std::nullopt;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.measurand == scene.definition.rules[rule].measurand) return std::nullopt;
  const PreparedReading* from = last_value(scene.evidence, difference.from);
  const PreparedReading* less = last_value(scene.evidence, difference.less);
  if (from == nullptr || less == nullptr) return std::nullopt;
  PreparedReading made = *less;
  made.measurand = scene.definition.rules[rule].measurand;
  made.value = from->value;
  made.value.add_scaled(less->value, -1.0);
  if (!(made.value.value() > 0.0)) return std::nullopt;
  made.displayed = made.value.value();
  made.conditions.clear();
  if (difference.condition != not_found) made.conditions.push_back({difference.condition, from->value});
  return made;
}

std::optional<ConditionValues> conditions_of(const Movement& movement, const PreparedReading& reading) {
  ConditionValues values{};
  for (const std::uint16_t condition : movement.conditions) {
    const Estimate* given = reading.condition(condition);
    if (given == nullptr) return std::nullopt;
    values[condition] = given->value();
  }
  return values;
}

LimitsReadings limits_readings(const Scene& scene, std::uint16_t rule, const PreparedReading* difference) {
  Collector collector(scene, rule);
  if (difference != nullptr) collector.take(*difference);
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.measurand == scene.definition.rules[rule].measurand) collector.take(reading);
  return collector.found;
}

Estimate moved_limit(const LimitsForm& form, const KnownRule& rule, const PreparedReading& reading, double limit) {
  const std::optional<ConditionValues> at = conditions_of(form.movement, reading);
  if (!form.movement.moves() || !at) return Estimate(limit);
  Estimate moved(limit * rule.movement.factor(*at).value_or(1.0));
  for (const std::uint16_t condition : form.movement.conditions)
    moved.add_uncertainty(*reading.condition(condition), limit * rule.movement.slope(*at, condition));
  return moved;
}

}  // namespace ohmwright::kind_file
