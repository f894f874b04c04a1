#include "simulated_searches.hpp"

#include <algorithm>
#include <cmath>

#include "drawn_appliance.hpp"
#include "drawn_meter.hpp"
#include "ngspice.hpp"

namespace ohmwright::locate::testing {

namespace {

using circuit::testing_support::NgspiceBatch;

constexpr std::size_t most_steps = 60;
constexpr double voltmeter_input_ohm = 10e6;
/// Live and neutral stand for themselves while a clamp reads.
constexpr double nothing_between_ohm = 1e9;
/// Past this a breaker has tripped [A].
constexpr double breaker_amperes = 60.0;

/// A drawn appliance, its meter and what was done so far.
struct Running {
  ReproducibleStream stream;
  DrawnAppliance drawn;
  DrawnMeter meter;
  std::vector<TakenReading> readings;
  Signs signs;
  std::optional<Step> next;

  Running(const FaultList& faults, double share, const Meter& with, std::uint64_t seed)
      : stream(seed), drawn(faults, share, stream), meter(with, stream) {}
};

bool is_so(const DrawnAppliance& drawn, const Standing& standing) {
  if (standing.parts.empty() && !standing.outside_cause) return drawn.truth().nothing_wrong();
  return (!standing.outside_cause || standing.outside_cause == drawn.truth().outside_cause) &&
         std::all_of(standing.parts.begin(), standing.parts.end(),
                     [&](std::size_t part) { return drawn.has_fault(part); });
}

/// Thinks over what this one has seen, notes what is said, and what is done next.
void think(Search& search, Running& running, SimulatedSearch& result) {
  while (search.take_back()) continue;
  for (const TakenReading& reading : running.readings) search.add(reading);
  search.signs() = running.signs;
  search.think();
  const Standing& standing = search.standing();
  result.ended = standing;
  result.named.push_back({standing.probability, is_so(running.drawn, standing)});
  const std::vector<double>& parts = search.diagnosis().parts;
  for (std::size_t part = 0; part < parts.size(); ++part)
    result.parts.push_back({parts[part], running.drawn.has_fault(part)});
  const bool goes_on = standing.form == Standing::Form::open || standing.form == Standing::Form::likely;
  running.next.reset();
  if (!goes_on || search.steps().empty() || result.steps == most_steps) return;
  running.next = search.steps().front();
  result.minutes += running.next->minutes;
  ++result.steps;
}

void look(Running& running, const FaultList& faults, const SignModel& model) {
  const bool is_there = is_seen_by_look(faults, running.drawn.truth(), running.next->subject);
  const bool is_found = running.stream.uniform() < model.found_if(is_there);
  running.signs.looked_at.push_back({running.next->subject, is_found});
}

/// A reading that the simulator was asked for.
struct Asked {
  std::size_t running = 0;
  std::optional<std::size_t> in_batch;  ///< none: nothing joins the probes
  WiredReading wired;
};

Asked ask(NgspiceBatch& batch, std::size_t index, Running& running, double hertz) {
  Asked asked{index, {}, running.drawn.wired_for(running.next->measurement, running.stream)};
  const WiredReading& wired = asked.wired;
  if (wired.probe == Probe::ohms) {
    if (!wired.apart) asked.in_batch = batch.add_ohms(wired.network, {}, wired.probes);
  } else if (wired.probe == Probe::volts) {
    if (!wired.apart) asked.in_batch = batch.add_volts(wired.network, {}, wired.probes, voltmeter_input_ohm, hertz);
  } else if (wired.clamp) {
    asked.in_batch = batch.add_volts(wired.network, {}, wired.probes, nothing_between_ohm, hertz);
  }
  return asked;
}

/// What the simulator found [ohm, V, A]; none: no way between the probes.
std::optional<double> found(const Asked& asked, const NgspiceBatch::Answer* answer) {
  const WiredReading& wired = asked.wired;
  if (answer == nullptr) return wired.probe == Probe::ohms ? std::nullopt : std::optional(0.0);
  if (wired.probe == Probe::ohms) return std::abs(answer->between_probes);
  if (wired.supply && std::abs(answer->currents[*wired.supply]) > breaker_amperes) return 0.0;
  return wired.probe == Probe::volts ? std::abs(answer->between_probes) : std::abs(answer->currents[*wired.clamp]);
}

}  // namespace

std::optional<std::vector<SimulatedSearch>> simulate(const FaultList& faults, Search& search, std::size_t count,
                                                     std::uint64_t seed) {
  std::vector<Running> all;
  std::vector<SimulatedSearch> results(count);
  ReproducibleStream seeds(seed);
  for (std::size_t i = 0; i < count; ++i) {
    // One of each `count`th of what may be wrong: few faults are rare by chance, which would be seen again at every
    // step.
    const double share = (static_cast<double>(i) + seeds.uniform()) / static_cast<double>(count);
    all.emplace_back(faults, share, search.reasoner().prober().meter(), seeds.bits());
    results[i].truth = &all[i].drawn.truth();
    think(search, all[i], results[i]);
  }
  const double hertz = faults.appliance().supply.frequency.value.value_in_si();
  for (;;) {
    NgspiceBatch batch;
    std::vector<Asked> readings;
    bool is_over = true;
    for (std::size_t i = 0; i < count; ++i) {
      if (!all[i].next) continue;
      is_over = false;
      if (all[i].next->form == Step::Form::look)
        look(all[i], faults, search.settings().signs);
      else
        readings.push_back(ask(batch, i, all[i], hertz));
    }
    if (is_over) break;
    const auto answers = batch.run();
    if (!answers) return std::nullopt;
    for (const Asked& asked : readings) {
      Running& running = all[asked.running];
      const bool is_answered = asked.in_batch && (*answers)[*asked.in_batch];
      const auto truth = found(asked, is_answered ? &*(*answers)[*asked.in_batch] : nullptr);
      running.readings.push_back(
          {running.next->measurement,
           running.meter.shown(running.next->measurement, asked.wired.probe, truth, running.stream),
           {}});
    }
    for (std::size_t i = 0; i < count; ++i)
      if (all[i].next) think(search, all[i], results[i]);
  }
  for (std::size_t i = 0; i < count; ++i) {
    results[i].misreadings = all[i].meter.misreadings();
    const std::vector<std::size_t>& parts = results[i].ended.parts;
    results[i].good_part_named =
        std::any_of(parts.begin(), parts.end(), [&](std::size_t part) { return !all[i].drawn.has_fault(part); });
  }
  return results;
}

}  // namespace ohmwright::locate::testing
