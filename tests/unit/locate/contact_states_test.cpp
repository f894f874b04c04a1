#include <array>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/locate/contact_states.hpp>

// Bayes' rule for contacts that stay as they are, worked out by hand beside it.

namespace ohmwright::locate {
namespace {

constexpr std::uint64_t relay = 40;

PredictedOutcome way(double weight, bool is_open, double share_of_state) {
  PredictedOutcome made;
  made.weight = weight;
  made.contacts.push_back({relay, is_open, share_of_state});
  return made;
}

/// A relay that is closed in 3 of 5 appliances.
std::vector<PredictedOutcome> ways() { return {way(0.6, false, 0.6), way(0.4, true, 0.4)}; }

TEST(ContactStates, StartFromWhatIsUsual) {
  const ContactStates states;
  EXPECT_DOUBLE_EQ(states.weight_of(ways()[0]), 0.6);
  EXPECT_DOUBLE_EQ(states.weight_of(ways()[1]), 0.4);
}

TEST(ContactStates, StayAsTheyWereFound) {
  ContactStates states;
  const std::array<double, 2> meant{0.6 * 5.0, 0.4 * 1.0};  // the reading has a density of 5 where closed, 1 where open
  states.learn(ways(), meant, 0.1);
  // open: (0.1 · 0.4 + 0.4 · 1) / (0.1 + 3 + 0.4)
  const double open = (0.1 * 0.4 + 0.4) / (0.1 + 3.0 + 0.4);
  EXPECT_NEAR(states.weight_of(ways()[1]), open, 1e-12);
  EXPECT_NEAR(states.weight_of(ways()[0]), 1.0 - open, 1e-12);
}

TEST(ContactStates, AreNeverQuiteSure) {
  ContactStates states;
  const std::array<double, 2> meant{40.0, 0.0};
  for (int again = 0; again < 5; ++again) states.learn(ways(), meant, 1e-6);
  EXPECT_NEAR(states.weight_of(ways()[1]), 0.02, 1e-12) << "somebody may have moved it";
}

// A set-up stays as it was made, however many readings are taken in it.
TEST(ContactStates, KeepASetUpAsItWasMadeUntilItIsMadeAnew) {
  std::vector<PredictedOutcome> mixed{way(0.95, false, 0.95), way(0.05, true, 0.05)};
  for (PredictedOutcome& one : mixed) one.contacts.front().moves_unseen = false;
  ContactStates states;
  const std::array<double, 2> meant{0.0, 0.05};  // only one that did not take shows this
  states.learn(mixed, meant, 1e-6);
  EXPECT_NEAR(states.weight_of(mixed[1]), (0.05 + 1e-6 * 0.05) / (0.05 + 1e-6), 1e-12) << "no share of it moved";
  states.forget(relay);
  EXPECT_DOUBLE_EQ(states.weight_of(mixed[1]), 0.05);
}

TEST(ContactStates, SayNothingAfterASlip) {
  ContactStates states;
  const std::array<double, 2> meant{0.0, 0.0};
  states.learn(ways(), meant, 0.01);
  EXPECT_NEAR(states.weight_of(ways()[1]), 0.4, 1e-12);
}

// A set-up that may not have taken: one half of what may be read names no state of the relay.
TEST(ContactStates, LearnNothingFromAWayThatLeavesThemOpenToQuestion) {
  ContactStates states;
  PredictedOutcome elsewhere;
  elsewhere.weight = 0.5;
  const std::vector<PredictedOutcome> mixed{elsewhere, way(0.3, false, 0.6), way(0.2, true, 0.4)};
  const std::array<double, 3> meant{3.0, 0.6, 0.2};
  states.learn(mixed, meant, 0.1);
  // open: (0.1 · 0.4 + 3 · 0.4 + 0.2) / (0.1 + 3 + 0.6 + 0.2)
  EXPECT_NEAR(states.weight_of(ways()[1]), (0.04 + 1.2 + 0.2) / 3.9, 1e-12);
}

/// A burnt contact, closed for sure: 5 or 50 ohm, the one as often as the other.
std::vector<PredictedOutcome> burnt() {
  std::vector<PredictedOutcome> both{way(0.5, false, 1.0), way(0.5, false, 1.0)};
  for (PredictedOutcome& outcome : both) outcome.contacts.front().share_of_ohm = 0.5;
  both[0].contacts.front().ohm = 5.0;
  both[1].contacts.front().ohm = 50.0;
  return both;
}

TEST(ContactStates, KeepTheirResistance) {
  ContactStates states;
  const std::array<double, 2> meant{0.5 * 6.0, 0.5 * 0.2};
  states.learn(burnt(), meant, 0.1);
  // 5 ohm: meant with 3, after a slip (0.1) half of those there are; jarred unseen with 0.02
  const double five = 0.98 * (3.0 + 0.1 * 0.5) / (3.0 + 0.1 + 0.1) + 0.02 * 0.5;
  EXPECT_NEAR(states.weight_of(burnt()[0]), five, 1e-12);
  EXPECT_NEAR(states.weight_of(burnt()[1]), 1.0 - five, 1e-12);
}

TEST(ContactStates, LeaveAloneWhatComesAndGoes) {
  ContactStates states;
  PredictedOutcome closed;
  closed.weight = 0.5;
  const std::vector<PredictedOutcome> both(2, closed);
  const std::array<double, 2> meant{40.0, 0.0};
  states.learn(both, meant, 1e-6);
  EXPECT_DOUBLE_EQ(states.weight_of(closed), 0.5);
}

}  // namespace
}  // namespace ohmwright::locate
