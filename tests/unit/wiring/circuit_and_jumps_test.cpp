#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::ElementsAre;

TEST(Intermittent, ClippedProbesMakeItTheLeads) {
  const Findings findings = judge(lead(), {clipped("0.3 ohm"), clipped("OL")});
  EXPECT_EQ(text_of(findings, intermittent), "broken-inside");
  EXPECT_EQ(text_of(findings, end_to_end), "disagreeing");
  EXPECT_EQ(verdict_on(lead(), {clipped("0.3 ohm"), clipped("OL")}), Outcome::out_of_limits);
  EXPECT_EQ(verdict_on(lead(), {clipped("0.5 ohm"), clipped("9 ohm")}), Outcome::out_of_limits);
}

TEST(Intermittent, HandsMayBeWhatJumps) {
  for (const Typed& second : {Typed{.value = "OL"}, Typed{.value = "9 ohm"}, clipped("OL")}) {
    const Findings findings = judge(lead(), {{.value = "0.3 ohm"}, second});
    EXPECT_EQ(text_of(findings, intermittent), "perhaps-the-probes");
    EXPECT_TRUE(finding_of(findings, intermittent).holds_back);
    EXPECT_THAT(advice_of(findings), ElementsAre("clip-and-move"));
  }
  // A good drop does not clear a lead that comes and goes.
  EXPECT_EQ(verdict_on(lead(), {{.value = "0.3 ohm"}, {.value = "OL"}, across("0.1 V")}), Outcome::undecided);
}

TEST(Intermittent, NeedsNoRatings) {
  EXPECT_EQ(outcome_of(judge(nullptr, {clipped("0.3 ohm"), clipped("OL")}), intermittent), Outcome::out_of_limits);
}

TEST(Intermittent, SaysWhyItIsSilent) {
  EXPECT_EQ(text_of(judge(lead(), {{.value = "0.3 ohm"}}), intermittent), "one-reading");
  EXPECT_EQ(text_of(judge(lead(), {{.value = "0.3 ohm"}, {.value = "0.4 ohm"}}), intermittent), "steady");
  EXPECT_EQ(text_of(judge(lead(), {{.value = "0.3 ohm"}, in_circuit_ohms("OL")}), intermittent), "one-reading");
}

TEST(InCircuit, HighCondemnsOnceProvedDeadAndSwapped) {
  const std::vector<Typed> proved{in_circuit_ohms("5.2 ohm"), in_circuit_ohms("5.2 ohm", "resistance_swapped")};
  EXPECT_EQ(text_of(judge(splice(), proved), in_circuit), "everything-between-probes");
  EXPECT_EQ(verdict_on(splice(), proved), Outcome::out_of_limits);
  EXPECT_THAT(advice_of(judge(splice(), proved)), Contains("lift-an-end"));
  EXPECT_EQ(text_of(judge(splice(), {in_circuit_ohms("5.2 ohm")}), in_circuit), "high-not-proved");
  EXPECT_EQ(text_of(judge(splice(), {in_circuit_ohms("5.2 ohm"), in_circuit_ohms("9 ohm", "resistance_swapped")}),
                    in_circuit),
            "swapped-differ");
  EXPECT_EQ(text_of(judge(splice(), {in_circuit_ohms("OL"), in_circuit_ohms("OL", "resistance_swapped")}), in_circuit),
            "everything-between-probes");
}

TEST(InCircuit, WhatIsRightAloneOrUnderLoadIsNotCondemned) {
  const std::vector<Typed> proved{in_circuit_ohms("50 ohm"), in_circuit_ohms("50 ohm", "resistance_swapped")};
  const std::vector<Typed> loaded{across("5 mV"), proved[0], proved[1]};
  EXPECT_EQ(text_of(judge(splice(), loaded), in_circuit), "right-alone");
  EXPECT_EQ(verdict_on(splice(), loaded), Outcome::within_limits);
  EXPECT_THAT(advice_of(judge(splice(), loaded)), ::testing::Not(Contains("prove-dead-and-swap")));
  EXPECT_EQ(text_of(judge(splice(), {{.value = "0.3 ohm"}, proved[0], proved[1]}), in_circuit), "right-alone");
}

TEST(InCircuit, LowClearsNothing) {
  EXPECT_EQ(text_of(judge(splice(), {in_circuit_ohms("0.2 ohm")}), in_circuit), "clears-nothing");
  EXPECT_EQ(text_of(judge(splice(), {in_circuit_ohms("closed")}), in_circuit), "clears-nothing");
  EXPECT_THAT(advice_of(judge(splice(), {in_circuit_ohms("0.2 ohm")})), ElementsAre("lift-an-end"));
  EXPECT_EQ(verdict_on(splice(), {in_circuit_ohms("0.2 ohm")}), Outcome::undecided);
  EXPECT_EQ(text_of(judge(splice(), {in_circuit_ohms("0.2 ohm"), across("0.1 V")}), in_circuit), "beside-others");
  EXPECT_EQ(verdict_on(splice(), {in_circuit_ohms("0.2 ohm"), across("0.1 V")}), Outcome::within_limits);
}

TEST(InCircuit, SaysWhyItIsSilent) {
  EXPECT_EQ(text_of(judge(splice(), {{.value = "0.3 ohm"}}), in_circuit), "no-in-circuit");
  Typed live = in_circuit_ohms("0.3 ohm");
  live.supply = Supply::live;
  EXPECT_EQ(text_of(judge(splice(), {live}), in_circuit), "only-live");
  EXPECT_EQ(text_of(judge(nullptr, {in_circuit_ohms("0.3 ohm")}), in_circuit), "not-comparable");
}

}  // namespace
}  // namespace ohmwright::wiring
