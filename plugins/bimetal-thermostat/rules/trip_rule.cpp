#include "rules/trip_rule.hpp"

#include <algorithm>

namespace ohmwright::bimetal_thermostat {

namespace {

TripText text_for(const TripSeries& series, const TripJudgement& judgement) {
  const bool scatter = series.passages().scatter();
  if (judgement.coarse && judgement.outcome == Outcome::undecided && !scatter) return tripped_somewhere;
  if (scatter) return tripped_scattering;
  if (series.count() > 1) return tripped_often;
  return series.lag_subtracted() ? tripped_with_lag : tripped_once;
}

void tell_series(const TripSeries& series, Finding& finding) {
  if (finding.text == tripped_often || finding.text == tripped_scattering) {
    tell(finding, "count", static_cast<double>(series.count()));
    tell(finding, "mean", degrees(series.passages().mean()));
    tell(finding, "deviation", kelvins(series.passages().standard_deviation()));
  } else {
    tell(finding, "before", degrees(series.last().before.kelvin));
    tell(finding, "after", degrees(series.last().after.kelvin));
    tell(finding, "lag", kelvins(series.largest_lag()));
  }
  tell(finding, "from", degrees(series.passages().from()));
  tell(finding, "to", degrees(series.passages().to()));
}

}  // namespace

bool link_is_unread(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->link_has_own_leads()) return false;
  const auto readings = scene.evidence.readings();
  return std::none_of(readings.begin(), readings.end(), [](const PreparedReading& reading) {
    return reading.measurand == link_state && !is_live(reading) && is_lead_off(reading) &&
           contact_seen(reading) == ContactSeen::closed;
  });
}

bool refuse_passages(const Scene& scene, RuleIndex rule, const TripSeries& series) {
  if (series.by_itself() > 0) {
    const Passage& passage = series.last_by_itself();
    Finding& finding = scene.findings.add(rule, Outcome::silent, tripped_by_itself);
    tell(finding, "before", degrees(passage.before.kelvin));
    tell(finding, "after", degrees(passage.after.kelvin));
    return true;
  }
  const bool backwards = series.backwards() > 0;
  if (!backwards && (series.count() > 0 || series.far_apart() == 0)) return false;
  const Passage& passage = backwards ? series.last_backwards() : series.last_far_apart();
  Finding& finding = scene.findings.add(rule, Outcome::undecided, backwards ? tripped_backwards : tripped_far_apart);
  tell(finding, "before", degrees(passage.before.kelvin));
  tell(finding, "after", degrees(passage.after.kelvin));
  return true;
}

void stay_silent_on_trip(const Scene& scene, RuleIndex rule) {
  bool alone = false;
  bool in_the_circuit = false;
  bool with_temperature = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != contact_state || is_live(reading)) continue;
    in_the_circuit = in_the_circuit || is_in_circuit(reading);
    alone = alone || is_of_contact_alone(reading);
    with_temperature = with_temperature || reading.condition(part_temperature) != nullptr;
  }
  TripText text = trip_not_seen;
  if (alone && !with_temperature) text = trip_without_temperature;
  if (!alone && in_the_circuit) text = trip_only_in_circuit;
  if (scene.ratings == nullptr) text = trip_without_ratings;
  scene.findings.add(rule, Outcome::silent, text);
}

void judge_trip_point(const Scene& scene, RuleIndex rule, const TripSeries& series, const TripPoint& trip) {
  const double lower = trip.lowest().kelvin();
  const double upper = trip.highest().kelvin();
  TripJudgement judgement = judge_bracketed(scene, series.bracketed(), lower, upper);
  TripText text = text_for(series, judgement);
  if (!scene.ratings->promises_trip_points() && judgement.outcome != Outcome::within_limits) {
    if (judgement.outcome == Outcome::out_of_limits) text = tripped_as_type_1;
    judgement.outcome = Outcome::undecided;
    judgement.may_be_joined = false;
  }
  Finding& finding = scene.findings.add(rule, judgement.outcome, text);
  fill_finding(finding, judgement, lower, upper, degrees);
  tell(finding, "trip", *finding.measured);
  tell(finding, "uncertainty", kelvins(*finding.measured_uncertainty));
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  tell_series(series, finding);
}

}  // namespace ohmwright::bimetal_thermostat
