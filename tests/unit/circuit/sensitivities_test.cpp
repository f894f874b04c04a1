#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/circuit/ohmmeter.hpp>

namespace ohmwright::circuit {
namespace {

Resistance ohms(double value) { return Resistance::from_value(value); }

TEST(Sensitivities, AreTheDerivatives) {
  const auto build = [](double r2) {
    Network network;
    for (int i = 0; i < 3; ++i) network.add_node();
    network.add_branch(0, 1, resistance(ohms(10.0)));
    network.add_branch(1, 2, resistance(ohms(r2)));
    network.add_branch(1, 2, resistance(ohms(40.0)));
    return network;
  };
  const NodePair pair{0, 2};
  const Network network = build(20.0);
  const Ohmmeter meter(network, {&pair, 1});
  std::vector<double> slopes(3);
  meter.sensitivities(0, slopes);
  EXPECT_NEAR(slopes[0], 1.0, 1e-12);
  EXPECT_NEAR(slopes[1], (40.0 / 60.0) * (40.0 / 60.0), 1e-12);  // share of the current, squared
  EXPECT_NEAR(slopes[2], (20.0 / 60.0) * (20.0 / 60.0), 1e-12);
  const Network more = build(20.0 + 1e-6);
  const double numeric = (Ohmmeter(more, {&pair, 1}).reading(0)->value() - meter.reading(0)->value()) / 1e-6;
  EXPECT_NEAR(slopes[1], numeric, 1e-7);
  std::vector<double> of_variant(3);
  const std::vector<Change> changes{{2, open()}};
  meter.with(changes).sensitivities(0, of_variant);
  EXPECT_NEAR(of_variant[1], 1.0, 1e-12);
}

}  // namespace
}  // namespace ohmwright::circuit
