#include "rules/element_resistance.hpp"

#include <cmath>

#include <ohmwright/component/measured.hpp>

#include "rules/element_resistance_texts.hpp"

namespace ohmwright::heater {

namespace {

using Text = ElementResistanceText;

/// Past this many times its upper limit it is no matter of percent any more.
constexpr double far_off = 10.0;
/// How far twice the limits of the pair may be missed by an element that is left alone.
constexpr double doubled_slack = 0.03;

Text why_silent(const Scene& scene) {
  if (scene.ratings == nullptr) return no_ratings;
  Text text = no_reading;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (text == no_reading && (reading.measurand == current || reading.measurand == power)) text = load_leaves_open;
    if (!is_ohms(reading) || reading.shown != Shown::value) continue;
    if (is_live(reading))
      text = only_live;
    else if (is_in_circuit(reading))
      text = only_in_circuit;
  }
  return text;
}

bool is_one_of_two(const Scene& scene) {
  const double measured = scene.cold->ohms.value();
  return scene.ratings->elements == 2 && measured >= (1.0 - doubled_slack) * 2.0 * scene.cold->limits.lower &&
         measured <= (1.0 + doubled_slack) * 2.0 * scene.cold->limits.upper;
}

Text cold_text(const Scene& scene, Outcome outcome) {
  const ColdOhms& cold = *scene.cold;
  const bool high = cold.ohms.value() > cold.limits.upper;
  if (outcome == Outcome::out_of_limits && high && is_one_of_two(scene)) return cold_one_of_two;
  if (outcome == Outcome::out_of_limits && !high && !cold.stated_off) return low_connection_unstated;
  if (cold.read_at) {
    if (outcome == Outcome::within_limits) return brought_within;
    if (outcome == Outcome::undecided) return brought_unsure;
    return high ? brought_high : brought_low;
  }
  if (outcome == Outcome::within_limits) return cold.stated_off ? cold_within : connection_unstated;
  if (outcome == Outcome::undecided) return cold_unsure;
  if (high && cold.ohms.value() > far_off * cold.limits.upper) return cold_far_high;
  return high ? cold_high : cold_low;
}

void tell_cold(const Scene& scene, Finding& finding) {
  const ColdOhms& cold = *scene.cold;
  tell(finding, "nominal", ohms(cold.limits.nominal));
  if (cold.read_at) {
    tell(finding, "read_at", AnyQuantity(Dimension::temperature, *cold.read_at));
    tell(finding, "reference", AnyQuantity(Temperature::from_celsius(20.0)));
  }
  tell(finding, "off_percent", 100.0 * std::abs(cold.ohms.value() / cold.limits.nominal - 1.0));
}

void judge_cold(const Scene& scene) {
  const ColdOhms& cold = *scene.cold;
  const Text seen = cold_text(scene, cold.outcome);
  const Text text = scene.readings_disagree() ? disagreeing : seen;
  const Measured measured{cold.ohms, cold.limits.lower, cold.limits.upper, Dimension::resistance, cold.p, cold.outcome};
  // What cannot be trusted must not enter the joint probability.
  const bool trusted = !scene.readings_disagree() && seen != low_connection_unstated;
  tell_cold(scene, add_measured(scene.findings, element_resistance, text, measured, trusted));
}

/// What the wire has when it is hot, by what it draws [ohm].
double hot_ohms(const Scene& scene) {
  const double volt = scene.ratings->voltage->value();
  return volt * volt / scene.load->rated_power.value();
}

Text load_text(const Scene& scene) {
  const Load& load = *scene.load;
  if (load.outcome == Outcome::undecided) return by_load_unsure;
  if (load.outcome == Outcome::out_of_limits) return load.too_much() ? by_load_high : by_load_low;
  return scene.witness == Witness::load_over_low ? by_load_gains_more : by_load_within;
}

void judge_by_load(const Scene& scene) {
  const Load& load = *scene.load;
  const Measured measured{load.rated_power, load.lower, load.upper, Dimension::power, load.p, load.outcome};
  Finding& finding = add_measured(scene.findings, element_resistance, load_text(scene), measured);
  tell(finding, "voltage", AnyQuantity(*scene.ratings->voltage));
  tell(finding, "hot", ohms(hot_ohms(scene)));
  if (scene.cold) tell(finding, "cold", ohms(scene.cold->ohms.value()));
}

void say_contradiction(const Scene& scene) {
  Finding& finding = scene.findings.add(element_resistance, Outcome::undecided, contradicting);
  tell(finding, "cold", ohms(scene.cold->ohms.value()));
  tell(finding, "hot", ohms(hot_ohms(scene)));
  tell(finding, "lower", ohms(scene.cold->limits.lower));
  tell(finding, "upper", ohms(scene.cold->limits.upper));
}

}  // namespace

void judge_element_resistance(const Scene& scene) {
  if (scene.jumping > 0.0) {
    Finding& finding = scene.findings.add(element_resistance, Outcome::undecided, jumping);
    finding.holds_back = true;
    tell(finding, "scatter_percent", std::round(100.0 * scene.jumping));
    return;
  }
  switch (scene.witness) {
    case Witness::none:
      scene.findings.add(element_resistance, Outcome::silent, why_silent(scene));
      break;
    case Witness::cold:
      judge_cold(scene);
      break;
    case Witness::load:
    case Witness::load_over_low:
      judge_by_load(scene);
      break;
    case Witness::contradiction:
      say_contradiction(scene);
      break;
  }
}

}  // namespace ohmwright::heater
