#include "rules/capacitor.hpp"

#include <numbers>

#include <ohmwright/component/measured.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  right_farads,
  too_few,
  too_many,
  unsure,
  no_frequency,
  no_volts,
  no_rated_farads,
  not_read,
  read_in_circuit,
  wrong_connection_unstated,
  past_range,
};

/// Capacitance with what it was made from.
struct Farads {
  std::optional<Estimate> farads;
  Text why_not = not_read;
  Connection connection = Connection::lead_off;  ///< by its current: alone as well
};

/// The last that a meter showed of it, dead and so connected; past the range of the meter as well. Null: none.
const PreparedReading* last_by_meter(const Scene& scene, Connection connection) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.measurand == capacitance && reading.connection == connection && !is_live(reading)) last = &reading;
  return last;
}

std::optional<Estimate> line_frequency(const Scene& scene, const PreparedReading& reading) {
  if (const Estimate* stated = reading.condition(frequency)) return *stated;
  if (scene.ratings != nullptr && scene.ratings->frequency) return Estimate(scene.ratings->frequency->value());
  return std::nullopt;
}

Farads by_meter(const PreparedReading& read) {
  if (shows_more_than_range(read)) return {std::nullopt, past_range, read.connection};
  if (read.shown != Shown::value) return {};
  return {read.value, not_read, read.connection};
}

/// C = I/(2π·f·V) of its current and volts while it runs.
Farads by_its_current(const Scene& scene) {
  const PreparedReading* drawn = last_value(scene.evidence, capacitor_current);
  if (drawn == nullptr || !is_live(*drawn)) return {};
  const Estimate* across = drawn->condition(capacitor_voltage);
  if (across == nullptr || !(across->value() > 0.0)) return {std::nullopt, no_volts};
  const std::optional<Estimate> hertz = line_frequency(scene, *drawn);
  if (!hertz || !(hertz->value() > 0.0)) return {std::nullopt, no_frequency};
  Estimate farads;
  farads.add_scaled(drawn->value, 1.0 / (2.0 * std::numbers::pi * hertz->value() * across->value()));
  const double value = farads.value();
  farads.add_uncertainty(*across, -value / across->value());
  farads.add_uncertainty(*hertz, -value / hertz->value());
  return {farads, not_read};
}

/// Read alone by a meter; else by its current; else by a meter with what lies across it.
Farads capacitance_of(const Scene& scene) {
  if (const PreparedReading* alone = last_by_meter(scene, Connection::lead_off)) return by_meter(*alone);
  const Farads running = by_its_current(scene);
  if (running.farads || running.why_not != not_read) return running;
  for (const Connection connection : {Connection::unstated, Connection::in_circuit})
    if (const PreparedReading* read = last_by_meter(scene, connection)) return by_meter(*read);
  return running;
}

}  // namespace

RuleDescriptor describe_capacitor() {
  return {
      "capacitor",
      OHMWRIGHT_TEXT("Its capacitor"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "C = I/(2*pi*f*V); tolerance as printed on it (IEC 60252-1), 6 % where none is stated: common practice, no "
      "source",
      {
          {"right-farads", OHMWRIGHT_TEXT("The capacitor has {measured}; a good one has {lower} to {upper}.")},
          {"too-few",
           OHMWRIGHT_TEXT(
               "The capacitor has {measured}; a good one has {lower} to {upper}. It has aged: the motor starts "
               "hard, runs slow and gets hot. The capacitor, not the motor, is to be replaced.")},
          {"too-many",
           OHMWRIGHT_TEXT(
               "The capacitor has {measured}; a good one has {lower} to {upper}: it is another capacitor, or "
               "something lies beside it.")},
          {"unsure",
           OHMWRIGHT_TEXT("The capacitor has {measured}; a good one has {lower} to {upper}: with these instruments too "
                          "near to an end to tell.")},
          {"no-frequency",
           OHMWRIGHT_TEXT(
               "The current through the capacitor means nothing without the frequency (--hz), which the ratings "
               "do not state.")},
          {"no-volts", OHMWRIGHT_TEXT("The current through the capacitor means nothing without the volts across it "
                                      "(--across).")},
          {"no-rated-farads", OHMWRIGHT_TEXT("Not judged: which capacitance it should have is not known.")},
          {"not-read", OHMWRIGHT_TEXT("Not judged: its capacitor was not read.")},
          {"read-in-circuit",
           OHMWRIGHT_TEXT(
               "In circuit it reads {measured}, where a good capacitor has {lower} to {upper}; but a winding "
               "lies across it, so that neither clears nor condemns it.")},
          {"connection-unstated",
           OHMWRIGHT_TEXT(
               "It reads {measured}, where a good capacitor has {lower} to {upper}; but that a lead of it was "
               "off was not said, and a winding across it makes a good one read wrong.")},
          {"past-range",
           OHMWRIGHT_TEXT(
               "Across the capacitor the meter shows OL, more than {range}. Many show so where it is shorted, or "
               "still charged, or of more than the range: that alone condemns none.")},
      }};
}

namespace {

/// Against the rated capacitance, which has to be known.
Measured measured_capacitor(const Scene& scene, const Estimate& farads) {
  const double rated = scene.ratings->capacitance->value();
  const double tolerance = scene.ratings->capacitance_tolerance;
  return measure(farads, rated * (1.0 - tolerance), rated * (1.0 + tolerance), Dimension::capacitance, scene.evidence,
                 scene.settings);
}

}  // namespace

namespace {

void say_past_range(const Scene& scene, Connection connection) {
  Finding& finding = scene.findings.add(capacitor, Outcome::undecided, past_range);
  finding.holds_back = true;
  tell(finding, "range", AnyQuantity(Dimension::capacitance, last_by_meter(scene, connection)->range_full_scale));
}

}  // namespace

bool may_be_its_capacitor(const Scene& scene) {
  if (scene.ratings == nullptr || scene.ratings->construction != Construction::capacitor_run) return false;
  const Farads read = capacitance_of(scene);
  if (!read.farads || read.connection == Connection::in_circuit) return true;
  if (!scene.ratings->capacitance) return false;  // nobody can say more of it
  return measured_capacitor(scene, *read.farads).outcome != Outcome::within_limits;
}

void judge_capacitor(const Scene& scene) {
  const Farads read = capacitance_of(scene);
  if (read.why_not == past_range) {
    say_past_range(scene, read.connection);
    return;
  }
  if (!read.farads) {
    scene.findings.add(capacitor, read.why_not == not_read ? Outcome::silent : Outcome::undecided, read.why_not);
    return;
  }
  if (scene.ratings == nullptr || !scene.ratings->capacitance) {
    scene.findings.add(capacitor, Outcome::silent, no_rated_farads);
    return;
  }
  const Measured farads = measured_capacitor(scene, *read.farads);
  Text text = unsure;
  if (farads.outcome == Outcome::within_limits) text = right_farads;
  if (farads.outcome == Outcome::out_of_limits) text = farads.is_low() ? too_few : too_many;
  const bool wrong = farads.outcome != Outcome::within_limits;
  if (wrong && read.connection == Connection::unstated) text = wrong_connection_unstated;
  if (read.connection == Connection::in_circuit) text = read_in_circuit;
  const bool settled = text != wrong_connection_unstated && text != read_in_circuit;
  Finding& finding = add_measured(scene.findings, capacitor, text, farads, settled);
  if (!settled) finding.holds_back = wrong;
}

bool is_to_be_read_alone(const Scene& scene) {
  return scene.findings.has_text(capacitor, read_in_circuit) ||
         scene.findings.has_text(capacitor, wrong_connection_unstated);
}

bool shows_past_its_range(const Scene& scene) { return scene.findings.has_text(capacitor, past_range); }

}  // namespace ohmwright::fan_motor
