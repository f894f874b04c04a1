#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::ElementsAre;

TEST(Drop, ClearsWhatOhmsCannot) {
  EXPECT_EQ(verdict_on(lead(), {{.value = "0.3 ohm"}, across("0.15 V")}), Outcome::within_limits);
  EXPECT_EQ(text_of(judge(lead(), {{.value = "0.3 ohm"}, across("0.15 V")}), end_to_end), "drop-within");
}

TEST(Drop, CondemnsAndSaysWhatItBurns) {
  const Findings findings = judge(splice(), {across("1.875 V")});
  EXPECT_EQ(outcome_of(findings, drop_under_load), Outcome::out_of_limits);
  EXPECT_NEAR(argument(finding_of(findings, drop_under_load), "heat"), 7.03125, 1e-12);
  EXPECT_NEAR(argument(finding_of(findings, drop_under_load), "resistance"), 0.5, 1e-12);
  EXPECT_NEAR(argument(finding_of(findings, drop_under_load), "allowed"), 0.375, 1e-12);
  EXPECT_EQ(verdict_on(splice(), {across("1.875 V")}), Outcome::out_of_limits);
}

TEST(Drop, NearItsLimitAKnownCurrentDecides) {
  EXPECT_EQ(text_of(judge(splice(), {across("0.375 V")}), drop_under_load), "not-told-apart");
  EXPECT_THAT(advice_of(judge(splice(), {across("0.375 V")})), ElementsAre("known-current"));
}

TEST(Drop, HasNoSign) {
  EXPECT_EQ(verdict_on(splice(), {across("-0.1 V")}), Outcome::within_limits);
  EXPECT_EQ(verdict_on(splice(), {across("-1.9 V")}), Outcome::out_of_limits);
}

TEST(Drop, NeedsItsCurrent) {
  EXPECT_EQ(text_of(judge(splice(), {across("0.1 V", "")}), drop_under_load), "no-current");
  EXPECT_THAT(advice_of(judge(splice(), {across("0.1 V", "")})), ElementsAre("say-load"));
  EXPECT_EQ(text_of(judge(splice(), {across("0.001 V", "0 A")}), drop_under_load), "no-current-flows");
  const Findings gap = judge(splice(), {across("100 V", "0 A")});
  EXPECT_EQ(text_of(gap, drop_under_load), "volts-without-current");
  EXPECT_TRUE(finding_of(gap, drop_under_load).holds_back);
  EXPECT_THAT(advice_of(gap), Contains("low-impedance"));
  // A clamp that reads less than twice its own doubt has seen no current.
  EXPECT_EQ(text_of(judge(splice(), {across("0.1 V", "0.1 A +- 0.1 A")}), drop_under_load), "no-current-flows");
}

TEST(Drop, IsReadLiveOrByABenchSupply) {
  Typed dead = across("0.02 V", "1 A +- 0.01 A");
  dead.supply = Supply::proved_dead;
  EXPECT_EQ(text_of(judge(splice(), {dead}), drop_under_load), "not-live");
  EXPECT_THAT(advice_of(judge(splice(), {dead})), ElementsAre("read-drop", "known-current"));
  dead.connection = Connection::lead_off;
  EXPECT_EQ(verdict_on(splice(), {dead}), Outcome::within_limits);
}

TEST(Drop, SaysWhyItIsSilent) {
  EXPECT_EQ(text_of(judge(splice(), {{.value = "0.3 ohm"}}), drop_under_load), "no-drop");
  EXPECT_EQ(text_of(judge(nullptr, {across("0.1 V")}), drop_under_load), "no-limit");
  EXPECT_EQ(text_of(judge(lead_without_length(), {across("0.1 V")}), drop_under_load), "no-limit");
}

TEST(Drop, LessThanSoMuchCopperHasIsNotOfThisLead) {
  Typed part_of_it = across("20 mV", "9 A +- 0.1 A");  // 2.2 milliohm
  part_of_it.length = "2 m";                           // of copper 34.5 milliohm
  const Findings findings = judge(lead(), {part_of_it});
  EXPECT_EQ(text_of(findings, end_to_end), "less-than-copper");
  EXPECT_EQ(text_of(findings, drop_under_load), "no-such-wire");
  EXPECT_THAT(advice_of(findings), ElementsAre("read-all-of-it"));
  EXPECT_EQ(verdict_on(lead(), {part_of_it}), Outcome::undecided);
  // The length of a class is a guess, and judges nobody's clips.
  EXPECT_EQ(text_of(judge(lead(), {across("20 mV", "9 A +- 0.1 A")}), end_to_end), "drop-within");
  Typed by_supply = across("20 mV", "1 A +- 0.1 A");  // 20 milliohm, where the least of such copper has 24.1
  by_supply.length = "2 m";
  EXPECT_EQ(text_of(judge(lead(), {by_supply}), end_to_end), "less-than-copper");
  part_of_it.value = "0.35 V";  // 39 milliohm
  EXPECT_EQ(verdict_on(lead(), {part_of_it}), Outcome::within_limits);
}

TEST(Drop, AndOhmsThatContradictEachOtherDecideNothing) {
  const Findings findings = judge(splice(), {{.value = "5.2 ohm"}, across("0.1 V")});
  EXPECT_EQ(text_of(findings, end_to_end), "contradicting");
  EXPECT_THAT(advice_of(findings), Contains("read-both-again"));
  EXPECT_EQ(verdict_on(splice(), {{.value = "5.2 ohm"}, across("0.1 V")}), Outcome::undecided);
  EXPECT_EQ(text_of(judge(splice(), {{.value = "5.2 ohm"}, across("0.375 V")}), end_to_end), "ohms-high");
  EXPECT_EQ(text_of(judge(splice(), {{.value = "5.2 ohm"}, across("1.9 V")}), end_to_end), "drop-high");
}

TEST(LoadRating, HoldsBackAWireThatIsTooSmallForItsPlace) {
  EXPECT_EQ(outcome_of(judge(splice(), {across("0.1 V")}), load_rating), Outcome::within_limits);
  const Findings overloaded = judge(splice(), {across("0.3 V", "16 A +- 0.3 A")});
  EXPECT_EQ(text_of(overloaded, load_rating), "carries-too-much");
  EXPECT_THAT(advice_of(overloaded), Contains("what-draws"));
  EXPECT_EQ(verdict_on(splice(), {across("0.3 V", "16 A +- 0.3 A")}), Outcome::undecided);
  EXPECT_EQ(text_of(judge(splice(), {across("0.3 V", "10 A +- 0.3 A")}), load_rating), "near-its-rating");
  EXPECT_EQ(text_of(judge(lead(), {across("0.3 V")}), load_rating), "no-rating");
  EXPECT_EQ(text_of(judge(splice(), {{.value = "0.3 ohm"}}), load_rating), "no-load");
}

}  // namespace
}  // namespace ohmwright::wiring
