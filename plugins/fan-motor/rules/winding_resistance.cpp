#include "rules/winding_resistance.hpp"

#include <cmath>

#include <ohmwright/component/measured.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  right_ohms,
  right_ohms_there,
  low_ohms,
  high_ohms,
  far_too_high,
  unsure,
  low_connection_unstated,
  disagreeing,
  jumping,
  no_temperature,
  no_rated_ohms,
  electronic,
  no_reading,
  only_in_circuit,
  only_live,
};

Text why_silent(const Scene& scene) {
  if (scene.is_electronic()) return electronic;
  if (scene.ratings == nullptr || !scene.ratings->winding) return no_rated_ohms;
  Text text = no_reading;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || reading.shown != Shown::value) continue;
    if (is_live(reading)) text = only_live;
    if (is_in_circuit(reading)) text = only_in_circuit;
  }
  return text;
}

bool lacks_temperature(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->winding) return false;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_ohms(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading) &&
        !is_within_leads(scene.ratings, reading))
      return true;
  return false;
}

void judge_wound(const Scene& scene) {
  const WindingOhms& wound = *scene.wound;
  const Span limits = *scene.ratings->winding_limits();
  const Measured measured =
      measure(wound.ohms, limits.lower, limits.upper, Dimension::resistance, scene.evidence, scene.settings);
  const Outcome outcome = measured.outcome;
  Text text = unsure;
  const bool there = std::abs(wound.read_kelvin - scene.ratings->reference_temperature.kelvin()) < 0.05;
  if (outcome == Outcome::within_limits) text = there && wound.count == 1 ? right_ohms_there : right_ohms;
  if (outcome == Outcome::out_of_limits) text = measured.is_low() ? low_ohms : high_ohms;
  constexpr double far_off = 10.0;  // times the upper limit: no matter of percent any more
  if (text == high_ohms && wound.ohms.value() > far_off * limits.upper) text = far_too_high;
  if (text == low_ohms && !wound.stated_off) text = low_connection_unstated;
  if (scene.readings_disagree()) text = disagreeing;
  const bool trusted = text != low_connection_unstated && text != disagreeing;
  Finding& finding = add_measured(scene.findings, winding_resistance, text, measured, trusted);
  tell(finding, "read", ohms(wound.read_ohms));
  tell(finding, "temperature", degrees(wound.read_kelvin));
  tell(finding, "reference", AnyQuantity(scene.ratings->reference_temperature));
  tell(finding, "off_percent", 100.0 * std::abs(wound.ohms.value() / scene.ratings->winding->value() - 1.0));
}

}  // namespace

RuleDescriptor describe_winding_resistance() {
  return {
      "winding-resistance",
      OHMWRIGHT_TEXT("Resistance of the winding"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "R2 = R1*(k + t2)/(k + t1), IEC 60034-1; JCGM 106:2012 (conformance probability)",
      {
          {"right-ohms",
           OHMWRIGHT_TEXT("Its {read} at {temperature} are {measured} at {reference}, and a good one has {lower} to "
                          "{upper}. That does not clear it: a few shorted turns hardly show in ohms, but in what it "
                          "draws and how it turns.")},
          {"right-ohms-there",
           OHMWRIGHT_TEXT(
               "It reads {read} at {temperature}, and a good one has {lower} to {upper} there. That does not "
               "clear it: a few shorted turns hardly show in ohms, but in what it draws and how it turns.")},
          {"low-ohms",
           OHMWRIGHT_TEXT("Its {read} at {temperature} are {measured} at {reference}, {off_percent} % less than it "
                          "should have ({lower} to {upper}): turns of its winding are shorted.")},
          {"high-ohms",
           OHMWRIGHT_TEXT("Its {read} at {temperature} are {measured} at {reference}, {off_percent} % more than it "
                          "should have ({lower} to {upper}): a bad joint, a wire half broken, or another motor.")},
          {"far-too-high",
           OHMWRIGHT_TEXT("Its {read} at {temperature} are as good as open, where a good one has {lower} to {upper} at "
                          "{reference}; or a k or an M too much was read.")},
          {"unsure",
           OHMWRIGHT_TEXT("Its {read} at {temperature} are {measured} at {reference}, and a good one has {lower} to "
                          "{upper}: too near to an end to tell.")},
          {"low-connection-unstated",
           OHMWRIGHT_TEXT(
               "Its {read} at {temperature} are {measured} at {reference}, below the {lower} to {upper} of a "
               "good one, but it was not said whether its plug was off: another path may lie beside it.")},
          {"disagreeing", OHMWRIGHT_TEXT("The readings do not agree with each other, so together they prove nothing.")},
          {"jumping",
           OHMWRIGHT_TEXT("The repeated readings jump by about {scatter_percent} %, so their mean says nothing: a "
                          "contact comes and goes, at the probes, in a lead or in the winding.")},
          {"no-temperature",
           OHMWRIGHT_TEXT(
               "The temperature of the winding was not given, and copper changes by 4 % in ten kelvin: no ohms "
               "are right or wrong without it.")},
          {"no-rated-ohms", OHMWRIGHT_TEXT("Not judged: which ohms its winding should have is not known.")},
          {"electronic", OHMWRIGHT_TEXT("Not judged: an electronically commutated motor is never judged by ohms.")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: its winding was not read.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: it was read in circuit only, where other paths lie beside it.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
      }};
}

void judge_winding_resistance(const Scene& scene) {
  if (scene.jumping > 0.0 && !scene.is_electronic()) {
    Finding& finding = scene.findings.add(winding_resistance, Outcome::undecided, jumping);
    finding.holds_back = true;
    tell(finding, "scatter_percent", std::round(100.0 * scene.jumping));
  } else if (scene.wound)
    judge_wound(scene);
  else if (lacks_temperature(scene))
    scene.findings.add(winding_resistance, Outcome::undecided, no_temperature);
  else
    scene.findings.add(winding_resistance, Outcome::silent, why_silent(scene));
}

}  // namespace ohmwright::fan_motor
