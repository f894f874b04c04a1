#include "rules/volts_at_board.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  mains_on_it,
  seen_from_board,
  with_self_heating,
  open_across,
  short_across,
  no_control,
  no_live_volts
};

/// Input resistance of a voltmeter (common practice, no source): it lies across the sensor.
constexpr double meter_ohms = 10e6;

/// What may be touched without danger (IEC 60335-1 names 34 V, from memory); no control's input carries more.
constexpr double most_touchable_volts = 34.0;

const PreparedReading* live_volts(const Scene& scene) {
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.measurand == voltage && is_live(reading) && reading.shown == Shown::value) return &reading;
  return nullptr;
}

/// The sensor without the meter beside it; nothing where the meter alone would explain the voltage.
std::optional<Resistance> without_meter(Resistance loaded) {
  const double conductance = 1.0 / loaded.value() - 1.0 / meter_ohms;
  return conductance > 0.0 ? std::optional(Resistance::from_value(1.0 / conductance)) : std::nullopt;
}

/// Standard uncertainty of R = Rp·x/(1 − x) [ohm]: dR/dx = Rp/(1 − x)² = (R + Rp)²/Rp, x the share of the reference
/// voltage at the sensor; of the voltmeter alone, the board's own figures taken as they stand (GUM 5.1).
double doubt_of_resistance(const Control& control, const PreparedReading& reading, Resistance loaded) {
  const double both = loaded.value() + control.pull_up.value();
  const double of_share = reading.value.standard_uncertainty() / control.reference_voltage->value();
  return both * both / control.pull_up.value() * of_share;
}

bool control_is_known(const Scene& scene) {
  return scene.ratings != nullptr && scene.ratings->control && scene.ratings->control->reference_voltage;
}

}  // namespace

RuleDescriptor describe_volts_at_board() {
  return {"volts-at-board",
          OHMWRIGHT_TEXT("Volts at the control's input"),
          false,
          can_be_undecided,
          "divider with the meter's 10 Mohm across the sensor; dissipation factor of IEC 60539-1 (from memory)",
          {
              {"mains-on-it",
               OHMWRIGHT_TEXT(
                   "STOP: {volts} between sensor wires is dangerous and no control's own voltage. Take the probes "
                   "off, cut the supply at the wall, and trace the harness before anybody touches it.")},
              {"seen-from-board",
               OHMWRIGHT_TEXT("{volts} across the sensor means {resistance} ± {doubt}, which its curve calls "
                              "{believed}. The meter's own 10 MΩ made it seem {meter_load} warmer. This shows what the "
                              "board sees; it does not "
                              "clear the part.")},
              {"with-self-heating",
               OHMWRIGHT_TEXT("{volts} across the sensor means {resistance} ± {doubt}, which its curve calls "
                              "{believed}. The meter's own 10 MΩ made it seem {meter_load} warmer, and its own current "
                              "warms it by {self_heating}. "
                              "This shows what the board sees; it does not clear the part.")},
              {"open-across",
               OHMWRIGHT_TEXT("{volts} across the sensor is all of the {reference} that the board gives: nothing flows "
                              "through it. It or its lead is open, or the ratings name another board's voltage. "
                              "Unplug, prove dead and read the ohms.")},
              {"short-across",
               OHMWRIGHT_TEXT("{volts} across the sensor is nothing of the {reference} that the board gives: it or its "
                              "lead is shorted, or the board feeds nothing. Unplug, prove dead and read the ohms.")},
              {"no-control",
               OHMWRIGHT_TEXT("Not judged: pull-up and reference voltage of the control are not in the ratings.")},
              {"no-live-volts", OHMWRIGHT_TEXT("Not judged: no voltage was read at the control's input.")},
          }};
}

bool volts_lack_the_control(const Scene& scene) { return live_volts(scene) != nullptr && !control_is_known(scene); }

void judge_volts_at_board(const Scene& scene) {
  const PreparedReading* reading = live_volts(scene);
  if (reading != nullptr && std::abs(reading->displayed) > most_touchable_volts) {
    Finding& finding = scene.findings.add(volts_at_board, Outcome::undecided, mains_on_it);
    finding.holds_back = true;
    tell(finding, "volts", AnyQuantity(Dimension::voltage, reading->displayed));
    return;
  }
  if (reading == nullptr || !control_is_known(scene)) {
    scene.findings.add(volts_at_board, Outcome::silent, reading == nullptr ? no_live_volts : no_control);
    return;
  }
  const Control& control = *scene.ratings->control;
  const double volts = std::abs(reading->value.value());  // a minus is no more than swapped probes
  // The voltage is read across the sensor, whichever end of the supply it is wired to.
  const double share = volts / control.reference_voltage->value();
  const double at_input = control.sensor_to == Control::SensorTo::ground ? share : 1.0 - share;
  const std::optional<Resistance> loaded = control.resistance_at(at_input);
  const std::optional<Resistance> r = loaded ? without_meter(*loaded) : std::nullopt;
  const Curve& curve = *scene.ratings->curve;
  const std::optional<Temperature> believed = r ? curve.temperature(*r) : std::nullopt;
  const std::optional<Temperature> seen = loaded ? curve.temperature(*loaded) : std::nullopt;
  Finding& finding = scene.findings.add(volts_at_board, Outcome::undecided, share > 0.5 ? open_across : short_across);
  tell(finding, "volts", AnyQuantity(Dimension::voltage, volts));
  if (!believed || !seen) {
    tell(finding, "reference", AnyQuantity(*control.reference_voltage));
    return;
  }
  finding.text = seen_from_board;
  finding.measured = AnyQuantity(*r);
  finding.measured_uncertainty = doubt_of_resistance(control, *reading, *loaded) * (*r / *loaded) * (*r / *loaded);
  tell(finding, "resistance", AnyQuantity(*r));
  tell(finding, "doubt", ohms(2.0 * *finding.measured_uncertainty));
  tell(finding, "believed", AnyQuantity(*believed));
  tell(finding, "meter_load", AnyQuantity(*seen - *believed));
  if (!scene.ratings->watts_per_kelvin) return;
  finding.text = with_self_heating;
  tell(finding, "self_heating", kelvins(volts * volts / r->value() / *scene.ratings->watts_per_kelvin));
}

}  // namespace ohmwright::defrost_sensor
