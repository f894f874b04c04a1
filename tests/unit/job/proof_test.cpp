// A job is not closed as repaired, and nothing live is done, while it is not proved safe to energise; and what counts
// is when a reading was taken, not when it was written down.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/job/proof.hpp>

#include "proof_calls.hpp"

namespace ohmwright {
namespace {

using namespace testing_support;
using job::bars_to_energising;
using job::bars_to_heating;
using job::open_proof;
using job::ProofStep;
using job::ServiceCall;
using ::testing::IsEmpty;

TEST(Proof, NothingBarsACallInWhichNothingWasDone) { EXPECT_TRUE(bars_to_energising({}).empty()); }

TEST(Proof, InsulationThatIsNotWithinLimitsBarsEnergising) {
  for (const auto& [outcome, form] : {std::pair{Outcome::out_of_limits, Form::insulation_not_within},
                                      std::pair{Outcome::undecided, Form::insulation_undecided}}) {
    ServiceCall call;
    call.readings = {insulation("heater", outcome, told_at(1))};
    EXPECT_EQ(bars_of(call), std::vector<Form>{form});
    EXPECT_EQ(bars_to_energising(call)[0].subject, "The heater");
    EXPECT_EQ(bars_to_energising(call)[0].part, "heater");
    call.readings = {insulation("heater", Outcome::undecided, told_at(1)),
                     insulation("heater", Outcome::within_limits, told_at(2))};
    EXPECT_TRUE(bars_to_energising(call).empty()) << "the last reading counts";
    call.readings.push_back(insulation("fan", outcome, told_at(3)));
    EXPECT_EQ(bars_of(call), std::vector<Form>{form});
  }
}

/// A kind may have several rules of safety: one that passed says nothing of another.
TEST(Proof, OneRuleThatPassedDoesNotHideAnother) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::out_of_limits, told_at(1), "leakage-current"),
                   insulation("heater", Outcome::within_limits, told_at(2), "insulation")};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::insulation_not_within});
  call.readings = {insulation("heater", Outcome::within_limits, told_at(1))};
  call.readings[0].safety = {{"leakage-current", Outcome::out_of_limits}, {"insulation", Outcome::within_limits}};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::insulation_not_within}) << "within one reading";
}

TEST(Proof, ANewPartIsReadAgainAndSoIsTheEarthBond) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::within_limits, told_at(1))};
  call.checks = {bond(Outcome::within_limits, told_at(2))};
  call.replaced = {replaced("heater", told_at(3), true)};
  EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::insulation_unread, Form::earth_bond_unread}));
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(4)));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::earth_bond_unread});
  call.checks.push_back(bond(Outcome::out_of_limits, told_at(5)));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::earth_bond_not_within});
  call.checks.push_back(bond(Outcome::undecided, told_at(6)));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::earth_bond_undecided}) << "read with an ordinary meter";
  call.checks.push_back(bond(Outcome::within_limits, told_at(7)));
  EXPECT_TRUE(bars_to_energising(call).empty());
}

/// Whoever changed a timer had its panel off, and the earth leads and the heater's wires in hand.
TEST(Proof, AnyNewPartAsksForTheEarthBondAndTheInsulationOfItsCircuit) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::within_limits, told_at(1))};
  call.replaced = {replaced("timer", told_at(2), true), replaced("thermostat", told_at(3), true)};
  for (job::ReplacedPart& part : call.replaced) {
    part.tells_insulation = false;
    part.asks_circuit_insulation = true;
  }
  EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::circuit_insulation_unread, Form::earth_bond_unread}));
  call.readings.push_back(insulation("heater", Outcome::out_of_limits, told_at(4)));
  EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::insulation_not_within, Form::earth_bond_unread}));
  call.readings.back() = insulation("heater", Outcome::within_limits, told_at(5));
  call.checks = {bond(Outcome::within_limits, told_at(6))};
  EXPECT_THAT(bars_of(call), IsEmpty());
}

TEST(Proof, ARepairOfNoPartIsClosedWithInsulationAndEarthBondWhereSomethingWasRead) {
  ServiceCall call;
  EXPECT_THAT(closing_bars(call), IsEmpty()) << "a gasket, seen from outside";
  call.readings = {reading_of("fan", "fan-alone", Outcome::within_limits, 1)};
  EXPECT_EQ(closing_bars(call), (std::vector<Form>{Form::insulation_unproved, Form::earth_bond_unproved}));
  EXPECT_THAT(closing_bars(call, {false, false}), IsEmpty()) << "it has neither";
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(2)));
  call.checks = {bond(Outcome::undecided, told_at(3))};
  EXPECT_EQ(closing_bars(call), std::vector<Form>{Form::earth_bond_undecided});
  call.checks.push_back(bond(Outcome::within_limits, told_at(4)));
  EXPECT_THAT(closing_bars(call), IsEmpty());
}

/// What was proved on an earlier visit says nothing of a cabinet that was opened again.
TEST(Proof, EachVisitOnWhichItWasOpenedAsksForItsOwnProof) {
  ServiceCall call;
  call.replaced = {replaced("heater", told_at(1), true)};
  call.readings = {insulation("heater", Outcome::within_limits, told_at(2))};
  call.checks = {bond(Outcome::within_limits, told_at(3))};
  EXPECT_THAT(closing_bars(call), IsEmpty());
  call.visits = 2;
  EXPECT_THAT(closing_bars(call), IsEmpty()) << "nobody opened it since";
  const auto of_second_visit = [](auto row) {
    row.visit = 2;
    return row;
  };
  call.readings.push_back(of_second_visit(reading_of("fan", "fan-alone", Outcome::within_limits, 5)));
  EXPECT_EQ(closing_bars(call), (std::vector<Form>{Form::insulation_unproved, Form::earth_bond_unproved}));
  call.readings.push_back(of_second_visit(insulation("heater", Outcome::within_limits, told_at(6))));
  call.checks.push_back(of_second_visit(bond(Outcome::within_limits, told_at(7))));
  EXPECT_THAT(closing_bars(call), IsEmpty());
}

/// What was so before the job, or on another visit, proves nothing of a cabinet that was opened now, whenever it is
/// written down.
TEST(Proof, OfAVisitIsWhatWasSoOnItAndNotWhatWasWrittenOnIt) {
  std::vector<job::Entry> entries;
  const auto add = [&](const char* form, const char* recorded, const char* happened, const char* content) {
    entries.push_back({"e" + std::to_string(entries.size()), form, std::string("2026-01-0") + recorded + ":20.000Z",
                       *happened == 0 ? std::string() : std::string("2026-01-0") + happened + ":00.000Z", "", "", "",
                       content});
  };
  const char* reading = R"({"place":"heater","part":"heater","shown":"32","outcome":"within-limits"})";
  const char* good =
      R"({"place":"heater","part":"heater","shown":"200M","safety":[{"rule":"insulation","outcome":"within-limits"}]})";
  const char* bonded = R"({"what":"earth-bond","outcome":"within-limits"})";
  const std::vector<Form> both{Form::insulation_unproved, Form::earth_bond_unproved};
  const auto add_proof = [&](const char* recorded, const char* happened) {
    add("reading", recorded, happened, good);
    add("checked", recorded, happened, bonded);
  };
  add("opened", "5T09:00", "", R"({"title":"a"})");
  add("reading", "5T09:10", "", reading);
  add_proof("5T09:20", "1T09:00");
  EXPECT_EQ(closing_bars(job::told(entries)), both) << "from days before the job";
  add_proof("5T09:30", "5T09:00");
  EXPECT_THAT(closing_bars(job::told(entries)), IsEmpty()) << "in the minute in which it was opened";
  add("visit", "6T09:00", "", "{}");
  add("reading", "6T09:10", "", reading);
  add_proof("6T09:20", "5T09:40");
  EXPECT_EQ(job::told(entries).checks.back().visit, 1U);
  EXPECT_EQ(closing_bars(job::told(entries)), both) << "written on this visit, and of the first one";
  add_proof("6T09:30", "6T09:05");
  EXPECT_THAT(closing_bars(job::told(entries)), IsEmpty());
}

/// In the evening, from the notes of the day.
TEST(Proof, AJobThatWasWrittenDownAfterTheWorkIsProvedByWhatWasReadThen) {
  ServiceCall call;
  call.opened_at = told_at(0, 50).when;
  call.readings = {reading_of("fan", "fan-alone", Outcome::within_limits, 1)};
  EXPECT_EQ(closing_bars(call).size(), 2U);
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(2)));
  call.checks = {bond(Outcome::within_limits, told_at(3))};
  EXPECT_THAT(closing_bars(call), IsEmpty());
}

/// An ohmmeter that shows no way to the frame proves no insulation, nor does what was read before the last repair.
TEST(Proof, InsulationIsProvedByATesterAtTheMainsSinceTheLastRepair) {
  ServiceCall call;
  EXPECT_FALSE(job::insulation_is_proved(call));
  call.readings = {to_frame(Outcome::undecided, told_at(1))};
  EXPECT_FALSE(job::insulation_is_proved(call));
  call.readings = {insulation("sensor", Outcome::within_limits, told_at(1))};
  call.readings[0].safety[0].low_voltage = true;
  EXPECT_FALSE(job::insulation_is_proved(call));
  call.readings = {insulation("heater", Outcome::within_limits, told_at(1))};
  EXPECT_TRUE(job::insulation_is_proved(call));
  call.replaced = {replaced("timer", told_at(2), false)};
  call.replaced[0].tells_insulation = false;
  EXPECT_FALSE(job::insulation_is_proved(call));
}

TEST(Proof, OfOneReadingTheWorstFindingCounts) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::out_of_limits, told_at(1))};
  for (const Outcome other : {Outcome::undecided, Outcome::within_limits, Outcome::silent}) {
    call.readings[0].safety = {{"insulation", Outcome::out_of_limits}, {"insulation", other}};
    EXPECT_EQ(bars_of(call), std::vector<Form>{Form::insulation_not_within});
    call.readings[0].safety = {{"insulation", other}, {"insulation", Outcome::out_of_limits}};
    EXPECT_EQ(bars_of(call), std::vector<Form>{Form::insulation_not_within});
  }
}

TEST(Proof, APartWithoutAnApplianceIsKnownByItsKind) {
  ServiceCall call;
  call.replaced = {replaced("heater", told_at(1), false)};
  job::MeasuredValue alone = insulation({}, Outcome::within_limits, told_at(2));
  alone.kind = "heater";  // as books before this one kept it
  alone.title = "Heater";
  call.readings = {alone};
  EXPECT_TRUE(bars_to_energising(call).empty());
}

TEST(Proof, ALeakBarsUntilItsPlaceWasReadAgainAndATesterHasReadTheInsulation) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::within_limits, told_at(1)),
                   to_frame(Outcome::out_of_limits, told_at(2))};
  EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::leak_to_earth, Form::no_insulation_read}));
  EXPECT_EQ(bars_to_energising(call)[0].part, "heater-to-frame");
  EXPECT_TRUE(bars_to_energising(call)[0].is_danger());
  call.readings.push_back(to_frame(Outcome::undecided, told_at(3)));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::no_insulation_read}) << "a meter's few volts prove no insulation";
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(4)));
  EXPECT_TRUE(bars_to_energising(call).empty());
  call.replaced = {replaced("fan", told_at(5), false)};
  call.readings.push_back(insulation("fan", Outcome::within_limits, told_at(6)));
  call.readings.push_back(to_frame(Outcome::out_of_limits, told_at(7)));
  EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::leak_to_earth, Form::no_insulation_read}));
}

TEST(Proof, WhatTinglesOrSmellsBurntIsReadBeforeItIsEnergised) {
  for (const char* question : {"tingles", "burning_smell"}) {
    ServiceCall call;
    call.phone[question] = "yes";
    call.answered[question] = told_at(1);
    EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::no_insulation_read, Form::earth_bond_unread}));
    call.readings = {insulation("heater", Outcome::within_limits, told_at(2))};
    call.checks = {bond(Outcome::within_limits, told_at(3))};
    EXPECT_TRUE(bars_to_energising(call).empty());
  }
  ServiceCall call;
  job::EvidenceWord shock;
  static_cast<job::Told&>(shock) = told_at(4);
  shock.option = "--symptom";
  shock.word = "shock-from-cabinet";
  call.evidence = {shock};
  EXPECT_EQ(bars_of(call).size(), 2U);
}

}  // namespace
}  // namespace ohmwright
