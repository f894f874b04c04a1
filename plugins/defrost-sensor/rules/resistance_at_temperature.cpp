#include "rules/resistance_at_temperature.hpp"

#include <algorithm>

#include <ohmwright/verdict/decision.hpp>

#include "rules/moisture_leakage.hpp"
#include "rules/slope.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  one_reading_high,
  one_reading_low,
  high_connection_unstated,
  low_within_connection_unstated,
  several_readings,
  low_connection_unstated,
  disagreeing,
  no_ratings,
  no_reading,
  no_temperature,
  outside_curve,
  only_in_circuit,
  only_wet,
  only_live,
  one_alone_condemns,
  only_jumping,
  far_low,
  far_high,
  several_connection_unstated,
  range_tells_nothing,
  temperatures_contradict,
  wet_contradicts_dry,
};

/// A part that reads beyond this factor has not drifted: it is as good as open or shorted, or the reading lost its k
/// (common practice, no source).
constexpr double far_off = 10.0;

/// Why no reading can be judged: what the readings lack, the least of it first.
Text why_silent(const Scene& scene) {
  bool live = false;
  bool wet = false;
  bool circuit = false;
  bool cold = false;
  bool outside = false;
  bool jumping = false;
  bool coarse = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_ohms(reading) || reading.shown != Shown::value || is_within_leads(reading)) continue;
    if (is_live(reading))
      live = true;
    else if (is_in_circuit(reading))
      circuit = true;
    else if (is_wet(reading))
      wet = true;
    else if (repeats_jump(scene.evidence, reading))
      jumping = true;
    else if (range_hides_a_short(reading))
      coarse = true;
    else if (reading.condition(part_temperature) == nullptr)
      cold = true;
    else
      outside = true;
  }
  if (jumping) return only_jumping;
  if (outside) return outside_curve;
  if (coarse) return range_tells_nothing;
  if (cold) return no_temperature;
  if (wet) return only_wet;
  if (circuit) return only_in_circuit;
  return live ? only_live : no_reading;
}

/// How far the curve reaches, and the temperature that is past it.
void tell_reach(const Scene& scene, Finding& finding) {
  const TemperatureSpan reach = scene.ratings->curve->domain();
  tell(finding, "from", AnyQuantity(reach.from));
  tell(finding, "to", AnyQuantity(reach.to));
  std::optional<Temperature> stated;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    const Estimate* at = reading.condition(part_temperature);
    if (!is_ohms(reading) || at == nullptr) continue;
    const Temperature temperature = Temperature::from_kelvin(at->value());
    if (!stated || !reach.contains(temperature)) stated = temperature;
  }
  if (stated) tell(finding, "temperature", AnyQuantity(*stated));
}

void describe_one(const Scene& scene, const Deviation& deviation, Finding& finding) {
  const PreparedReading& reading = *deviation.reading;
  const double nominal = std::exp(deviation.log_nominal);
  const double off_percent = percent(deviation.shown_log());
  finding.measured = ohms(reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  finding.limits.lower = ohms(nominal * std::exp(deviation.limits.lower));
  finding.limits.upper = ohms(nominal * std::exp(deviation.limits.upper));
  tell(finding, "measured", *finding.measured);
  tell(finding, "temperature", AnyQuantity(deviation.temperature));
  tell(finding, "nominal", ohms(nominal));
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
  tell(finding, "deviation_percent", off_percent);
  tell(finding, "off_percent", std::abs(off_percent));
  tell(finding, "believed", AnyQuantity(deviation.temperature + deviation.kelvin(*scene.ratings->curve)));
  const bool high = deviation.shown_log() >= 0.0;
  if (scene.connection_unstated)
    finding.text = high ? high_connection_unstated : low_within_connection_unstated;
  else
    finding.text = high ? one_reading_high : one_reading_low;
  if (std::abs(deviation.shown_log()) > std::log(far_off)) finding.text = high ? far_high : far_low;
}

void describe_several(const Scene& scene, Finding& finding) {
  const Fusion& fused = *scene.fused;
  finding.measured = AnyQuantity(Dimension::ratio, std::exp(fused.log.value()));
  finding.measured_uncertainty = std::exp(fused.log.value()) * fused.log.standard_uncertainty();
  finding.limits.lower = AnyQuantity(Dimension::ratio, std::exp(fused.limits.lower));
  finding.limits.upper = AnyQuantity(Dimension::ratio, std::exp(fused.limits.upper));
  tell(finding, "count", static_cast<double>(scene.usable.size()));
  tell(finding, "deviation_percent", percent(fused.log.value()));
  tell(finding, "lower_percent", percent(fused.limits.lower));
  tell(finding, "upper_percent", percent(fused.limits.upper));
  if (scene.connection_unstated) finding.text = several_connection_unstated;
}

/// Among several readings that pass together, one that would condemn the part by itself, or null. Fusing takes the part
/// to be off by one share at all temperatures; where a slope that is off hides in the mean, this shows it.
const Deviation* condemned_alone(const Scene& scene) {
  if (scene.usable.size() < 2) return nullptr;
  const auto sources = scene.evidence.sources();
  const auto found = std::find_if(scene.usable.begin(), scene.usable.end(), [&](const Deviation& deviation) {
    const Conformance alone = conformance_of(deviation.log, sources, deviation.limits.lower, deviation.limits.upper);
    return decide(alone, scene.settings.confidence) == Outcome::out_of_limits;
  });
  return found == scene.usable.end() ? nullptr : &*found;
}

}  // namespace

RuleDescriptor describe_resistance_at_temperature() {
  return {
      "resistance-at-temperature",
      OHMWRIGHT_TEXT("Resistance at its temperature"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "JCGM 106:2012 (conformance probability); curve and tolerance as the ratings state them",
      {
          {"one-reading-high",
           OHMWRIGHT_TEXT(
               "At {temperature} a good part reads {lower} to {upper}, {nominal} by its curve. This one reads "
               "{measured}, {off_percent} % high: what a good one reads at {believed}.")},
          {"one-reading-low",
           OHMWRIGHT_TEXT(
               "At {temperature} a good part reads {lower} to {upper}, {nominal} by its curve. This one reads "
               "{measured}, {off_percent} % low: what a good one reads at {believed}.")},
          {"one-reading-high-connection-unstated",
           OHMWRIGHT_TEXT(
               "At {temperature} a good part reads {lower} to {upper}, {nominal} by its curve. This one reads "
               "{measured}, {off_percent} % high: what a good one reads at {believed}. Without --lead-off "
               "something may still have been connected: a path beside it can only have lowered the reading, a "
               "charged capacitor or a powered board could have raised it (--proved-dead rules that out).")},
          {"one-reading-low-connection-unstated",
           OHMWRIGHT_TEXT(
               "At {temperature} a good part reads {lower} to {upper}, {nominal} by its curve. This one reads "
               "{measured}, {off_percent} % low: what a good one reads at {believed}. Without --lead-off "
               "something may still have been connected; that can only have lowered the reading.")},
          {"several-readings",
           OHMWRIGHT_TEXT("Its {count} readings together put the part {deviation_percent} % from its curve; a good one "
                          "lies between {lower_percent} % and {upper_percent} %.")},
          {"low-connection-unstated",
           OHMWRIGHT_TEXT(
               "It reads {deviation_percent} % from its curve, below the limits, but it was not said whether "
               "its connector was off. Still connected, another path beside it can make it read low.")},
          {"disagreeing", OHMWRIGHT_TEXT("The readings do not agree with each other, so together they prove nothing.")},
          {"no-ratings", OHMWRIGHT_TEXT("Nothing is known of this part's curve, so only open and short can be told: "
                                        "name its ratings, or a file with its chart.")},
          {"no-reading", OHMWRIGHT_TEXT("Not judged: no resistance of the part was read.")},
          {"no-temperature",
           OHMWRIGHT_TEXT("Not judged: the temperature of the part was not given, and without it no resistance is "
                          "right or wrong.")},
          {"outside-curve", OHMWRIGHT_TEXT("Not judged: its curve reaches from {from} to {to}, and {temperature} was "
                                           "stated. Look at its decimal point and unit.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: the part was read in circuit only, where other paths lie beside it.")},
          {"only-wet", OHMWRIGHT_TEXT("Not judged: the part was read wet only, and water can lower the reading.")},
          {"only-live",
           OHMWRIGHT_TEXT("Not judged: ohms read on a live circuit mean nothing. Unplug, prove dead, read again.")},
          {"one-alone-condemns",
           OHMWRIGHT_TEXT("Its {count} readings together put the part {deviation_percent} % from its curve, within "
                          "{lower_percent} % to {upper_percent} %, but reading {number} alone would condemn it. Read "
                          "again at that temperature.")},
          {"only-jumping",
           OHMWRIGHT_TEXT("Not judged: the repeated readings jump, and their mean is no value of the part.")},
          {"far-low",
           OHMWRIGHT_TEXT(
               "At {temperature} a good part reads {lower} to {upper}. This one reads {measured}: as good as "
               "shorted, or a k was lost in the typing.")},
          {"far-high",
           OHMWRIGHT_TEXT(
               "At {temperature} a good part reads {lower} to {upper}. This one reads {measured}: as good as "
               "open, or a k or an M too much was typed.")},
          {"several-readings-connection-unstated",
           OHMWRIGHT_TEXT("Its {count} readings together put the part {deviation_percent} % from its curve; a good one "
                          "lies between {lower_percent} % and {upper_percent} %. Without --lead-off something may "
                          "still have been connected: a path beside it can only have lowered a reading, a charged "
                          "capacitor or a powered board could have raised it (--proved-dead rules that out).")},
          {"range-tells-nothing",
           OHMWRIGHT_TEXT("Not judged: on the range it was read on, the meter may be off by more than it shows.")},
          {"temperatures-contradict",
           OHMWRIGHT_TEXT(
               "Its readings and their temperatures contradict each other, so together they prove nothing.")},
          {"wet-contradicts-dry",
           OHMWRIGHT_TEXT(
               "Dry it reads lower than wet, which cannot be: one of the two readings is wrong, and which of "
               "them is not known.")},
      }};
}

void judge_resistance_at_temperature(const Scene& scene) {
  if (!scene.fused) {
    const Text text = scene.ratings == nullptr ? no_ratings : why_silent(scene);
    Finding& finding = scene.findings.add(resistance_at_temperature, Outcome::silent, text);
    if (text == outside_curve) tell_reach(scene, finding);
    return;
  }
  const Fusion& fused = *scene.fused;
  const Conformance p = conformance_of(fused.log, scene.evidence.sources(), fused.limits.lower, fused.limits.upper);
  Finding& finding =
      scene.findings.add(resistance_at_temperature, decide(p, scene.settings.confidence), several_readings);
  finding.meaning = ProbabilityMeaning::within_limits;
  finding.probability = p.within;
  if (scene.usable.size() == 1) {
    describe_one(scene, scene.usable[0], finding);
  } else {
    describe_several(scene, finding);
  }
  const Deviation* condemning = finding.outcome == Outcome::within_limits ? condemned_alone(scene) : nullptr;
  const bool low = finding.outcome == Outcome::out_of_limits && fused.log.value() < fused.limits.lower;
  if (scene.readings_disagree()) {
    finding.text = disagreeing;
  } else if (condemning != nullptr) {
    finding.text = one_alone_condemns;
    tell(finding, "number", condemning->reading->reading + 1.0);
  } else if (finding.outcome == Outcome::out_of_limits && impossible_slope(scene)) {
    finding.text = temperatures_contradict;
  } else if (finding.outcome == Outcome::out_of_limits && reads_higher_when_wet(scene)) {
    finding.text = wet_contradicts_dry;
  } else if (low && scene.connection_unstated) {
    finding.text = low_connection_unstated;
  } else {
    finding.judged = fused.log;
    finding.judged_lower = fused.limits.lower;
    finding.judged_upper = fused.limits.upper;
    return;
  }
  finding.outcome = Outcome::undecided;  // and no `judged`: what cannot be trusted must not enter the joint probability
}

}  // namespace ohmwright::defrost_sensor
