#include "rules/output.hpp"

#include <limits>

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  full_volts,
  no_volts,
  off_in_run,
  on_in_run,
  lossy,
  lossy_in_run,
  ghost_or_on,
  ghost_in_run,
  position_unstated,
  not_read,
  no_line,
  not_live,
};

constexpr double infinity = std::numeric_limits<double>::infinity();

/// The last reading at a position, or null.
const PreparedReading* reading_at(const Scene& scene, PlaceIndex place) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (reading.measurand == output_voltage && place_of(reading) == place &&
        output_state(reading, scene.evidence.sources(), scene.settings.confidence) != OutputState::none)
      last = &reading;
  return last;
}

/// Behind `put_judged`, which tells shares.
void tell_volts(Finding& finding, const PreparedReading& reading) {
  const double line = reading.condition(line_voltage)->value();
  finding.measured = volts(reading.value.value());
  finding.measured_uncertainty = reading.value.standard_uncertainty();
  // Judged as shares of the line, told like what was read.
  for (std::optional<AnyQuantity>* limit : {&finding.limits.lower, &finding.limits.upper})
    if (*limit) *limit = volts((*limit)->value_in_si() * line);
  tell(finding, "output", *finding.measured);
  tell(finding, "line", volts(line));
  tell(finding, "percent", 100.0 * reading.value.value() / line);
  if (const Estimate* load = reading.condition(load_current)) tell(finding, "current", amperes(load->value()));
}

void judge_in_defrost(const Scene& scene, const PreparedReading& reading) {
  const auto sources = scene.evidence.sources();
  const OutputState state = output_state(reading, sources, scene.settings.confidence);
  const Estimate share = *output_share(reading);
  if (state == OutputState::off) {
    Finding& finding = scene.findings.add(output, Outcome::out_of_limits, no_volts);
    const Conformance p = conformance_of(share, sources, most_share_off, infinity);
    put_judged(finding, share, most_share_off, infinity, Dimension::ratio, p);
    tell_volts(finding, reading);
    return;
  }
  const bool on = state == OutputState::on;
  Finding& finding = scene.findings.add(output, on ? Outcome::within_limits : Outcome::undecided,
                                        on                            ? full_volts
                                        : state == OutputState::lossy ? lossy
                                                                      : ghost_or_on);
  if (on)
    put_judged(finding, share, least_share_on, infinity, Dimension::ratio,
               conformance_of(share, sources, least_share_on, infinity));
  tell_volts(finding, reading);
}

void judge_in_run(const Scene& scene, const PreparedReading& reading) {
  switch (output_state(reading, scene.evidence.sources(), scene.settings.confidence)) {
    case OutputState::off:
      tell_volts(scene.findings.add(output, Outcome::within_limits, off_in_run), reading);
      return;
    case OutputState::on: {
      Finding& finding = scene.findings.add(output, Outcome::out_of_limits, on_in_run);
      tell_volts(finding, reading);
      return;
    }
    case OutputState::lossy:
      tell_volts(scene.findings.add(output, Outcome::undecided, lossy_in_run), reading);
      return;
    case OutputState::ghost_or_on:
    case OutputState::none:
      tell_volts(scene.findings.add(output, Outcome::undecided, ghost_in_run), reading);
      return;
  }
}

Text why_not_judged(const Scene& scene) {
  const PreparedReading* reading = last_value(scene.evidence, output_voltage);
  if (reading == nullptr) return not_read;
  if (!is_live(*reading)) return not_live;
  return no_line;
}

}  // namespace

RuleDescriptor describe_output() {
  return {
      "output",
      OHMWRIGHT_TEXT("Volts at the defrost output"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "Kirchhoff; without a load volts prove nothing (leakage of a solid-state switch, capacitance of wires); 95 % and "
      "50 % of the line are common practice, no source",
      {
          {"full-volts", OHMWRIGHT_TEXT("In a defrost its output gives {output} of {line}, under a load of {current}: "
                                        "it feeds the heater.")},
          {"no-volts",
           OHMWRIGHT_TEXT("In a defrost its output gives {output} where {line} are on the line: it does not "
                          "switch the heater on.")},
          {"off-in-run", OHMWRIGHT_TEXT("In run its output gives {output} of {line}: off, as it should be.")},
          {"on-in-run", OHMWRIGHT_TEXT("In run its output gives {output} of {line}, under a load of {current}: it does "
                                       "not switch off, and the heater is on whenever its thermostat is closed.")},
          {"lossy", OHMWRIGHT_TEXT("In a defrost its output gives {output} where {line} are on the line, under load: "
                                   "some of it is lost at a contact or in the wires to it.")},
          {"lossy-in-run",
           OHMWRIGHT_TEXT("In run its output still gives {output} of {line}, under load: it should give "
                          "nothing.")},
          {"ghost-or-on",
           OHMWRIGHT_TEXT(
               "In a defrost its output shows {output} of {line}, but no load ran: a solid-state switch that "
               "is off leaks, and wires side by side show volts too. Only under load do they count.")},
          {"ghost-in-run",
           OHMWRIGHT_TEXT("In run its output shows {output} of {line} without a load: that may be leakage of a "
                          "solid-state switch or of the wires, and need not be a switch that is on.")},
          {"position-unstated",
           OHMWRIGHT_TEXT("Its output gives {output} of {line}, but it was not said whether it was in a defrost.")},
          {"not-read", OHMWRIGHT_TEXT("Not judged: the volts at its defrost output were not read.")},
          {"no-line", OHMWRIGHT_TEXT("Not judged: the volts of the line were not given (--line).")},
          {"not-live",
           OHMWRIGHT_TEXT("Not judged: an output gives volts only while the appliance has power (--live-agreed).")},
      }};
}

void judge_output(const Scene& scene) {
  const PreparedReading* in_a_defrost = reading_at(scene, in_defrost);
  const PreparedReading* in_a_run = reading_at(scene, in_run);
  const PreparedReading* unplaced = reading_at(scene, anywhere);
  if (in_a_defrost != nullptr) judge_in_defrost(scene, *in_a_defrost);
  if (in_a_run != nullptr) judge_in_run(scene, *in_a_run);
  if (in_a_defrost != nullptr || in_a_run != nullptr) return;
  if (unplaced != nullptr)
    tell_volts(scene.findings.add(output, Outcome::undecided, position_unstated), *unplaced);
  else
    scene.findings.add(output, Outcome::silent, why_not_judged(scene));
}

}  // namespace ohmwright::defrost_control
