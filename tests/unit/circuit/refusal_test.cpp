#include <numbers>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/circuit/clamp_ammeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

const auto hertz_60 = Frequency::from_value(60.0);

template <typename Action>
std::string refusal_of(const Action& action) {
  try {
    action();
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

class Shorted : public ::testing::Test {
 protected:
  Shorted() {
    for (int i = 0; i < 3; ++i) network.add_node();
    network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)), "supply");
    network.add_branch(0, 2, closed(), "lead");
    load = network.add_branch(2, 1, resistance(ohms(32.0)), "heater");
  }

  const std::string refusal =
      "a supply is bridged without any resistance: \"supply\", \"lead\", \"heater\" form a loop, and no current "
      "follows "
      "from it; give one of them a resistance, such as \"0.05 ohm\", or take one out";
  Network network;
  BranchIndex load = 0;
  const NodePair pair{2, 1};
};

TEST_F(Shorted, BySetUpOrByVariant) {
  const std::vector<Change> short_circuit{{load, closed()}};
  const auto prepared = [&] { const Voltmeter meter(network, hertz_60, ohms(10e6), {&pair, 1}, short_circuit); };
  EXPECT_EQ(refusal_of(prepared), refusal);
  const Voltmeter voltmeter(network, hertz_60, ohms(10e6), {&pair, 1});
  EXPECT_EQ(refusal_of([&] { (void)voltmeter.with(short_circuit); }), refusal);
  const ClampAmmeter clamp(network, hertz_60, {&load, 1});
  EXPECT_EQ(refusal_of([&] { (void)clamp.with(short_circuit); }), refusal);
}

TEST_F(Shorted, ASmallResistanceIsAllThatItTakes) {
  const std::vector<Change> nearly{{load, resistance(ohms(0.05))}};
  const ClampAmmeter clamp(network, hertz_60, {&load, 1});
  EXPECT_NEAR(magnitude(*clamp.with(nearly).reading(0)).value(), 2400.0, 1e-8);
}

TEST_F(Shorted, ACoilOnDirectCurrentIsAConductor) {
  const std::vector<Change> coil{{load, inductance(Inductance::from_value(2.0))}};
  const auto direct = [&] { const Voltmeter meter(network, Frequency::from_value(0.0), ohms(10e6), {&pair, 1}, coil); };
  EXPECT_EQ(refusal_of(direct), refusal);
  const ClampAmmeter alternating(network, hertz_60, {&load, 1}, coil);
  EXPECT_NEAR(magnitude(*alternating.reading(0)).value(), 120.0 / (2.0 * std::numbers::pi * 60.0 * 2.0), 1e-12);
}

TEST(Refusal, ABranchWithoutANameIsCalledByItsNumber) {
  Network network;
  for (int i = 0; i < 2; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)), "second \n supply");
  const NodePair pair{0, 1};
  const std::string text = refusal_of([&] { const Voltmeter meter(network, hertz_60, ohms(1e7), {&pair, 1}); });
  EXPECT_NE(text.find(R"("second \n supply", branch 0 form a loop)"), std::string::npos) << text;
}

TEST(Refusal, AnIdealCoilAndCapacitorInResonance) {
  // 1 F and 1 H in parallel at 1 rad/s, on the far side of a resistance that carries nothing: any voltage would do.
  Network network;
  for (int i = 0; i < 4; ++i) network.add_node();
  network.add_branch(0, 1, voltage_source(Voltage::from_value(120.0)));
  network.add_branch(2, 3, capacitance(Capacitance::from_value(1.0)));
  network.add_branch(2, 3, inductance(Inductance::from_value(1.0)));
  const NodePair pair{2, 3};
  const auto resonance = Frequency::from_value(0.5 / std::numbers::pi);
  EXPECT_EQ(
      refusal_of([&] {
        const Voltmeter meter(network, resonance, ohms(1e7), {&pair, 1});
      }),
      "coils and capacitors resonate at the line frequency without any loss, and no voltage follows from it; give "
      "each coil its resistance");
}

}  // namespace
}  // namespace ohmwright::circuit
