#include <cassert>
#include <cmath>
#include <utility>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit {
namespace {

BranchModel with_value(BranchType type, double value) {
  assert(std::isfinite(value) && value > 0.0);
  return {type, value, 0.0};
}

}  // namespace

BranchModel resistance(Resistance value) { return with_value(BranchType::resistance, value.value()); }
// NOLINTNEXTLINE(performance-unnecessary-value-param): a quantity is a double
BranchModel capacitance(Capacitance value) { return with_value(BranchType::capacitance, value.value()); }
// NOLINTNEXTLINE(performance-unnecessary-value-param): a quantity is a double
BranchModel inductance(Inductance value) { return with_value(BranchType::inductance, value.value()); }
BranchModel closed() { return {BranchType::closed, 0.0, 0.0}; }
BranchModel open() { return {BranchType::open, 0.0, 0.0}; }

BranchModel voltage_source(Voltage value, double phase_in_radian) {
  assert(std::isfinite(value.value()) && std::isfinite(phase_in_radian));
  return {BranchType::voltage_source, value.value(), phase_in_radian};
}

NodeIndex Network::add_node() { return static_cast<NodeIndex>(node_count_++); }

BranchIndex Network::add_branch(NodeIndex from, NodeIndex to, BranchModel model, std::string name) {
  assert(from < node_count_ && to < node_count_);
  branches_.push_back({from, to, model});
  names_.push_back(std::move(name));
  return static_cast<BranchIndex>(branches_.size() - 1);
}

}  // namespace ohmwright::circuit
