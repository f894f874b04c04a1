#include "rules/sensor_supply.hpp"

#include "part/sensor_divider.hpp"

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  right,
  dead,
  off,
  unsure,
  right_at_stand_in,
  off_at_stand_in,
  unsure_at_stand_in,
  pull_up_unknown,
  no_stand_in,
  no_sensor,
  not_rated,
  not_read,
  not_live
};

/// Below this share of what it should be there is nothing at all (common practice, no source).
constexpr double nothing_there = 0.1;

std::optional<Text> why_not_judged(const Scene& scene, const PreparedReading* reading) {
  if (reading == nullptr) return not_read;
  if (!is_live(*reading)) return not_live;
  if (scene.ratings == nullptr) return not_rated;
  if (scene.ratings->type != ControlType::thermistor_board) return no_sensor;
  if (!scene.ratings->sensor) return not_rated;
  if (reading->condition(stand_in) != nullptr && !scene.ratings->sensor->knows_pull_up()) return pull_up_unknown;
  if (const Estimate* resistor = reading->condition(stand_in); resistor != nullptr && !(resistor->value() > 0.0))
    return no_stand_in;
  return std::nullopt;
}

/// What a board right on its figures shows there [V].
double nominal_volts(const SensorInput& input, const PreparedReading& reading) {
  const Estimate* resistor = reading.condition(stand_in);
  return volts_at_connector(input, resistor == nullptr ? std::nullopt : std::optional(resistor->value()));
}

/// The reading, as a share of that.
Estimate share_of(const SensorInput& input, const PreparedReading& reading) {
  const Estimate* resistor = reading.condition(stand_in);
  Estimate share;
  share.add_scaled(reading.value, 1.0 / nominal_volts(input, reading));
  if (resistor != nullptr)  // of V = S·R/(R + Rp): dV/V = dR/R · Rp/(R + Rp)
    share.add_uncertainty(*resistor, -share.value() * pull_up_part(input, resistor->value()) / resistor->value());
  return share;
}

void judge_volts(const Scene& scene, const PreparedReading& reading) {
  const SensorInput& input = *scene.ratings->sensor;
  const Estimate* resistor = reading.condition(stand_in);
  const Estimate share = share_of(input, reading);
  const double lower = 1.0 - input.tolerance;
  const double upper = 1.0 + input.tolerance;
  const Conformance p = conformance_of(share, scene.evidence.sources(), lower, upper);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = resistor == nullptr ? unsure : unsure_at_stand_in;
  if (outcome == Outcome::within_limits) text = resistor == nullptr ? right : right_at_stand_in;
  if (outcome == Outcome::out_of_limits) text = resistor == nullptr ? off : off_at_stand_in;
  if (outcome == Outcome::out_of_limits && share.value() < nothing_there) text = dead;
  Finding& finding = scene.findings.add(sensor_supply, outcome, text);
  put_judged(finding, share, lower, upper, Dimension::ratio, p);
  const double expected = nominal_volts(input, reading);
  finding.measured = volts(reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.lower = volts(lower * expected);
  finding.limits.upper = volts(upper * expected);
  tell(finding, "measured", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  if (resistor != nullptr) tell(finding, "resistor", ohms(resistor->value()));
}

}  // namespace

RuleDescriptor describe_sensor_supply() {
  return {
      "sensor-supply",
      OHMWRIGHT_TEXT("What the board gives to its sensor"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "divider V = S*R/(R + Rp), with the 10 Mohm of the voltmeter beside R",
      {
          {"right", OHMWRIGHT_TEXT("At the pulled connector it gives {measured}, within {lower} to {upper}: its sensor "
                                   "input has its supply.")},
          {"dead", OHMWRIGHT_TEXT("It gives {measured} to its sensor, where a good one gives {lower} to {upper}: the "
                                  "sensor input is dead, and no sensor can mend that.")},
          {"off", OHMWRIGHT_TEXT("At the pulled connector it gives {measured}, where a good one gives {lower} to "
                                 "{upper}: its sensor input is wrong, and it misreads every sensor.")},
          {"unsure", OHMWRIGHT_TEXT("At the pulled connector it gives {measured}, where a good one gives {lower} to "
                                    "{upper}: too near to an end to tell.")},
          {"right-at-stand-in", OHMWRIGHT_TEXT("With {resistor} in place of the sensor it shows {measured}, within "
                                               "{lower} to {upper}: its sensor input reads right.")},
          {"off-at-stand-in",
           OHMWRIGHT_TEXT("With {resistor} in place of the sensor it shows {measured}, where a good one shows {lower} "
                          "to {upper}: its own resistor is off, and it misreads every sensor.")},
          {"unsure-at-stand-in",
           OHMWRIGHT_TEXT("With {resistor} in place of the sensor it shows {measured}, where a good one shows {lower} "
                          "to {upper}: too near to an end to tell.")},
          {"pull-up-unknown", OHMWRIGHT_TEXT("What it shows with a resistor in place of the sensor depends on its own "
                                             "resistor, which the ratings do not state.")},
          {"no-stand-in", OHMWRIGHT_TEXT("Not judged: 0 Ω in place of the sensor leave no volts to read.")},
          {"no-sensor", OHMWRIGHT_TEXT("Not judged: this control reads no sensor.")},
          {"not-rated", OHMWRIGHT_TEXT("Not judged: what it gives to its sensor is not known.")},
          {"not-read", OHMWRIGHT_TEXT("Not judged: the volts at its sensor connector were not read.")},
          {"not-live",
           OHMWRIGHT_TEXT("Not judged: it gives its sensor volts only while it has power (--live-agreed).")},
      }};
}

void judge_sensor_supply(const Scene& scene) {
  const PreparedReading* reading = last_value(scene.evidence, sensor_voltage);
  if (const std::optional<Text> silence = why_not_judged(scene, reading))
    scene.findings.add(sensor_supply, *silence == pull_up_unknown ? Outcome::undecided : Outcome::silent, *silence);
  else
    judge_volts(scene, *reading);
}

}  // namespace ohmwright::defrost_control
