#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/circuit/clamp_ammeter.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

const auto hertz_60 = Frequency::from_value(60.0);

TEST(ClampAmmeter, ReadsAlsoAroundAConductorAndASource) {
  Network network;
  for (int i = 0; i < 3; ++i) network.add_node();
  const BranchIndex source = network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  const BranchIndex lead = network.add_branch(0, 2, closed());
  const BranchIndex heater = network.add_branch(2, 1, resistance(ohms(32.0)));
  const BranchIndex around[] = {source, lead, heater};
  const ClampAmmeter clamp(network, hertz_60, around);
  for (std::size_t i = 0; i < 3; ++i) EXPECT_NEAR(magnitude(*clamp.reading(i)).value(), 3.75, 1e-9) << i;
  const std::vector<Change> opened{{heater, open()}};
  EXPECT_NEAR(magnitude(*clamp.with(opened).reading(1)).value(), 0.0, 1e-12);
}

TEST(ClampAmmeter, TheCurrentOfACapacitor) {
  // I = 2πfCV: 10 uF at 120 V and 60 Hz.
  Network network;
  for (int i = 0; i < 2; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  const BranchIndex capacitor = network.add_branch(0, 1, capacitance(Capacitance::from_value(10e-6)));
  const ClampAmmeter clamp(network, hertz_60, {&capacitor, 1});
  EXPECT_NEAR(magnitude(*clamp.reading(0)).value(), 0.452389342, 1e-9);
}

TEST(ClampAmmeter, ConductorsInALoopShareTheirCurrentAsNoValueTells) {
  Network network;
  for (int i = 0; i < 3; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  const BranchIndex one = network.add_branch(0, 2, closed());
  network.add_branch(0, 2, closed());
  network.add_branch(2, 1, resistance(ohms(32.0)));
  EXPECT_FALSE(ClampAmmeter(network, hertz_60, {&one, 1}).reading(0));
}

}  // namespace
}  // namespace ohmwright::circuit
