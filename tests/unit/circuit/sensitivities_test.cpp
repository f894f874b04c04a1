#include <cmath>
#include <numbers>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/circuit/clamp_ammeter.hpp>
#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>

#include "random_network.hpp"

namespace ohmwright::circuit {
namespace {

using testing_support::Ingredients;
using testing_support::RandomNetworks;
using testing_support::Shape;

Resistance ohms(double value) { return Resistance::from_value(value); }

TEST(Sensitivities, AreTheSharesOfTheCurrentSquared) {
  Network network;
  for (int i = 0; i < 3; ++i) network.add_node();
  network.add_branch(0, 1, resistance(ohms(10.0)));
  network.add_branch(1, 2, resistance(ohms(20.0)));
  network.add_branch(1, 2, resistance(ohms(40.0)));
  const NodePair pair{0, 2};
  const Ohmmeter meter(network, {&pair, 1});
  std::vector<double> slopes(3);
  meter.sensitivities(0, slopes);
  EXPECT_NEAR(slopes[0], 1.0, 1e-12);
  EXPECT_NEAR(slopes[1], 4.0 / 9.0, 1e-12);
  EXPECT_NEAR(slopes[2], 1.0 / 9.0, 1e-12);
  const std::vector<Change> changes{{2, open()}};
  meter.with(changes).sensitivities(0, slopes);
  EXPECT_NEAR(slopes[1], 1.0, 1e-12);
  EXPECT_EQ(slopes[2], 0.0);
  const std::vector<Change> apart{{0, open()}};
  meter.with(apart).sensitivities(0, slopes);
  for (const double slope : slopes) EXPECT_EQ(slope, 0.0);
}

// Against differences of the readings themselves. Five points, steps of 0.2 %: off by the fifth derivative times h⁴/30,
// a relative 1e-12 where the reading is as smooth as a sum of ratios, and by rounding, 1e-13 of the reading over the
// step.

/// Reading of a freshly prepared meter with one value multiplied.
template <typename Read>
double difference(const Read& read, const Network& network, const std::vector<Change>& changes, BranchIndex branch,
                  double value) {
  const auto at = [&](double share) {
    std::vector<Change> moved = changes;
    BranchModel model = network.branches()[branch].model;
    for (const Change& change : changes)
      if (change.branch == branch) model = change.model;
    model.value_in_si *= 1.0 + share;
    moved.push_back({branch, model});
    return read(moved);
  };
  const double step = 2e-3;
  return (8.0 * (at(step) - at(-step)) - (at(2.0 * step) - at(-2.0 * step))) / (12.0 * step * value);
}

/// Compares every slope with the differences, in parts of reading over value.
template <typename Read>
void expect_slopes(const std::vector<double>& slopes, const Read& read, const Network& network,
                   const std::vector<Change>& changes) {
  const double reading = read(changes);
  for (BranchIndex b = 0; b < network.branches().size(); ++b) {
    BranchModel model = network.branches()[b].model;
    for (const Change& change : changes)
      if (change.branch == b) model = change.model;
    if (model.type == BranchType::closed || model.type == BranchType::open) {
      EXPECT_EQ(slopes[b], 0.0);
      continue;
    }
    const double value = model.value_in_si;
    EXPECT_NEAR(slopes[b] * value, difference(read, network, changes, b, value) * value, 1e-7 * std::abs(reading))
        << "branch " << b;
  }
}

constexpr Shape shapes[] = {Shape::tangle, Shape::ladder, Shape::bridge};

/// The networks and their variants, of which `check(network, pair, changes)` is called for each.
template <typename Check>
void for_random_networks(std::uint64_t seed, const Ingredients& ingredients, const Check& check) {
  RandomNetworks random(seed);
  for (int round = 0; round < 15; ++round) {
    for (const Shape shape : shapes) {
      const Network network = random.network(shape, ingredients);
      const NodePair pair = random.pair(network);
      for (int variant = 0; variant < 3; ++variant) {
        SCOPED_TRACE(testing::Message() << "round " << round << " variant " << variant);
        std::vector<Change> changes;
        if (variant > 0) {
          for (const Change& change : random.changes(network, ingredients, 2))
            if (change.model.type != BranchType::closed) changes.push_back(change);  // no supply is shorted
        }
        check(network, pair, changes);
        if (testing::Test::HasFailure()) return;
      }
    }
  }
}

TEST(Sensitivities, OfOhmsAreTheDifferences) {
  for_random_networks(21, {true, true, true, true, 0.05, 5e4},
                      [](const Network& network, NodePair pair, auto& changes) {
                        const Ohmmeter meter(network, {&pair, 1});
                        if (!meter.with(changes).reading(0)) return;
                        std::vector<double> slopes(network.branches().size());
                        meter.with(changes).sensitivities(0, slopes);
                        const auto read = [&](const std::vector<Change>& moved) {
                          return Ohmmeter(network, {&pair, 1}, moved).reading(0).value().value();
                        };
                        // What an ohmmeter does not see has no slope and no difference.
                        expect_slopes(slopes, read, network, changes);
                      });
}

TEST(Sensitivities, OfVoltsAreTheDifferences) {
  for_random_networks(
      22, {true, true, true, true, 1.0, 1e5, 1e-8}, [](const Network& network, NodePair pair, auto& changes) {
        const auto frequency = Frequency::from_value(60.0);
        const Voltmeter meter(network, frequency, ohms(1e5), {&pair, 1});
        const auto read = [&](const std::vector<Change>& moved) {
          return magnitude(Voltmeter(network, frequency, ohms(1e5), {&pair, 1}, moved).reading(0)).value();
        };
        if (read(changes) < 1e-3) return;
        std::vector<double> slopes(network.branches().size());
        meter.with(changes).sensitivities(0, slopes);
        expect_slopes(slopes, read, network, changes);
      });
}

TEST(Sensitivities, OfAmperesAreTheDifferences) {
  for_random_networks(23, {true, true, true, true, 1.0, 1e5, 1e-8},
                      [](const Network& network, NodePair, auto& changes) {
                        const auto frequency = Frequency::from_value(60.0);
                        std::vector<BranchIndex> all;
                        for (BranchIndex b = 0; b < network.branches().size(); ++b) all.push_back(b);
                        const ClampAmmeter meter(network, frequency, all);
                        ClampAmmeter::Variant with = meter.with(changes);
                        for (const BranchIndex probed : all) {
                          SCOPED_TRACE(testing::Message() << "around branch " << probed);
                          if (!with.reading(probed) || magnitude(*with.reading(probed)).value() < 1e-9) continue;
                          const auto read = [&](const std::vector<Change>& moved) {
                            return magnitude(*ClampAmmeter(network, frequency, {&probed, 1}, moved).reading(0)).value();
                          };
                          std::vector<double> slopes(network.branches().size());
                          with.sensitivities(probed, slopes);
                          expect_slopes(slopes, read, network, changes);
                        }
                      });
}

}  // namespace
}  // namespace ohmwright::circuit
