#include "ngspice.hpp"

#include <algorithm>
#include <cmath>
#include <iostream>
#include <set>

#include <gtest/gtest.h>

#include <ohmwright/circuit/clamp_ammeter.hpp>
#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/quantity/error.hpp>

#include "random_network.hpp"

// Random networks (tangles, ladders, bridges, two parts apart) as they are and with up to three branches opened,
// closed, drifted or put in, against ngspice. It solves for node voltages from the black probe, and so loses digits in
// the ratio of the largest conductance to the smallest that holds a part: for ohms, values lie between 0.05 ohm and 50
// kohm; live, where its loss is an amount of volts, between 1 ohm and 10 kohm. (From 0.01 ohm to 100 Mohm the same
// networks are held against more digits in tests/unit/circuit.)

namespace ohmwright::circuit {
namespace {

using testing_support::Ingredients;
using testing_support::NgspiceBatch;
using testing_support::RandomNetworks;
using testing_support::Shape;

constexpr Shape shapes[] = {Shape::tangle, Shape::ladder, Shape::bridge, Shape::two_parts};
constexpr double input_in_ohm = 1e4;

/// A reading of ours and the network of the batch that it belongs to.
struct Compared {
  std::size_t network = 0;  ///< healthy or faulty, counted
  std::size_t in_batch = 0;
  std::optional<std::complex<double>> reading;
  std::vector<std::optional<std::complex<double>>> currents;  ///< of sources and closed branches
  bool live = false;
  bool bare = false;  ///< nothing touches the node of the red probe
};

/// 1e-9 of what ngspice says, and what it may have lost where larger numbers cancel.
void expect_equal(std::complex<double> ours, std::complex<double> theirs, double lost) {
  EXPECT_LE(std::abs(ours - theirs), 1e-9 * std::abs(theirs) + lost) << ours << " for " << theirs;
}

/// What ngspice may lose live: ten roundings of 240 V in the ratio of 1 ohm to the largest impedance, 0.1 uF at 60 Hz;
/// over 1 ohm that is as many amperes.
constexpr double lost_live = 10.0 * 240.0 * 0x1p-53 * 26526.0;

/// Runs the batch and compares; at least `least` networks must have been answered.
void compare(const NgspiceBatch& batch, std::span<const Compared> all, std::size_t least) {
  const auto answers = batch.run();
  if (!answers) GTEST_SKIP() << "ngspice is not installed";
  std::set<std::size_t> answered;
  std::size_t declined = 0;
  std::size_t over_range = 0;
  for (const Compared& compared : all) {
    const auto& answer = (*answers)[compared.in_batch];
    SCOPED_TRACE(testing::Message() << "network " << compared.network);
    if (!compared.reading) {
      ++over_range;
      // ngspice finds the matrix singular, or what rounding left of it: less than 1e-10 of the largest conductance, 20
      // S. A node that nothing touches has no row in its matrix, and the 1 A put in there comes back as 1.
      const double theirs = answer && !compared.bare ? std::abs(answer->between_probes) : 1e300;
      EXPECT_GT(theirs, 1e9) << "we find no way between the probes";
      continue;
    }
    if (!answer) {
      ++declined;
      continue;
    }
    answered.insert(compared.network);
    expect_equal(*compared.reading, answer->between_probes, compared.live ? lost_live : 0.0);
    for (std::size_t b = 0; b < compared.currents.size(); ++b)
      if (compared.currents[b]) expect_equal(*compared.currents[b], answer->currents[b], lost_live);
  }
  EXPECT_GE(answered.size(), least);
  std::cout << answered.size() << " networks compared, " << all.size() << " readings, of which over-range "
            << over_range << ", declined by ngspice " << declined << "\n";
}

std::vector<BranchModel> models_of(const Network& network, std::span<const Change> changes) {
  std::vector<BranchModel> models;
  for (const Branch& branch : network.branches()) models.push_back(branch.model);
  for (const Change& change : changes) models[change.branch] = change.model;
  return models;
}

bool bare(const Network& network, std::span<const Change> changes, NodeIndex node) {
  const std::vector<BranchModel> models = models_of(network, changes);
  for (std::size_t b = 0; b < models.size(); ++b) {
    const bool there = models[b].type != BranchType::open && models[b].type != BranchType::voltage_source;
    if (there && (network.branches()[b].from == node || network.branches()[b].to == node)) return false;
  }
  return true;
}

TEST(NgspiceNetworks, Ohms) {
  RandomNetworks random(11);
  NgspiceBatch batch;
  std::vector<Compared> all;
  std::size_t count = 0;
  for (int round = 0; round < 60; ++round) {
    for (const Shape shape : shapes) {
      const Ingredients ingredients{round % 3 == 0, round % 4 == 0, true, true, 0.05, 5e4};
      const Network network = random.network(shape, ingredients);
      const NodePair pairs[] = {random.pair(network), random.pair(network)};
      const Ohmmeter ohmmeter(network, pairs);
      for (int variant = 0; variant < 3; ++variant, ++count) {
        std::vector<Change> changes;
        if (variant > 0) changes = random.changes(network, ingredients, 3);
        Ohmmeter::Variant with = ohmmeter.with(changes);
        for (std::size_t p = 0; p < 2; ++p) {
          const auto ours = with.reading(p);
          std::optional<std::complex<double>> reading;
          if (ours) reading = ours->value();
          all.push_back({count,
                         batch.add_ohms(network, changes, pairs[p]),
                         reading,
                         {},
                         false,
                         bare(network, changes, pairs[p].plus)});
        }
      }
    }
  }
  compare(batch, all, 200);
}

void live(std::uint64_t seed, double frequency_in_hz, std::size_t least) {
  RandomNetworks random(seed);
  NgspiceBatch batch;
  std::vector<Compared> all;
  std::size_t count = 0;
  const auto frequency = Frequency::from_value(frequency_in_hz);
  for (int round = 0; round < 30; ++round) {
    for (const Shape shape : shapes) {
      const bool alternating = frequency_in_hz > 0.0;
      const Ingredients ingredients{alternating, true, true, alternating, 1.0, 1e4, 1e-7};
      const Network network = random.network(shape, ingredients);
      const NodePair pair = random.pair(network);
      // The meter loads the network in ngspice, so it does so here for the currents as well.
      Network loaded = network;
      loaded.add_branch(pair.plus, pair.minus, resistance(Resistance::from_value(input_in_ohm)));
      std::vector<BranchIndex> branches;
      for (BranchIndex b = 0; b < network.branches().size(); ++b) branches.push_back(b);
      const Voltmeter voltmeter(network, frequency, Resistance::from_value(input_in_ohm), {&pair, 1});
      const ClampAmmeter ammeter(loaded, frequency, branches);
      for (int variant = 0; variant < 3; ++variant, ++count) {
        std::vector<Change> changes;
        if (variant > 0) changes = random.changes(network, ingredients, 3);
        try {
          Compared compared{count, 0, voltmeter.with(changes).reading(0).value(), {}, true, false};
          ClampAmmeter::Variant with = ammeter.with(changes);
          const std::vector<BranchModel> models = models_of(network, changes);
          for (const BranchIndex b : branches) {
            const bool printed = models[b].type == BranchType::closed || models[b].type == BranchType::voltage_source;
            const auto current = printed ? with.reading(b) : std::nullopt;
            compared.currents.emplace_back();
            if (current) compared.currents.back() = current->value();
          }
          compared.in_batch = batch.add_volts(network, changes, pair, input_in_ohm, frequency_in_hz);
          all.push_back(std::move(compared));
        } catch (const InputError&) {  // a supply shorted by the changes: refused here, singular there
        }
      }
    }
  }
  compare(batch, all, least);
}

TEST(NgspiceNetworks, VoltsAndAmperesOfDirectCurrent) { live(12, 0.0, 150); }
TEST(NgspiceNetworks, VoltsAndAmperesAtLineFrequency) { live(13, 60.0, 150); }

}  // namespace
}  // namespace ohmwright::circuit
