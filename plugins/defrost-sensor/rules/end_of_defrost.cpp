#include "rules/end_of_defrost.hpp"

#include <numbers>

#include <ohmwright/verdict/decision.hpp>

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  ends_in_time,
  ends_late,
  ends_early,
  not_told_apart,
  no_tolerance,
  believed_only,
  never_ends,
  no_control,
  no_reading,
  connection_unstated,
};

/// When the defrost ends, as the coil at the sensor sees it.
struct End {
  Temperature at;
  Estimate late;  ///< [K], positive: warmer, later
};

/// The control ends where the sensor's resistance passes that of its own curve at the set temperature:
/// ln R_part(t) = ln R_expected(T_set), with ln R_part(t) = ln R_nominal(t) + deviation.
std::optional<End> end_of(const Scene& scene, const Control& control) {
  const Curve& own = *scene.ratings->curve;
  const Curve& expected = control.curve ? *control.curve : own;
  const Temperature set = *control.termination_temperature;
  const Fusion& fused = *scene.fused;
  const std::optional<Temperature> at = own.temperature_at(expected.log_resistance(set) - fused.log.value());
  if (!at) return std::nullopt;
  // The curve's own error at the end; a control that expects this very curve knows the true one at its set point.
  double model_error = own.model_error(*at);
  if (!control.curve) model_error -= own.model_error(set);
  Estimate deviation = fused.log;
  if (model_error != 0.0) deviation.add_term(Evidence::model_source, model_error / std::numbers::sqrt3);
  End end{*at, Estimate((*at - set).value())};
  end.late.add_uncertainty(deviation, -1.0 / own.log_slope(*at));
  return end;
}

/// What the control takes the coil's temperature for, at the first usable reading.
void tell_belief(const Scene& scene, const Control& control, Finding& finding) {
  const Curve& own = *scene.ratings->curve;
  const Curve& expected = control.curve ? *control.curve : own;
  const Deviation& here = scene.usable[0];
  const Resistance r = Resistance::from_value(std::exp(here.log_nominal + scene.fused->log.value()));
  tell(finding, "temperature", AnyQuantity(here.temperature));
  if (const std::optional<Temperature> believed = expected.temperature(r)) {
    tell(finding, "believed", AnyQuantity(*believed));
    tell(finding, "believed_error", AnyQuantity(*believed - here.temperature));
  } else {
    tell(finding, "believed", std::string("?"));
    tell(finding, "believed_error", std::string("?"));
  }
  if (const std::optional<double> code = control.code(r)) tell(finding, "code", *code);
  if (const std::optional<double> step = control.kelvin_per_code(r, expected)) tell(finding, "step", kelvins(*step));
}

void judge_end(const Scene& scene, const Control& control, const End& end) {
  const auto& tolerance = control.termination_tolerance;
  Outcome outcome = Outcome::silent;
  Text text = no_tolerance;
  Conformance p;
  if (tolerance) {
    p = conformance_of(end.late, scene.evidence.sources(), -tolerance->value(), tolerance->value());
    outcome = decide(p, scene.settings.confidence);
    text = outcome == Outcome::within_limits ? ends_in_time : not_told_apart;
    if (outcome == Outcome::out_of_limits) text = end.late.value() > 0.0 ? ends_late : ends_early;
    const bool reads_low = scene.fused->log.value() < 0.0;
    if (outcome == Outcome::out_of_limits && reads_low && scene.connection_unstated) {
      outcome = Outcome::undecided;  // another path beside the part makes it read low too
      text = connection_unstated;
    }
  }
  Finding& finding = scene.findings.add(end_of_defrost, outcome, text);
  finding.holds_back = text == connection_unstated;
  tell_belief(scene, control, finding);
  tell(finding, "set", AnyQuantity(*control.termination_temperature));
  tell(finding, "ends_at", AnyQuantity(end.at));
  tell(finding, "late", kelvins(end.late.value()));
  finding.measured = AnyQuantity(end.at);
  finding.measured_uncertainty = end.late.standard_uncertainty();
  if (!tolerance) return;
  finding.limits.lower = AnyQuantity(*control.termination_temperature - *tolerance);
  finding.limits.upper = AnyQuantity(*control.termination_temperature + *tolerance);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  finding.judged = end.late;
  finding.judged_lower = -tolerance->value();
  finding.judged_upper = tolerance->value();
}

}  // namespace

RuleDescriptor describe_end_of_defrost() {
  return {
      "end-of-defrost",
      OHMWRIGHT_TEXT("What the control believes"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "divider and curve inversion (ours); the tolerance as the ratings of the control state it",
      {
          {"ends-in-time",
           OHMWRIGHT_TEXT("At {temperature} the control believes {believed}; it would end the defrost when the sensor "
                          "has {ends_at}, set for {set}: in time.")},
          {"ends-late",
           OHMWRIGHT_TEXT("At {temperature} the control believes {believed}; it would end the defrost when the sensor "
                          "has {ends_at} instead of {set}, {late} too warm: late, warm food and wasted energy.")},
          {"ends-early",
           OHMWRIGHT_TEXT("At {temperature} the control believes {believed}; it would end the defrost when the sensor "
                          "has {ends_at} instead of {set} ({late}): early, ice stays at the far end and grows with "
                          "each defrost.")},
          {"not-told-apart",
           OHMWRIGHT_TEXT("At {temperature} the control believes {believed}; it would end the defrost when the sensor "
                          "has about {ends_at}, set for {set}: too uncertain to tell.")},
          {"no-tolerance",
           OHMWRIGHT_TEXT("At {temperature} the control believes {believed}; it would end the defrost when the sensor "
                          "has {ends_at}, set for {set}. Not judged: the ratings state no tolerance for that.")},
          {"believed-only",
           OHMWRIGHT_TEXT("At {temperature} the control believes {believed}. Not judged: the ratings do not say at "
                          "which temperature it ends a defrost.")},
          {"never-ends",
           OHMWRIGHT_TEXT("At {temperature} the control believes {believed}; no temperature of the coil would end the "
                          "defrost.")},
          {"no-control",
           OHMWRIGHT_TEXT(
               "Not judged: the ratings say nothing of the control that reads the sensor (--control names one).")},
          {"no-reading",
           OHMWRIGHT_TEXT("Not judged: this needs a dry reading of the part alone at a known temperature.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT(
               "At {temperature} the control would believe {believed} and end the defrost when the sensor has "
               "{ends_at} instead of {set} ({late}), but it was not said whether the connector was off: "
               "another path beside the part can make it read low.")},
      }};
}

void judge_end_of_defrost(const Scene& scene) {
  const bool known = scene.ratings != nullptr && scene.ratings->control.has_value();
  if (!known || !scene.fused) {
    scene.findings.add(end_of_defrost, Outcome::silent, known ? no_reading : no_control);
    return;
  }
  const Control& control = *scene.ratings->control;
  if (!control.termination_temperature) {
    tell_belief(scene, control, scene.findings.add(end_of_defrost, Outcome::silent, believed_only));
  } else if (const std::optional<End> end = end_of(scene, control)) {
    judge_end(scene, control, *end);
  } else {
    tell_belief(scene, control, scene.findings.add(end_of_defrost, Outcome::undecided, never_ends));
  }
}

}  // namespace ohmwright::defrost_sensor
