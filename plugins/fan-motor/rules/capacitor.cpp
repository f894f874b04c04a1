#include "rules/capacitor.hpp"

#include <numbers>

#include <ohmwright/component/measured.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex { right_farads, too_few, too_many, unsure, no_frequency, no_volts, no_rated_farads, not_read };

/// Capacitance with what it was made from.
struct Farads {
  std::optional<Estimate> farads;
  Text why_not = not_read;
};

std::optional<Estimate> line_frequency(const Scene& scene, const PreparedReading& reading) {
  if (const Estimate* stated = reading.condition(frequency)) return *stated;
  if (scene.ratings != nullptr && scene.ratings->frequency) return Estimate(scene.ratings->frequency->value());
  return std::nullopt;
}

/// Read by a meter; else C = I/(2π·f·V) of its current and volts while it runs.
Farads capacitance_of(const Scene& scene) {
  if (const PreparedReading* read = last_value(scene.evidence, capacitance); read != nullptr && !is_live(*read))
    return {read->value, not_read};
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

bool may_be_its_capacitor(const Scene& scene) {
  if (scene.ratings == nullptr || scene.ratings->construction != Construction::capacitor_run) return false;
  const Farads read = capacitance_of(scene);
  if (!read.farads) return true;
  if (!scene.ratings->capacitance) return false;  // nobody can say more of it
  return measured_capacitor(scene, *read.farads).outcome != Outcome::within_limits;
}

void judge_capacitor(const Scene& scene) {
  const Farads read = capacitance_of(scene);
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
  add_measured(scene.findings, capacitor, text, farads);
}

}  // namespace ohmwright::fan_motor
