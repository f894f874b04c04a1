#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "heater_fixture.hpp"

namespace ohmwright::heater {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::HasSubstr;

std::string said(const HeaterRatings* known, const std::vector<Typed>& typed, Outcome expected) {
  const Findings findings = judge(known, typed);
  EXPECT_EQ(outcome_of(findings, insulation), expected);
  return std::string(text_of(findings, insulation));
}

TEST(Insulation, ATesterDecides) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(&known, {tester("20 Mohm")}, Outcome::within_limits), "insulates");
  EXPECT_EQ(said(&known, {tester("OL")}, Outcome::within_limits), "insulates-past-range");
  EXPECT_EQ(said(&known, {tester("0.2 Mohm")}, Outcome::out_of_limits), "leaks");
  EXPECT_EQ(said(&known, {tester("1.00 Mohm")}, Outcome::undecided), "not-told-apart");
  EXPECT_EQ(said(nullptr, {tester("0.2 Mohm")}, Outcome::out_of_limits), "leaks");
}

TEST(Insulation, AnOhmmeterFindsAShortAndProvesNothing) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(&known, {ohmmeter("OL")}, Outcome::undecided), "ohmmeter-past-range");
  EXPECT_EQ(said(&known, {ohmmeter("30 Mohm")}, Outcome::undecided), "ohmmeter-is-no-tester");
  EXPECT_EQ(said(&known, {ohmmeter("50 kohm")}, Outcome::out_of_limits), "leaks");
  EXPECT_THAT(advice_of(judge(known, {ohmmeter("OL")})), Contains("insulation-tester"));
  EXPECT_EQ(verdict_on(known, {{.value = "32 ohm"}}), Outcome::within_limits);
  EXPECT_EQ(verdict_on(known, {{.value = "32 ohm"}, ohmmeter("OL")}), Outcome::undecided);
  EXPECT_EQ(verdict_on(known, {{.value = "32 ohm"}, ohmmeter("30 Mohm")}), Outcome::undecided);
  EXPECT_EQ(verdict_on(known, {{.value = "32 ohm"}, ohmmeter("1 Mohm")}), Outcome::undecided);
  Typed weak = tester("20 Mohm");
  weak.test = "50 V";
  EXPECT_EQ(said(&known, {weak}, Outcome::undecided), "few-volts");
  weak.value = "OL";
  EXPECT_EQ(said(&known, {weak}, Outcome::undecided), "few-volts-past-range");
}

TEST(Insulation, MoreVoltsThanAreAskedPassButDoNotCondemn) {
  const HeaterRatings known = plain();
  Typed strong = tester("20 Mohm");
  strong.test = "1000 V";
  EXPECT_EQ(said(&known, {strong}, Outcome::within_limits), "insulates");
  strong.value = "0.2 Mohm";
  EXPECT_EQ(said(&known, {strong}, Outcome::undecided), "leaks-at-more-volts");
  EXPECT_EQ(verdict_on(known, {{.value = "32 ohm"}, strong}), Outcome::undecided);
}

TEST(Insulation, NothingIsLessThanNoOhms) {
  // The test leads are nothing beside megohms: a short shows 0, and is told as 0.
  const Findings findings = judge(plain(), {ohmmeter("0 ohm")});
  EXPECT_EQ(text_of(findings, insulation), "touches-frame");
  EXPECT_DOUBLE_EQ(argument(finding_of(findings, insulation), "measured"), 0.0);
}

TEST(Insulation, MilliohmsAreAskedAbout) {
  try {
    judge(plain(), {tester("200 mohm")});
    FAIL() << "milliohms were taken";
  } catch (const InputError& error) {
    EXPECT_STREQ(error.what(),
                 "reading 1: 200 mohm are milliohms, and insulation is read in megohms; write \"200 Mohm\", or "
                 "\"0 ohm\" for a short");
  }
}

TEST(Insulation, MoreThanLessThanTheLeastIsCalledWhatItIs) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(&known, {tester("> 0.5 Mohm")}, Outcome::undecided), "tester-more-than");
  EXPECT_EQ(said(&known, {ohmmeter("> 0.5 Mohm")}, Outcome::undecided), "ohmmeter-more-than");
  EXPECT_EQ(said(&known, {tester("> 2 Mohm")}, Outcome::within_limits), "insulates-past-range");
  EXPECT_EQ(said(&known, {ohmmeter("> 2 Mohm")}, Outcome::undecided), "ohmmeter-past-range");
}

TEST(Insulation, NothingIsHeatedBeforeItIsProved) {
  // 28.4 ohm lie near an end, which a clamp under load would decide.
  EXPECT_THAT(advice_of(judge(plain(), {{.value = "28.4 ohm"}, tester("20 Mohm")})), Contains("clamp-under-load"));
  const auto unread = advice_of(judge(plain(), {{.value = "28.4 ohm"}}));
  EXPECT_THAT(unread, Contains("insulation-tester"));
  EXPECT_THAT(unread, ::testing::Not(Contains("clamp-under-load")));
  for (const auto& live : {std::vector<Typed>{across("119 V")},
                           {clamp("0.02 A", "120 V +- 1 V")},
                           {{.value = "20 ohm"}, clamp("3.75 A", "120 V +- 0.5 V")},
                           {plug("650 W", "120 V +- 1 V")},
                           {clamp("0.01 A", {}), across("119 V")}}) {
    const auto advice = advice_of(judge(plain(), live));
    EXPECT_THAT(advice, Contains("insulation-tester"));
    for (const char* heats : {"clamp-under-load", "read-both-again", "clamp-alone", "volts-at-element",
                              "volts-and-amperes-at-element", "clamp-with-volts", "opens-when-hot"})
      EXPECT_THAT(advice, ::testing::Not(Contains(heats)));
  }
  const auto doubted = advice_of(judge(plain(), {{.value = "28.4 ohm"}, ohmmeter("OL")}));
  EXPECT_THAT(doubted, Contains("insulation-tester"));
  EXPECT_THAT(doubted, ::testing::Not(Contains("clamp-under-load")));
}

TEST(Insulation, WetOrWithItsLeadsOnItIsTestedAgain) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(&known, {tester("0.2 Mohm", Moisture::wet)}, Outcome::undecided), "leaks-while-wet");
  EXPECT_THAT(advice_of(judge(known, {tester("0.2 Mohm", Moisture::wet)})), Contains("dry-and-repeat"));
  Typed leads_on = tester("0.2 Mohm");
  leads_on.connection = Connection::unstated;
  EXPECT_EQ(said(&known, {leads_on}, Outcome::undecided), "leaks-connection-unstated");
  EXPECT_THAT(advice_of(judge(known, {leads_on})), ::testing::IsSupersetOf({"both-leads-off", "in-place-of-leads-on"}));
  EXPECT_EQ(verdict_on(known, {{.value = "32 ohm"}, leads_on}), Outcome::undecided);
}

// No film of water between metal and metal has half an ohm: nobody dries that, nor counts amperes through it.
TEST(Insulation, MetalOnMetalIsNoDamp) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(&known, {ohmmeter("0.5 ohm")}, Outcome::out_of_limits), "touches-frame");
  EXPECT_EQ(said(&known, {tester("9 kohm")}, Outcome::out_of_limits), "touches-frame");
  EXPECT_EQ(said(&known, {tester("11 kohm")}, Outcome::out_of_limits), "leaks");
  const auto advice = advice_of(judge(known, {ohmmeter("0.5 ohm")}));
  EXPECT_THAT(advice, Contains("do-not-energise"));
  EXPECT_THAT(advice, ::testing::Not(Contains("dry-and-repeat")));
  EXPECT_THAT(advice, ::testing::Not(Contains("leakage-test")));
}

TEST(Insulation, ALeakOfWhatMayStillBeConnectedSaysWhy) {
  const HeaterRatings known = plain();
  Typed there = ohmmeter("0.5 ohm");
  there.connection = Connection::in_circuit;
  EXPECT_EQ(said(&known, {there}, Outcome::undecided), "leaks-in-circuit");
  there.connection = Connection::unstated;
  EXPECT_EQ(said(&known, {there}, Outcome::undecided), "leaks-connection-unstated");
  EXPECT_EQ(said(&known, {{.value = "32 ohm"}, there}, Outcome::undecided), "leaks-lead-off-of-another");
}

TEST(Insulation, TheLowestReadingCounts) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(&known, {ohmmeter("50 kohm"), tester("20 Mohm")}, Outcome::out_of_limits), "leaks");
  EXPECT_EQ(said(&known, {tester("20 Mohm"), ohmmeter("50 kohm")}, Outcome::out_of_limits), "leaks");
  // …and of two good ones the tester's, whatever the ohmmeter showed.
  EXPECT_EQ(said(&known, {tester("20 Mohm"), ohmmeter("OL")}, Outcome::within_limits), "insulates");
  EXPECT_EQ(said(&known, {tester("OL"), ohmmeter("30 Mohm")}, Outcome::within_limits), "insulates-past-range");
}

TEST(Insulation, AWetReadingGivesWayToALaterDryOneOnly) {
  const HeaterRatings known = plain();
  const Typed wet = tester("0.2 Mohm", Moisture::wet);
  const Typed dried = tester("20 Mohm", Moisture::dry);
  EXPECT_EQ(said(&known, {wet, dried}, Outcome::undecided), "leaks-when-wet");  // frost wets it again
  EXPECT_EQ(said(&known, {wet, dried, tester("20 Mohm", Moisture::wet)}, Outcome::within_limits), "insulates");
  EXPECT_EQ(said(&known, {dried, wet}, Outcome::undecided), "leaks-while-wet");
  Typed weak = tester("20 Mohm", Moisture::wet);
  weak.test = "250 V";
  EXPECT_EQ(said(&known, {wet, dried, weak}, Outcome::undecided), "leaks-when-wet");  // 500 V are asked
  EXPECT_THAT(advice_of(judge(known, {wet, dried, weak})), Contains("wet-with-more-volts"));
  EXPECT_THAT(advice_of(judge(known, {wet, weak})), Contains("wet-with-more-volts"));
  Typed where_an_arrester_is = wet;
  where_an_arrester_is.test = "250 V";
  EXPECT_EQ(said(&known, {where_an_arrester_is, dried, weak}, Outcome::within_limits), "insulates");
  EXPECT_EQ(said(&known, {tester("0.1 Mohm", Moisture::dry), wet, dried}, Outcome::out_of_limits), "leaks");
}

// What was said of no moisture is no circle: the advice names the word that resolves it, and that ends in a verdict.
TEST(Insulation, ALeakOfUnsaidMoistureIsAskedAbout) {
  const HeaterRatings known = plain();
  const Typed dried = tester("50 Mohm", Moisture::dry);
  EXPECT_THAT(advice_of(judge(known, {tester("0.2 Mohm")})), Contains("say-if-it-was-wet"));
  const auto advice = advice_of(judge(known, {tester("0.2 Mohm"), dried}));
  EXPECT_THAT(advice, Contains("say-if-it-was-wet"));
  EXPECT_THAT(advice, ::testing::Not(Contains("dry-and-repeat")));  // it was
  EXPECT_THAT(advice_of(judge(known, {tester("0.2 Mohm", Moisture::dry)})),
              ::testing::Not(Contains("say-if-it-was-wet")));
  const Typed wet = tester("0.2 Mohm", Moisture::wet);
  EXPECT_THAT(advice_of(judge(known, {wet, dried})), Contains("seal-its-ends"));
  EXPECT_EQ(said(&known, {wet, dried, tester("50 Mohm", Moisture::wet)}, Outcome::within_limits), "insulates");
}

TEST(Insulation, ALowOneIsNeverToBeEnergised) {
  std::size_t leaks = 0;
  for (const TextEntry& entry : descriptor().rules[insulation].texts) {
    if (!entry.id.starts_with("leaks")) continue;
    ++leaks;
    EXPECT_THAT(std::string(entry.english), HasSubstr("o not energise"));
  }
  EXPECT_EQ(leaks, 7U);
  EXPECT_THAT(advice_of(judge(plain(), {tester("0.2 Mohm")})), Contains("do-not-energise"));
  EXPECT_THAT(advice_of(judge(plain(), {tester("0.2 Mohm")})), Contains("dry-and-repeat"));
  EXPECT_THAT(advice_of(judge(plain(), {{.value = "32 ohm"}})), Contains("frame-too"));
}

TEST(Insulation, SaysWhyItIsSilent) {
  const HeaterRatings known = plain();
  EXPECT_EQ(said(&known, {{.value = "32 ohm"}}, Outcome::undecided), "still-to-read");
  EXPECT_EQ(said(&known, {{.value = "OL"}}, Outcome::silent), "no-reading");
  Typed live = tester("20 Mohm");
  live.supply = Supply::live;
  EXPECT_EQ(said(&known, {live}, Outcome::silent), "only-live");
}

}  // namespace
}  // namespace ohmwright::heater
