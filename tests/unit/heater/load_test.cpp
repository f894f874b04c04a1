#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "heater_fixture.hpp"

namespace ohmwright::heater {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::Not;

std::string text(const HeaterRatings* known, const std::vector<Typed>& typed, Outcome expected) {
  const Findings findings = judge(known, typed);
  EXPECT_EQ(outcome_of(findings, power_under_load), expected);
  return std::string(text_of(findings, power_under_load));
}

TEST(PowerUnderLoad, StandsToItsRatedPower) {
  const HeaterRatings known = plain();
  EXPECT_EQ(text(&known, {clamp("3.60 A", "118 V +- 1 V")}, Outcome::within_limits), "enough");
  EXPECT_EQ(text(&known, {clamp("5.00 A", "120 V +- 1 V")}, Outcome::out_of_limits), "too-much");
  // A joint on the way may take the rest: its own ohms, or volts across its own leads, condemn it.
  const Typed half = clamp("2.00 A", "120 V +- 1 V");
  EXPECT_EQ(text(&known, {half}, Outcome::undecided), "too-little-perhaps-joint");
  EXPECT_EQ(text(&known, {half, {.value = "60.0 ohm"}}, Outcome::out_of_limits), "too-little");
  EXPECT_EQ(text(&known, {clamp("3.98 A", "120 V +- 2 V")}, Outcome::undecided), "not-told-apart");
  EXPECT_EQ(text(&known, {clamp("0.02 A", "120 V +- 1 V")}, Outcome::undecided), "next-to-nothing");
  EXPECT_EQ(text(&known, {clamp("3.60 A", {})}, Outcome::undecided), "no-line-voltage");
}

TEST(PowerUnderLoad, WattsOfAPlugAreAtMostThoseOfTheElement) {
  const HeaterRatings known = plain();
  EXPECT_EQ(text(&known, {plug("450 W", "120 V +- 1 V")}, Outcome::within_limits), "enough-at-plug");
  EXPECT_EQ(text(&known, {plug("300 W", "120 V +- 1 V")}, Outcome::undecided), "too-little-at-plug");
  const Findings more = judge(plain(), {plug("650 W", "120 V +- 1 V"), tester("20 Mohm")});
  EXPECT_EQ(text_of(more, power_under_load), "more-at-plug");
  EXPECT_EQ(text_of(more, element_resistance), "load-leaves-open");
  EXPECT_THAT(advice_of(more), Contains("clamp-alone"));
  EXPECT_FALSE(finding_of(more, power_under_load).judged);
}

TEST(PowerUnderLoad, WattsAreReadUnderPowerAlsoWhereNobodySaysSo) {
  const HeaterRatings known = plain();
  Typed watts = plug("450 W", "120 V +- 1 V");
  watts.supply = Supply::unstated;
  EXPECT_EQ(text(&known, {watts}, Outcome::within_limits), "enough-at-plug");
  watts.supply = Supply::unplugged;
  EXPECT_EQ(text(&known, {watts}, Outcome::silent), "not-live");
  Typed amperes = clamp("3.6 A", "120 V +- 1 V");
  amperes.supply = Supply::unstated;
  EXPECT_EQ(text(&known, {amperes}, Outcome::silent), "not-live");
}

TEST(PowerUnderLoad, FarFromItsRatedVoltsTheVoltsAreLookedFor) {
  const HeaterRatings dryer = ratings(R"({"voltage": "240 V", "power": "5.2 kW"})");
  const Findings findings = judge(dryer, {clamp("10.8 A", "120 V +- 1 V")});
  EXPECT_EQ(text_of(findings, power_under_load), "far-from-rated");
  EXPECT_NEAR(argument(finding_of(findings, power_under_load), "expected"), 1300.0, 1e-9);
  EXPECT_THAT(advice_of(findings), Contains("find-the-volts"));
  EXPECT_THAT(advice_of(findings), Contains("read-cold"));
  EXPECT_EQ(text_of(findings, element_resistance), "load-leaves-open");
}

// Joule: twice the volts make four times the heat; before anything else it is switched off.
TEST(PowerUnderLoad, FarAboveItsRatedVoltsItIsSwitchedOffFirst) {
  const std::vector<Typed> at_twice{clamp("7.5 A", "240 V +- 1 V"), across("240 V")};
  const Findings findings = judge(plain(), at_twice);
  EXPECT_EQ(text_of(findings, power_under_load), "far-above-rated");
  EXPECT_NEAR(argument(finding_of(findings, power_under_load), "times"), 4.0, 1e-9);
  EXPECT_EQ(advice_of(findings).front(), "switch-off-now");
  EXPECT_THAT(advice_of(findings), ::testing::Not(Contains("find-the-volts")));
  EXPECT_EQ(verdict_on(plain(), {{.value = "32 ohm"}, clamp("7.5 A", "240 V +- 1 V")}), Outcome::undecided);
  // 28.4 ohm lie near an end; nothing is heated on 240 V to decide that.
  const auto near_end = advice_of(judge(plain(), {{.value = "28.4 ohm"}, tester("20 Mohm"), across("240 V")}));
  EXPECT_EQ(near_end.front(), "switch-off-now");
  for (const char* heats : {"clamp-under-load", "clamp-with-volts", "volts-at-element"})
    EXPECT_THAT(near_end, ::testing::Not(Contains(heats)));
}

TEST(PowerUnderLoad, SaysWhyItIsSilent) {
  const HeaterRatings known = plain();
  EXPECT_EQ(text(&known, {{.value = "32 ohm"}}, Outcome::silent), "no-load");
  EXPECT_EQ(text(nullptr, {clamp("3.6 A", "120 V")}, Outcome::silent), "no-rated-power");
}

TEST(ColdAndLoad, WhatItDrawsDecidesWhereTheOhmsDoNot) {
  const Findings findings = judge(plain(), {{.value = "28.4 ohm"}, clamp("3.70 A", "119 V +- 1 V")});
  EXPECT_EQ(text_of(findings, element_resistance), "by-load-within");
  EXPECT_EQ(verdict_on(plain(), {{.value = "28.4 ohm"}, clamp("3.70 A", "119 V +- 1 V")}), Outcome::within_limits);
}

TEST(ColdAndLoad, AnAlloyThatGainsMoreIsNotCondemned) {
  const std::vector<Typed> both{{.value = "27.3 ohm"}, clamp("3.75 A", "120 V +- 0.5 V")};
  EXPECT_EQ(text_of(judge(plain(), both), element_resistance), "by-load-gains-more");
  EXPECT_EQ(verdict_on(plain(), both), Outcome::within_limits);
  EXPECT_EQ(verdict_on(plain(), {{.value = "27.3 ohm"}}), Outcome::out_of_limits);
  // Of a known alloy, and of stated ohms, there is nothing to guess.
  const HeaterRatings known = ratings(R"({"voltage": "120 V", "power": "450 W", "alloy": "nicr-80-20"})");
  EXPECT_EQ(text_of(judge(known, both), element_resistance), "contradicting");
  const HeaterRatings stated =
      ratings(R"({"voltage": "120 V", "power": "450 W", "resistance": "31.5 ohm", "resistance_tolerance": "5 %"})");
  EXPECT_EQ(text_of(judge(stated, both), element_resistance), "contradicting");
}

TEST(ColdAndLoad, WhatNoWireDoesIsAContradiction) {
  for (const std::string_view value : {"20.0 ohm", "45.0 ohm"}) {
    const Findings findings = judge(plain(), {{.value = value}, clamp("3.75 A", "120 V +- 0.5 V"), tester("20 Mohm")});
    EXPECT_EQ(text_of(findings, element_resistance), "contradicting") << value;
    EXPECT_EQ(outcome_of(findings, element_resistance), Outcome::undecided) << value;
    EXPECT_THAT(advice_of(findings), Contains("read-both-again")) << value;
  }
  // Others on the plug make up for what a weak one lacks: its ohms condemn it.
  EXPECT_EQ(verdict_on(plain(), {{.value = "45.0 ohm"}, plug("450 W", "120 V +- 1 V")}), Outcome::out_of_limits);
  // Both say the same: condemned.
  EXPECT_EQ(verdict_on(plain(), {{.value = "20.0 ohm"}, clamp("5.90 A", "120 V +- 1 V")}), Outcome::out_of_limits);
}

TEST(ColdAndLoad, RightWhenColdItIsNotCondemnedByTheVoltsOfTheOutlet) {
  const Findings less = judge(plain(), {{.value = "32.2 ohm"}, clamp("2.0 A", "118 V +- 1 V"), tester("20 Mohm")});
  EXPECT_EQ(text_of(less, power_under_load), "less-than-its-ohms");
  EXPECT_TRUE(finding_of(less, power_under_load).holds_back);
  EXPECT_THAT(advice_of(less), Contains("volts-and-amperes-at-element"));
  const Findings more = judge(plain(), {{.value = "32.2 ohm"}, clamp("5.5 A", "118 V +- 1 V"), tester("20 Mohm")});
  EXPECT_EQ(text_of(more, power_under_load), "more-than-its-ohms");
  EXPECT_THAT(advice_of(more), Contains("clamp-alone"));
  EXPECT_THAT(advice_of(more), Not(Contains("volts-and-amperes-at-element")));
  EXPECT_EQ(verdict_on(plain(), {{.value = "32.2 ohm"}, clamp("5.5 A", "118 V +- 1 V")}), Outcome::undecided);
}

TEST(ColdAndLoad, VoltsAcrossItsOwnLeadsCountBeforeThoseOfTheOutlet) {
  const std::vector<Typed> dropped{{.value = "32.2 ohm"}, clamp("3.25 A", "120 V +- 1 V"), across("104 V")};
  EXPECT_EQ(text_of(judge(plain(), dropped), power_under_load), "enough");
  EXPECT_EQ(verdict_on(plain(), dropped), Outcome::within_limits);
  const std::vector<Typed> opens{{.value = "32.2 ohm"}, clamp("2.0 A", "118 V +- 1 V"), across("118 V")};
  EXPECT_EQ(text_of(judge(plain(), opens), power_under_load), "too-little-at-element");
  EXPECT_EQ(verdict_on(plain(), opens), Outcome::out_of_limits);
}

TEST(SupplyWithoutCurrent, VoltsWithoutCurrentAreAGap) {
  const auto said = [](const std::vector<Typed>& typed, Outcome expected) {
    const Findings findings = judge(plain(), typed);
    EXPECT_EQ(outcome_of(findings, supply_without_current), expected);
    return std::string(text_of(findings, supply_without_current));
  };
  EXPECT_EQ(said({{.value = "32 ohm"}, clamp("0.01 A", {}), across("119 V")}, Outcome::out_of_limits), "fed-and-cold");
  EXPECT_EQ(said({clamp("3.7 A", {}), across("119 V")}, Outcome::undecided), "fed-and-heating");
  EXPECT_EQ(said({clamp("0.01 A", {}), across("0.4 V")}, Outcome::undecided), "not-fed");
  EXPECT_EQ(said({across("119 V")}, Outcome::undecided), "current-unknown");
  EXPECT_EQ(said({{.value = "32 ohm"}}, Outcome::silent), "no-volts");
  Typed dead = across("119 V");
  dead.supply = Supply::unplugged;
  EXPECT_EQ(said({dead}, Outcome::silent), "not-live");
  // Amperes of which it is not known that it was plugged in are no witness.
  Typed unsaid = clamp("0.01 A", {});
  unsaid.supply = Supply::unstated;
  EXPECT_EQ(said({unsaid, across("119 V")}, Outcome::undecided), "current-unknown");
}

TEST(SupplyWithoutCurrent, AdviceLeadsOn) {
  EXPECT_THAT(advice_of(judge(plain(), {across("119 V"), tester("20 Mohm")})), Contains("clamp-with-volts"));
  EXPECT_THAT(advice_of(judge(plain(), {clamp("0.01 A", {}), across("0.4 V")})), Contains("look-upstream"));
  EXPECT_THAT(advice_of(judge(plain(), {clamp("0.01 A", {}), across("119 V"), tester("20 Mohm")})),
              Contains("opens-when-hot"));
}

// No amperes through an element that is whole when cold: whatever is open lies before it, or it is not heated at all.
TEST(SupplyWithoutCurrent, AWholeElementIsNotHeatedToProveIt) {
  for (const bool tested : {false, true}) {
    std::vector<Typed> at_the_outlet{{.value = "32.2 ohm"}, clamp("0 A", "120 V +- 1 V")};
    std::vector<Typed> at_its_leads{{.value = "32.2 ohm"}, clamp("0 A", {}), across("119 V")};
    if (tested) {
      at_the_outlet.push_back(tester("20 Mohm"));
      at_its_leads.push_back(tester("20 Mohm"));
    }
    const auto before = advice_of(judge(plain(), at_the_outlet));
    EXPECT_THAT(before, Contains("look-upstream"));
    EXPECT_THAT(before, Not(Contains("volts-at-element")));
    const auto across_it = advice_of(judge(plain(), at_its_leads));
    EXPECT_THAT(across_it, Contains("look-upstream-first"));
    EXPECT_THAT(across_it, Not(Contains("opens-when-hot")));
  }
}

}  // namespace
}  // namespace ohmwright::heater
