#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "heater_fixture.hpp"

namespace ohmwright::heater {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::Not;

struct Case {
  std::string_view value;
  Outcome outcome;
  std::string_view text;
};

TEST(ElementResistance, StandsToItsColdLimits) {
  for (const Case& one :
       {Case{"32.2 ohm", Outcome::within_limits, "cold-within"}, Case{"45.0 ohm", Outcome::out_of_limits, "cold-high"},
        Case{"20.0 ohm", Outcome::out_of_limits, "cold-low"}, Case{"28.4 ohm", Outcome::undecided, "cold-unsure"},
        Case{"35.7 ohm", Outcome::undecided, "cold-unsure"}}) {
    const Findings findings = judge(plain(), {{.value = one.value}});
    EXPECT_EQ(outcome_of(findings, element_resistance), one.outcome) << one.value;
    EXPECT_EQ(text_of(findings, element_resistance), one.text) << one.value;
  }
}

TEST(ElementResistance, ShortedTurnsShowAsTheShareThatIsLost) {
  // A quarter of 32 ohm bridged: 24 ohm beside 0.2 ohm of leads.
  const Findings findings = judge(plain(), {{.value = "24.2 ohm"}});
  EXPECT_EQ(outcome_of(findings, element_resistance), Outcome::out_of_limits);
  EXPECT_NEAR(argument(finding_of(findings, element_resistance), "off_percent"), 25.0, 1e-9);
}

TEST(ElementResistance, OneOfTwoOpenIsNamed) {
  EXPECT_EQ(text_of(judge(pair(), {{.value = "48.2 ohm"}}), element_resistance), "cold-one-of-two");
  EXPECT_EQ(text_of(judge(pair(), {{.value = "36.0 ohm"}}), element_resistance), "cold-high");
  EXPECT_EQ(text_of(judge(plain(), {{.value = "64.2 ohm"}}), element_resistance), "cold-high");
}

TEST(ElementResistance, LowWithItsLeadsOnCondemnsNothing) {
  const Findings findings = judge(plain(), {{.value = "20.0 ohm", .connection = Connection::unstated}});
  EXPECT_EQ(text_of(findings, element_resistance), "low-connection-unstated");
  EXPECT_EQ(outcome_of(findings, element_resistance), Outcome::undecided);
  EXPECT_THAT(advice_of(findings), Contains("lift-a-lead"));
  // A path beside it can only lower: too high condemns, right passes and says what was taken for granted.
  EXPECT_EQ(outcome_of(judge(plain(), {{.value = "45 ohm", .connection = Connection::unstated}}), element_resistance),
            Outcome::out_of_limits);
  EXPECT_EQ(text_of(judge(plain(), {{.value = "32 ohm", .connection = Connection::unstated}}), element_resistance),
            "connection-unstated");
}

TEST(ElementResistance, AHotOneIsBroughtBackToCold) {
  const HeaterRatings known = ratings(R"({"voltage": "120 V", "power": "450 W", "alloy": "nicr-60-15"})");
  const Findings findings = judge(known, {{.value = "32.0 ohm", .at = "300 degC +- 20 K"}});
  EXPECT_EQ(text_of(findings, element_resistance), "brought-within");
  EXPECT_NEAR(finding_of(findings, element_resistance).measured->value_in_si(), 31.8 / 1.038, 1e-9);
  EXPECT_EQ(text_of(judge(known, {{.value = "50 ohm", .at = "300 degC +- 20 K"}}), element_resistance), "brought-high");
  EXPECT_EQ(text_of(judge(known, {{.value = "20 ohm", .at = "300 degC +- 20 K"}}), element_resistance), "brought-low");
  const Findings near_end = judge(known, {{.value = "29.4 ohm", .at = "300 degC +- 20 K"}});
  EXPECT_EQ(text_of(near_end, element_resistance), "brought-unsure");
  EXPECT_THAT(advice_of(near_end), Contains("let-it-cool"));
}

TEST(ElementResistance, AFrozenOneIsNotCalledHot) {
  const Findings findings = judge(plain(), {{.value = "31 ohm", .at = "-18 degC +- 2 K"}});
  EXPECT_EQ(text_of(findings, element_resistance), "brought-within");
  EXPECT_NEAR(argument(finding_of(findings, element_resistance), "read_at"), 255.15, 1e-9);
  const Findings near_end = judge(plain(), {{.value = "35.6 ohm", .at = "-18 degC +- 2 K"}});
  EXPECT_EQ(text_of(near_end, element_resistance), "brought-unsure");
  EXPECT_THAT(advice_of(near_end), Not(Contains("let-it-cool")));
}

TEST(ElementResistance, AHotOneOfUnknownWireGetsTheRoomThatItsAlloyMayNeed) {
  const Finding cold = finding_of(judge(plain(), {{.value = "32.2 ohm"}}), element_resistance);
  const Finding hot = finding_of(judge(plain(), {{.value = "32.2 ohm", .at = "300 degC +- 20 K"}}), element_resistance);
  EXPECT_LT(hot.limits.lower->value_in_si(), cold.limits.lower->value_in_si());
  EXPECT_GT(hot.limits.upper->value_in_si(), cold.limits.upper->value_in_si());
}

TEST(ElementResistance, ReadingsThatDisagreeProveNothing) {
  const Findings findings = judge(plain(), {{.value = "32.0 ohm"}, {.value = "29.0 ohm", .at = "21 degC +- 1 K"}});
  EXPECT_EQ(text_of(findings, element_resistance), "disagreeing");
  EXPECT_THAT(advice_of(findings), Contains("firm-probes"));
}

TEST(ElementResistance, SaysWhyItIsSilent) {
  const auto why = [](const HeaterRatings* known, const Typed& typed) {
    const Findings findings = judge(known, {typed});
    EXPECT_EQ(outcome_of(findings, element_resistance), Outcome::silent);
    return std::string(text_of(findings, element_resistance));
  };
  const HeaterRatings known = plain();
  EXPECT_EQ(why(nullptr, {.value = "32 ohm"}), "no-ratings");
  EXPECT_EQ(why(&known, tester("20 Mohm")), "no-reading");
  EXPECT_EQ(why(&known, in_circuit_ohms("32 ohm")), "only-in-circuit");
  EXPECT_EQ(why(&known, {.value = "32 ohm", .supply = Supply::live}), "only-live");
  EXPECT_EQ(why(&known, clamp("3.6 A", {})), "load-leaves-open");
}

TEST(ElementResistance, NearAnEndTheClampIsNamedAndTheBetterMeterWithItsChance) {
  const Findings findings = judge(plain(), {{.value = "28.4 ohm"}, tester("20 Mohm")});
  EXPECT_THAT(advice_of(findings), Contains("clamp-under-load"));
  for (const Advice& advice : findings.advice()) {
    if (advice.text == better_meter) {
      EXPECT_GE(*advice.probability_decided, 0.2);
    }
  }
  EXPECT_THAT(advice_of(judge(plain(), {{.value = "32.2 ohm"}})), Not(Contains("clamp-under-load")));
}

}  // namespace
}  // namespace ohmwright::heater
