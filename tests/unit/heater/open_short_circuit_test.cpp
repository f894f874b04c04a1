#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "heater_fixture.hpp"
#include "rules/generic_classes.hpp"

namespace ohmwright::heater {
namespace {

using namespace testing_support;
using ::testing::Contains;

std::string said(RuleIndex rule, const HeaterRatings* known, const std::vector<Typed>& typed, Outcome expected) {
  const Findings findings = judge(known, typed);
  EXPECT_EQ(outcome_of(findings, rule), expected);
  return std::string(text_of(findings, rule));
}

TEST(OpenElement, CondemnsOnlyPastWhatAGoodOneReads) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(open_element, &known, {{.value = "OL"}}, Outcome::out_of_limits), "open");
  // More than 200 ohm need not be open: a bad joint reads so too.
  EXPECT_EQ(said(open_element, &known, {{.value = "OL", .range = "600 ohm"}}, Outcome::out_of_limits),
            "open-or-far-too-high");
  EXPECT_EQ(said(open_element, nullptr, {{.value = "OL"}}, Outcome::out_of_limits), "open");
  EXPECT_EQ(said(open_element, nullptr, {{.value = "OL", .range = "600 ohm"}}, Outcome::undecided), "range-too-low");
  const HeaterRatings small = ratings(R"({"voltage": "230 V", "power": "15 W"})");  // 3.5 kohm
  EXPECT_EQ(said(open_element, &small, {{.value = "OL", .range = "600 ohm"}}, Outcome::undecided), "range-too-low");
  EXPECT_THAT(advice_of(judge(small, {{.value = "OL", .range = "600 ohm"}})), Contains("higher-range"));
  EXPECT_EQ(said(open_element, &known, {{.value = "OL"}, {.value = "32 ohm"}}, Outcome::undecided), "comes-and-goes");
}

TEST(OpenElement, SaysWhyItIsSilent) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(open_element, &known, {{.value = "32 ohm"}}, Outcome::silent), "no-over-range");
  EXPECT_EQ(said(open_element, &known, {in_circuit_ohms("OL")}, Outcome::silent), "only-in-circuit");
  EXPECT_EQ(said(open_element, &known, {{.value = "OL", .supply = Supply::live}}, Outcome::silent), "only-live");
}

TEST(ShortElement, IsWhatTheLeadsAloneRead) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(short_element, &known, {{.value = "0.2 ohm"}}, Outcome::out_of_limits), "shorted");
  EXPECT_EQ(said(short_element, nullptr, {{.value = "0.2 ohm"}}, Outcome::out_of_limits), "shorted");
  EXPECT_EQ(said(short_element, &known, {{.value = "0.2 ohm", .connection = Connection::unstated}}, Outcome::undecided),
            "connection-unstated");
  EXPECT_EQ(said(short_element, &known, {{.value = "32 ohm"}}, Outcome::silent), "no-short");
  EXPECT_EQ(said(short_element, &known, {in_circuit_ohms("0.2 ohm")}, Outcome::silent), "only-in-circuit");
  EXPECT_EQ(said(short_element, &known, {{.value = "0.2 ohm", .supply = Supply::live}}, Outcome::silent), "only-live");
  const HeaterRatings large = ratings(R"({"voltage": "120 V", "power": "12 kW"})");  // 1.2 ohm
  EXPECT_EQ(said(short_element, &large, {{.value = "0.2 ohm"}}, Outcome::silent), "low-by-rating");
}

TEST(InCircuit, HighCondemnsOnceProvedDeadAndSwapped) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(in_circuit, &known, {in_circuit_ohms("OL"), in_circuit_ohms("OL", "resistance_swapped")},
                 Outcome::out_of_limits),
            "everything-between-probes");
  EXPECT_EQ(said(in_circuit, &known, {in_circuit_ohms("60 ohm"), in_circuit_ohms("60.2 ohm", "resistance_swapped")},
                 Outcome::out_of_limits),
            "everything-between-probes");
  EXPECT_EQ(said(in_circuit, &known, {in_circuit_ohms("60 ohm"), in_circuit_ohms("80 ohm", "resistance_swapped")},
                 Outcome::undecided),
            "swapped-differ");
  EXPECT_EQ(said(in_circuit, &known, {in_circuit_ohms("OL")}, Outcome::undecided), "high-not-proved");
  EXPECT_THAT(advice_of(judge(known, {in_circuit_ohms("OL")})), Contains("prove-dead-and-swap"));
}

TEST(InCircuit, WhatIsRightAloneIsNotCondemned) {
  const HeaterRatings known = plain();
  const std::vector<Typed> open{in_circuit_ohms("OL"), in_circuit_ohms("OL", "resistance_swapped")};
  const auto beside = [&](Typed alone) { return std::vector<Typed>{alone, open[0], open[1]}; };
  EXPECT_EQ(said(in_circuit, &known, beside({.value = "32.2 ohm"}), Outcome::undecided), "right-alone");
  const auto advice = advice_of(judge(known, beside({.value = "32.2 ohm"})));
  EXPECT_THAT(advice, ::testing::Not(Contains("lift-a-lead")));
  EXPECT_THAT(advice, ::testing::Not(Contains("prove-dead-and-swap")));
  const Typed unstated{.value = "32.2 ohm", .connection = Connection::unstated};
  EXPECT_EQ(said(in_circuit, &known, beside(unstated), Outcome::undecided), "right-where-unstated");
  EXPECT_EQ(verdict_on(known, beside(unstated)), Outcome::undecided);
  // Wrong alone, it is condemned by that.
  EXPECT_EQ(said(in_circuit, &known, beside({.value = "90 ohm"}), Outcome::undecided), "beside-others");
  EXPECT_EQ(verdict_on(known, beside({.value = "90 ohm"})), Outcome::out_of_limits);
}

TEST(InCircuit, LowAndRightDecideNothing) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(in_circuit, &known, {in_circuit_ohms("20 ohm")}, Outcome::undecided), "low-means-nothing");
  EXPECT_EQ(said(in_circuit, &known, {in_circuit_ohms("32 ohm")}, Outcome::undecided), "clears-nothing");
  EXPECT_THAT(advice_of(judge(known, {in_circuit_ohms("20 ohm")})), Contains("lift-a-lead"));
  EXPECT_EQ(said(in_circuit, &known, {in_circuit_ohms("20 ohm"), {.value = "32 ohm"}}, Outcome::undecided),
            "beside-others");
  EXPECT_EQ(said(in_circuit, nullptr, {in_circuit_ohms("32 ohm")}, Outcome::undecided), "not-comparable");
  EXPECT_EQ(said(in_circuit, &known, {{.value = "32 ohm"}}, Outcome::silent), "no-in-circuit");
  Typed live = in_circuit_ohms("32 ohm");
  live.supply = Supply::live;
  EXPECT_EQ(said(in_circuit, &known, {live}, Outcome::silent), "only-live");
}

TEST(MatchingClass, EveryClassIsNearestToItself) {
  for (const GenericClass& generic : generic_classes()) {
    const std::string typed = std::to_string(generic.ohms() + 0.2) + " ohm";  // the leads are taken off
    const Findings findings = judge(nullptr, {{.value = typed}});
    EXPECT_EQ(outcome_of(findings, matching_class), Outcome::undecided);
    const auto& arguments = finding_of(findings, matching_class).arguments;
    const auto first = std::find_if(arguments.begin(), arguments.end(),
                                    [](const FindingArgument& argument) { return argument.name == "first"; });
    ASSERT_NE(first, arguments.end());
    EXPECT_EQ(std::get<std::string>(first->value), generic.name);
  }
}

TEST(MatchingClass, SaysWhyItIsSilent) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(matching_class, &known, {{.value = "32 ohm"}}, Outcome::silent), "ratings-known");
  EXPECT_EQ(said(matching_class, nullptr, {{.value = "OL"}}, Outcome::silent), "no-reading");
  EXPECT_THAT(advice_of(judge(nullptr, {{.value = "32 ohm"}})), Contains("say-ratings"));
}

}  // namespace
}  // namespace ohmwright::heater
