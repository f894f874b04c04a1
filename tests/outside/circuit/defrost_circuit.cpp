#include "defrost_circuit.hpp"

#include <algorithm>
#include <array>

namespace ohmwright::circuit::testing_support {
namespace {

constexpr std::array<std::string_view, 9> names{"L", "D", "R", "X", "H1", "H2", "N", "G", "S"};

BranchModel ohms(double value) { return resistance(Resistance::from_value(value)); }

}  // namespace

NodeIndex DefrostCircuit::node(std::string_view name) {
  return static_cast<NodeIndex>(std::find(names.begin(), names.end(), name) - names.begin());
}

DefrostCircuit::DefrostCircuit(bool live) {
  for (std::size_t i = 0; i < names.size(); ++i) network.add_node();
  const auto add = [this](std::string_view from, std::string_view to, BranchModel model, const char* name) {
    return network.add_branch(node(from), node(to), model, name);
  };
  defrost_contact = add("L", "D", ohms(0.05), "defrost contact");
  run_contact = add("L", "R", open(), "run contact");
  bimetal = add("D", "X", ohms(0.05), "bimetal");
  splice = add("X", "H1", ohms(0.05), "splice");
  heater = add("H1", "H2", ohms(32.0), "heater");
  heater_lead = add("H2", "N", ohms(0.05), "heater lead");
  timer_motor = add("L", "N", ohms(8000.0), "timer motor");
  add("R", "N", ohms(6.0), "compressor");
  add("R", "N", ohms(120.0), "fan");
  add("H1", "G", ohms(50e6), "insulation");
  if (!live) return;
  neutral_lead = add("N", "S", ohms(0.05), "neutral of the cord");
  add("L", "S", voltage_source(Voltage::from_value(120.0)), "supply");
}

}  // namespace ohmwright::circuit::testing_support
