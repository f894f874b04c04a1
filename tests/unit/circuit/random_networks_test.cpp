#include <algorithm>
#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

#include <ohmwright/circuit/clamp_ammeter.hpp>
#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/quantity/error.hpp>

#include "nodal_reference.hpp"
#include "random_network.hpp"

// Random networks from 0.01 ohm to 100 Mohm against textbook nodal analysis with 113 bits: what is solved in full, and
// what follows from a few changes. A voltage or current that is left over where larger ones cancel has the digits of
// those.

namespace ohmwright::circuit {
namespace {

using testing_support::Ingredients;
using testing_support::NodalReference;
using testing_support::RandomNetworks;
using testing_support::Shape;

constexpr Shape shapes[] = {Shape::tangle, Shape::ladder, Shape::bridge, Shape::two_parts};

/// Where conductors join two nodes we say 0 exactly and the reference its last bit (2^-113 of ohms up to 1e8).
constexpr double rounding_of_reference = 1e-24;

std::vector<NodePair> some_pairs(RandomNetworks& random, const Network& network) {
  std::vector<NodePair> pairs;
  for (int i = 0; i < 6; ++i) pairs.push_back(random.pair(network));
  return pairs;
}

template <typename Meter>
void expect_ohms(Meter& meter, const Network& network, std::span<const Change> changes,
                 std::span<const NodePair> pairs) {
  for (std::size_t p = 0; p < pairs.size(); ++p) {
    const NodalReference reference(network, changes, {{}, pairs[p], true, {}, 0.0});
    const auto reading = meter.reading(p);
    ASSERT_EQ(!reading, reference.separated(pairs[p]));
    if (!reading) continue;
    const double expected = reference.voltage(pairs[p]).real();
    EXPECT_NEAR(reading->value(), expected, 1e-10 * std::abs(expected) + rounding_of_reference);
  }
}

TEST(RandomNetworks, OhmsInFullAndByFewChanges) {
  RandomNetworks random(1);
  for (int round = 0; round < 100; ++round) {
    for (const Shape shape : shapes) {
      const Ingredients ingredients{round % 2 == 0, round % 3 == 0};
      const Network network = random.network(shape, ingredients);
      const std::vector<NodePair> pairs = some_pairs(random, network);
      const Ohmmeter ohmmeter(network, pairs);
      expect_ohms(ohmmeter, network, {}, pairs);
      for (int variant = 0; variant < 4; ++variant) {
        const std::vector<Change> changes = random.changes(network, ingredients, 3);
        Ohmmeter::Variant with = ohmmeter.with(changes);
        SCOPED_TRACE(testing::Message() << "round " << round << " variant " << variant);
        expect_ohms(with, network, changes, pairs);
        if (HasFailure()) return;
      }
    }
  }
}

/// What a meter shows against the reference: to 1e-10 of it, and what a double may lose.
void expect_phasor(std::complex<double> shown, std::complex<double> expected, double lost) {
  EXPECT_LE(std::abs(shown - expected), 1e-10 * std::abs(expected) + lost + rounding_of_reference)
      << shown << " for " << expected;
}

/// 16 digits of the largest voltage, of which a correction may take three before the network is solved anew.
template <typename Meter>
void expect_volts(Meter& meter, const Network& network, std::span<const Change> changes,
                  std::span<const NodePair> pairs, double angular_frequency, double input_in_ohm) {
  for (std::size_t p = 0; p < pairs.size(); ++p) {
    const NodalReference reference(network, changes, {angular_frequency, {}, false, pairs[p], input_in_ohm});
    expect_phasor(meter.reading(p).value(), reference.voltage(pairs[p]), 1e-13 * 240.0);
  }
}

/// The unknowns are √Y·V, so what is lost is digits of the largest power there is, be it before the changes: as a
/// current in the best conductor, 0.01 ohm. Microamperes that are left of it have fewer digits of their own.
template <typename Meter>
void expect_amperes(Meter& meter, const Network& network, std::span<const Change> changes, double angular_frequency) {
  const NodalReference::Setting setting{angular_frequency, {}, false, {}, 0.0};
  const NodalReference before(network, {}, setting);
  const NodalReference reference(network, changes, setting);
  const double root_of_power = std::max(before.root_of_largest_power(), reference.root_of_largest_power());
  for (BranchIndex b = 0; b < network.branches().size(); ++b)
    if (const auto reading = meter.reading(b))
      expect_phasor(reading->value(), reference.current(b), 1e-13 * root_of_power / std::sqrt(0.01));
}

void live(std::uint64_t seed, bool reactances, double frequency_in_hz) {
  RandomNetworks random(seed);
  const double angular_frequency = 2.0 * std::numbers::pi * frequency_in_hz;
  int refused = 0;
  for (int round = 0; round < 60; ++round) {
    for (const Shape shape : shapes) {
      const Ingredients ingredients{reactances, true};
      const Network network = random.network(shape, ingredients);
      const std::vector<NodePair> pairs = some_pairs(random, network);
      std::vector<BranchIndex> all;
      for (BranchIndex b = 0; b < network.branches().size(); ++b) all.push_back(b);
      const double input_in_ohm = round % 2 == 0 ? 1e7 : 3e3;
      const auto frequency = Frequency::from_value(frequency_in_hz);
      const Voltmeter voltmeter(network, frequency, Resistance::from_value(input_in_ohm), pairs);
      const ClampAmmeter ammeter(network, frequency, all);
      expect_volts(voltmeter, network, {}, pairs, angular_frequency, input_in_ohm);
      expect_amperes(ammeter, network, {}, angular_frequency);
      for (int variant = 0; variant < 4; ++variant) {
        SCOPED_TRACE(testing::Message() << "round " << round << " variant " << variant);
        const std::vector<Change> changes = random.changes(network, ingredients, 3);
        try {
          Voltmeter::Variant with = voltmeter.with(changes);
          ClampAmmeter::Variant clamped = ammeter.with(changes);
          expect_volts(with, network, changes, pairs, angular_frequency, input_in_ohm);
          expect_amperes(clamped, network, changes, angular_frequency);
        } catch (const InputError&) {
          ++refused;
        }
        if (testing::Test::HasFailure()) return;
      }
    }
  }
  EXPECT_LT(refused, 100);
}

TEST(RandomNetworks, VoltsAndAmperesOfDirectCurrent) { live(2, false, 0.0); }
TEST(RandomNetworks, VoltsAndAmperesAtLineFrequency) { live(3, true, 60.0); }

}  // namespace
}  // namespace ohmwright::circuit
