#include <algorithm>
#include <cassert>
#include <vector>

#include <ohmwright/circuit/voltmeter.hpp>

namespace ohmwright::circuit {

Voltmeter::Voltmeter(const Network& network, Frequency line_frequency, Resistance input_resistance,
                     std::span<const NodePair> pairs, std::span<const Change> changes)
    : prepared_(network, live_feed(line_frequency), pairs, changes),
      input_resistance_in_ohm_(input_resistance.value()) {
  assert(input_resistance_in_ohm_ > 0.0);
}

VoltagePhasor Voltmeter::reading(std::size_t pair) const {
  const Responses<std::complex<double>>& responses = prepared_.responses();
  if (responses.separated(pair)) return {};
  return VoltagePhasor::from_value(responses.voltage(pair) /
                                   (1.0 + responses.impedance(pair) / input_resistance_in_ohm_));
}

void Voltmeter::sensitivities(std::size_t pair, std::span<double> by_value) const {
  with({}).sensitivities(pair, by_value);
}

Voltmeter::Variant Voltmeter::with(std::span<const Change> changes) const {
  return {Variation<std::complex<double>>(prepared_, changes), input_resistance_in_ohm_};
}

// With the meter on, a branch sees its own voltage less what the meter's current takes, and a current put in at the
// branch reaches the probes divided by 1 + Z/R of the meter.
void Voltmeter::Variant::sensitivities(std::size_t pair, std::span<double> by_value) {
  const Prepared<Phasor>& prepared = variation_.prepared();
  assert(by_value.size() == prepared.branches().size());
  std::fill(by_value.begin(), by_value.end(), 0.0);
  if (variation_.separated(pair)) return;
  const Phasor loaded = reading(pair).value();
  const Phasor load = 1.0 + variation_.impedance(pair, input_resistance_in_ohm_) / input_resistance_in_ohm_;
  std::vector<Phasor> to_branches(by_value.size());
  std::vector<Phasor> to_sources(by_value.size());
  std::vector<Phasor> voltages(by_value.size());
  variation_.transfers(prepared.pairs()[pair], to_branches, to_sources);
  variation_.branch_voltages(voltages);
  for (std::size_t b = 0; b < by_value.size(); ++b) {
    const BranchModel& model = variation_.model(static_cast<BranchIndex>(b));
    const Phasor voltage = voltages[b] - to_branches[b] * loaded / input_resistance_in_ohm_;
    const Phasor slope =
        (to_sources[b] * source_direction(model) - to_branches[b] * voltage * prepared.feed().admittance_slope(model)) /
        load;
    by_value[b] = magnitude_slope(loaded, slope);
  }
}

}  // namespace ohmwright::circuit
