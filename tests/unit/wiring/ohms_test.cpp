#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::Not;

TEST(EndToEnd, WhatDrownsInTheTestLeadsIsNeitherGoodNorBad) {
  for (const char* read : {"0.0 ohm", "0.1 ohm", "0.3 ohm", "0.5 ohm"}) {
    const Findings findings = judge(lead(), {{.value = read}});
    EXPECT_EQ(text_of(findings, end_to_end), "below-the-leads") << read;
    EXPECT_THAT(advice_of(findings), ElementsAre("read-drop", "known-current")) << read;
    EXPECT_EQ(verdict_on(lead(), {{.value = read}}), Outcome::undecided) << read;
  }
  EXPECT_NEAR(argument(finding_of(judge(lead(), {{.value = "0.3 ohm"}}), end_to_end), "doubt"), 0.3527, 1e-12);
}

TEST(EndToEnd, AFewOhmsCondemnEvenSo) {
  const Findings findings = judge(splice(), {{.value = "5.2 ohm"}});
  EXPECT_EQ(text_of(findings, end_to_end), "ohms-high");
  EXPECT_NEAR(finding_of(findings, end_to_end).measured->value_in_si(), 5.0, 1e-12);
  EXPECT_EQ(verdict_on(splice(), {{.value = "5.2 ohm"}}), Outcome::out_of_limits);
  EXPECT_THAT(advice_of(findings), ElementsAre("mend-joint", "replacement-by-look"));
}

TEST(EndToEnd, ALongLeadCanBeClearedByItsOhms) {
  EXPECT_EQ(text_of(judge(drum(), {{.value = "1.7 ohm", .at = "20 degC"}}), end_to_end), "ohms-within");
  EXPECT_EQ(verdict_on(drum(), {{.value = "1.7 ohm", .at = "20 degC"}}), Outcome::within_limits);
  EXPECT_EQ(text_of(judge(drum(), {{.value = "2.3 ohm", .at = "20 degC"}}), end_to_end), "ohms-unsure");
  EXPECT_EQ(text_of(judge(drum(), {{.value = "3.2 ohm", .at = "20 degC"}}), end_to_end), "ohms-high");
}

TEST(EndToEnd, LowOhmsWithBothEndsOnClearNothingButHighOnesCondemn) {
  const Typed low{.value = "1.7 ohm", .at = "20 degC", .connection = Connection::unstated};
  EXPECT_EQ(text_of(judge(drum(), {low}), end_to_end), "connection-unstated");
  EXPECT_THAT(advice_of(judge(drum(), {low})), Contains("lift-an-end"));
  EXPECT_EQ(verdict_on(drum(), {low}), Outcome::undecided);
  const Typed high{.value = "9.0 ohm", .connection = Connection::unstated};
  EXPECT_EQ(verdict_on(drum(), {high}), Outcome::out_of_limits);
}

TEST(EndToEnd, WhatNoSuchWireReadsIsNotJudged) {
  // 50 m of 0.5 mm² have 1.72 ohm of copper.
  const Findings zeroed = judge(splice(), {{.value = "0.0 ohm +- 0.01 ohm"}});
  EXPECT_EQ(text_of(zeroed, end_to_end), "less-than-leads");
  EXPECT_THAT(advice_of(zeroed), Contains("say-leads"));
  EXPECT_EQ(verdict_on(splice(), {{.value = "0.0 ohm +- 0.01 ohm"}}), Outcome::undecided);
  const Typed half{.value = "0.8 ohm", .at = "20 degC", .length = "50 m"};
  EXPECT_EQ(text_of(judge(drum(), {half}), end_to_end), "fewer-than-copper");
  EXPECT_THAT(advice_of(judge(drum(), {half})), Contains("read-all-of-it"));
  EXPECT_EQ(verdict_on(drum(), {half}), Outcome::undecided);
  EXPECT_EQ(verdict_on(drum(), {{.value = "1.7 ohm", .at = "20 degC", .length = "50 m"}}), Outcome::within_limits);
}

TEST(EndToEnd, WarmCopperMayHaveMore) {
  const auto limit = [](std::string_view at) {
    return argument(finding_of(judge(drum(), {{.value = "1.7 ohm", .at = at}}), end_to_end), "limit");
  };
  EXPECT_NEAR(limit("20 degC"), 2.105, 1e-12);
  EXPECT_NEAR(limit("60 degC"), 2.005 * (1.0 + 0.00393 * 40.0) + 0.1, 1e-12);
}

TEST(EndToEnd, AnUnstatedWarmthIsADoubtOfItsOwn) {
  const auto doubt = [](std::string_view at) {
    return *finding_of(judge(drum(), {{.value = "1.7 ohm", .at = at}}), end_to_end).measured_uncertainty;
  };
  EXPECT_GT(doubt(""), doubt("20 degC +- 1 K"));
  EXPECT_NEAR(
      doubt("") * doubt(""),
      doubt("20 degC +- 0 K") * doubt("20 degC +- 0 K") + 2.005 * 0.00393 * 20.0 * (2.005 * 0.00393 * 20.0) / 3.0,
      1e-12);
}

TEST(EndToEnd, TheMeasuredLengthGoesBeforeTheRatedOne) {
  const Typed longer{.value = "0.3 ohm", .at = "20 degC", .length = "3 m +- 0 m"};
  EXPECT_NEAR(argument(finding_of(judge(lead(), {longer}), end_to_end), "limit"), 0.16, 1e-12);
  EXPECT_EQ(text_of(judge(lead_without_length(), {{.value = "0.3 ohm"}}), end_to_end), "no-length");
  EXPECT_THAT(advice_of(judge(lead_without_length(), {{.value = "0.3 ohm"}})), ElementsAre("say-length"));
  EXPECT_EQ(text_of(judge(lead_without_length(), {longer}), end_to_end), "below-the-leads");
}

TEST(EndToEnd, WithoutRatingsOnlyWhatNoWiringHasIsSaid) {
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "0.3 ohm"}}), end_to_end), "no-ratings");
  EXPECT_EQ(text_of(judge(nullptr, {{.value = "12.0 ohm"}}), end_to_end), "high-without-ratings");
  EXPECT_THAT(advice_of(judge(nullptr, {{.value = "12.0 ohm"}})), Contains("say-ratings"));
}

TEST(EndToEnd, SaysWhyItIsSilent) {
  EXPECT_EQ(text_of(judge(splice(), {tester("20 Mohm")}), end_to_end), "no-reading");
  EXPECT_EQ(text_of(judge(splice(), {across("0.1 V", "")}), end_to_end), "drop-leaves-open");
  EXPECT_EQ(text_of(judge(splice(), {in_circuit_ohms("0.3 ohm")}), end_to_end), "only-in-circuit");
  EXPECT_EQ(text_of(judge(splice(), {{.value = "0.3 ohm", .supply = Supply::live}}), end_to_end), "only-live");
  EXPECT_EQ(text_of(judge(splice(), {{.value = "closed"}}), end_to_end), "only-continuity");
}

TEST(EndToEnd, EveryUndecidedHasSomethingToDo) {
  const std::vector<std::vector<Typed>> cases{{{.value = "0.3 ohm"}},
                                              {{.value = "closed"}},
                                              {tester("20 Mohm")},
                                              {ohmmeter("OL")},
                                              {in_circuit_ohms("0.3 ohm")},
                                              {{.value = "0.3 ohm", .supply = Supply::live}},
                                              {{.value = "0.3 ohm"}, {.value = "OL"}},
                                              {across("0.36 V")},
                                              {across("0.1 V", "")},
                                              {across("0.1 V", "0 A")},
                                              {across("100 V", "0 A")}};
  for (const auto& readings : cases)
    for (const WiringRatings& known : {splice(), lead_without_length()})
      if (verdict_on(known, readings) == Outcome::undecided) {
        EXPECT_THAT(advice_of(judge(known, readings)), Not(::testing::IsEmpty())) << readings.front().value;
      }
}

TEST(Open, PastTheMostThatAGoodOneHas) {
  EXPECT_EQ(verdict_on(lead(), {{.value = "OL"}}), Outcome::out_of_limits);
  EXPECT_EQ(verdict_on(lead_without_length(), {{.value = "open"}}), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge(nullptr, {{.value = "OL"}}), open_lead), Outcome::out_of_limits);
  EXPECT_EQ(text_of(judge(drum(), {{.value = "OL", .range = "2 ohm"}}), open_lead), "range-too-low");
  EXPECT_THAT(advice_of(judge(drum(), {{.value = "OL", .range = "2 ohm"}})), Contains("higher-range"));
}

TEST(Open, SaysWhyItIsSilent) {
  EXPECT_EQ(text_of(judge(lead(), {{.value = "0.3 ohm"}}), open_lead), "no-over-range");
  EXPECT_EQ(text_of(judge(lead(), {in_circuit_ohms("OL")}), open_lead), "only-in-circuit");
  EXPECT_EQ(text_of(judge(lead(), {{.value = "OL", .supply = Supply::live}}), open_lead), "only-live");
  EXPECT_EQ(text_of(judge(lead(), {{.value = "OL"}, {.value = "0.3 ohm"}}), open_lead), "path-seen");
}

}  // namespace
}  // namespace ohmwright::wiring
