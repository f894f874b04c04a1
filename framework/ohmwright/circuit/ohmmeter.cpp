#include <algorithm>
#include <cassert>
#include <vector>

#include <ohmwright/circuit/ohmmeter.hpp>

namespace ohmwright::circuit {

Ohmmeter::Ohmmeter(const Network& network, std::span<const NodePair> pairs, std::span<const Change> changes)
    : prepared_(network, {}, pairs, changes) {}

std::optional<Resistance> Ohmmeter::reading(std::size_t pair) const {
  if (prepared_.responses().separated(pair)) return std::nullopt;
  return Resistance::from_value(prepared_.responses().impedance(pair));
}

void Ohmmeter::sensitivities(std::size_t pair, std::span<double> by_value) const {
  with({}).sensitivities(pair, by_value);
}

Ohmmeter::Variant Ohmmeter::with(std::span<const Change> changes) const {
  return Variant(Variation<double>(prepared_, changes));
}

void Ohmmeter::Variant::sensitivities(std::size_t pair, std::span<double> by_value) const {
  const Prepared<double>& prepared = variation_.prepared();
  assert(by_value.size() == prepared.branches().size());
  std::fill(by_value.begin(), by_value.end(), 0.0);
  if (variation_.separated(pair)) return;
  std::vector<double> to_branches(by_value.size());
  std::vector<double> to_sources(by_value.size());
  variation_.transfers(prepared.pairs()[pair], to_branches, to_sources);
  for (std::size_t b = 0; b < by_value.size(); ++b)
    by_value[b] = -to_branches[b] * to_branches[b] *
                  prepared.feed().admittance_slope(variation_.model(static_cast<BranchIndex>(b)));
}

}  // namespace ohmwright::circuit
