// A part that was replaced, mended or read bad is proved by a reading where it belongs, taken after the work.

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

TEST(Proof, ANewPartThatReadsBadBarsUntilItIsReadGoodThereOrReplaced) {
  const auto read = [](const char* place, Outcome outcome, std::size_t order) {
    job::MeasuredValue value;
    static_cast<job::Told&>(value) = told_at(order);
    value.part = "sensor";
    value.word = std::string(place) + "=OL";
    value.outcome = outcome;
    return value;
  };
  ServiceCall call;
  call.readings = {read("sensor-plug", Outcome::out_of_limits, 1)};
  call.replaced = {replaced("sensor", told_at(2), false)};
  call.replaced[0].tells_insulation = false;
  EXPECT_THAT(bars_of(call), IsEmpty()) << "it was the old one that was bad";
  call.readings.push_back(read("sensor-plug", Outcome::out_of_limits, 3));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::new_part_not_within});
  EXPECT_EQ(bars_to_energising(call)[0].place, "sensor-plug");
  call.readings.push_back(read("sensor-alone", Outcome::within_limits, 4));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::new_part_not_within}) << "it was read good elsewhere";
  ServiceCall again = call;
  again.replaced.push_back(again.replaced[0]);
  static_cast<job::Told&>(again.replaced[1]) = told_at(5);
  EXPECT_THAT(bars_of(again), IsEmpty());
  call.readings.push_back(read("sensor-plug", Outcome::undecided, 6));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::new_part_not_within}) << "what decides nothing takes nothing away";
  call.readings.push_back(read("sensor-plug", Outcome::within_limits, 7));
  EXPECT_THAT(bars_of(call), IsEmpty());
}

TEST(Proof, ANewPartOfWhichNobodyCanTellIsOpenUntilItIsReadGoodSomewhere) {
  const auto read = [](const char* place, Outcome outcome, std::size_t order) {
    job::MeasuredValue value;
    static_cast<job::Told&>(value) = told_at(order);
    value.part = "sensor";
    value.word = std::string(place) + "=8k";
    value.outcome = outcome;
    return value;
  };
  ServiceCall call;
  call.refrigerant = "none";
  call.readings = {read("sensor-plug", Outcome::out_of_limits, 1)};
  call.replaced = {replaced("sensor", told_at(2), false)};
  call.replaced[0].tells_insulation = false;
  EXPECT_EQ(forms_of(open_proof(call)), std::vector<Form>{Form::new_part_unread});
  EXPECT_TRUE(open_proof(call)[0].leaves_new_part_open());
  call.readings.push_back(read("sensor-plug", Outcome::undecided, 3));
  ASSERT_EQ(forms_of(open_proof(call)), std::vector<Form>{Form::new_part_undecided});
  EXPECT_EQ(open_proof(call)[0].place, "sensor-plug");
  EXPECT_TRUE(open_proof(call)[0].leaves_new_part_open());
  EXPECT_THAT(bars_of(call), IsEmpty()) << "it may be energised";
  ServiceCall bad = call;
  bad.readings.push_back(read("sensor-alone", Outcome::out_of_limits, 4));
  EXPECT_EQ(forms_of(open_proof(bad)), std::vector<Form>{Form::new_part_not_within}) << "that says more";
  call.readings.push_back(read("sensor-alone", Outcome::within_limits, 4));
  EXPECT_THAT(open_proof(call), IsEmpty()) << "it was read good elsewhere";
  call.readings.push_back(read("sensor-alone", Outcome::undecided, 5));
  EXPECT_EQ(forms_of(open_proof(call)), std::vector<Form>{Form::new_part_undecided}) << "and not any more";
}

/// A connector that was pushed on is a repair once the part reads good, and its covers were off as for a new part.
TEST(Proof, AMendInItsPlaceIsProvedByAReadingAndAsANewPartIs) {
  ServiceCall call;
  call.refrigerant = "none";
  call.readings = {reading_of("heater", "heater-alone", Outcome::out_of_limits, 1)};
  EXPECT_THAT(bars_of(call), IsEmpty()) << "who looks for the fault goes on reading";
  EXPECT_EQ(closing_bars(call),
            (std::vector<Form>{Form::part_not_within, Form::insulation_unproved, Form::earth_bond_unproved}));
  call.replaced = {replaced("heater", told_at(2), true)};
  call.replaced[0].mended = "pushed the connector on";
  EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::insulation_unread, Form::earth_bond_unread}));
  EXPECT_TRUE(bars_to_energising(call)[1].mended);
  EXPECT_EQ(closing_bars(call),
            (std::vector<Form>{Form::insulation_unread, Form::earth_bond_unread, Form::mended_unread}));
  EXPECT_EQ(bars_to_closing(call, {})[2].place, "heater-alone");
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(3)));
  call.checks = {bond(Outcome::within_limits, told_at(4))};
  EXPECT_EQ(closing_bars(call), std::vector<Form>{Form::mended_unread}) << "insulation shows no element";
  ServiceCall bad = call;
  bad.readings.push_back(reading_of("heater", "heater-alone", Outcome::out_of_limits, 5));
  EXPECT_EQ(closing_bars(bad), std::vector<Form>{Form::new_part_not_within});
  call.readings.push_back(reading_of("heater", "heater-alone", Outcome::within_limits, 5));
  EXPECT_THAT(closing_bars(call), IsEmpty());
}

/// Nothing was replaced or mended; something was read, so that its covers were off.
/// What opens once was bridged where it is called mended, or reads closed, after it was read open.
TEST(Proof, WhatOpensOnceIsGoodAgainOnlyByANewOne) {
  const auto link_read = [](Outcome outcome, const job::Told& told) {
    job::MeasuredValue value;
    static_cast<job::Told&>(value) = told;
    value.part = "link";
    value.title = "The link";
    value.word = "link-alone=0.1";
    value.outcome = outcome;
    value.for_good = outcome;
    return value;
  };
  const auto work = [](const job::Told& told, const char* mended) {
    job::ReplacedPart part;
    static_cast<job::Told&>(part) = told;
    part.part = "link";
    part.title = "The link";
    part.mended = mended;
    return part;
  };
  ServiceCall call;
  call.readings = {link_read(Outcome::out_of_limits, told_at(1)), link_read(Outcome::out_of_limits, told_at(2))};
  EXPECT_THAT(bars_of(call), IsEmpty()) << "open as it is, no current passes it: the cause is looked for";
  EXPECT_EQ(forms_of(job::bars_to_closing(call, {false, false})), std::vector<Form>{Form::opened_for_good});

  ServiceCall read_again = call;
  read_again.readings.push_back(link_read(Outcome::within_limits, told_at(3)));
  EXPECT_EQ(bars_of(read_again), std::vector<Form>{Form::condemned_for_good});
  EXPECT_TRUE(bars_to_energising(read_again)[0].is_danger());
  read_again.readings.push_back(link_read(Outcome::undecided, told_at(4)));
  EXPECT_EQ(bars_of(read_again), std::vector<Form>{Form::condemned_for_good});

  ServiceCall undecided = call;
  undecided.readings.push_back(link_read(Outcome::undecided, told_at(3)));
  EXPECT_THAT(bars_of(undecided), IsEmpty());
  EXPECT_EQ(forms_of(job::bars_to_closing(undecided, {false, false})), std::vector<Form>{Form::opened_for_good});

  ServiceCall mended = call;
  mended.replaced = {work(told_at(3), "with a piece of wire")};
  EXPECT_EQ(bars_of(mended), std::vector<Form>{Form::condemned_for_good}) << "and nothing asks to read it again";
  mended.readings.push_back(link_read(Outcome::within_limits, told_at(4)));
  EXPECT_EQ(bars_of(mended), std::vector<Form>{Form::condemned_for_good});
  mended.replaced.push_back(work(told_at(5), ""));
  EXPECT_THAT(bars_of(mended), IsEmpty()) << "a new one went in";
  mended.readings.push_back(link_read(Outcome::within_limits, told_at(6)));
  EXPECT_THAT(bars_of(mended), IsEmpty());
  mended.readings.push_back(link_read(Outcome::out_of_limits, told_at(7)));
  EXPECT_EQ(bars_of(mended), std::vector<Form>{Form::new_part_not_within});
  mended.readings.push_back(link_read(Outcome::within_limits, told_at(8)));
  EXPECT_EQ(bars_of(mended), std::vector<Form>{Form::condemned_for_good}) << "the new one opened, and reads closed";
}

/// A link in the housing of a thermostat: the contact beside it may be read good, and is no bridge.
TEST(Proof, WhatIsReadOfTheRestOfAPartSaysNothingOfWhatOpenedInIt) {
  ServiceCall call;
  call.refrigerant = "none";
  call.readings = {reading_of("thermostat", "link-alone", Outcome::out_of_limits, 1)};
  call.readings[0].for_good = Outcome::out_of_limits;
  call.readings[0].entry = "the-open-one";
  call.readings.push_back(reading_of("thermostat", "thermostat-alone", Outcome::within_limits, 2));
  EXPECT_THAT(bars_of(call), IsEmpty());
  const std::vector<ProofStep> bars = bars_to_closing(call, {false, false});
  ASSERT_EQ(forms_of(bars), std::vector<Form>{Form::opened_for_good});
  EXPECT_EQ(bars[0].place, "link-alone");
  EXPECT_EQ(bars[0].entry, "the-open-one");
  call.readings.push_back(reading_of("thermostat", "link-alone", Outcome::undecided, 3));
  call.readings[2].for_good = Outcome::within_limits;  // of the whole part, nobody can tell by its link alone
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::condemned_for_good});
}

TEST(Proof, APartThatReadsBadIsNoRepairUntilItReadsGood) {
  ServiceCall call;
  call.refrigerant = "none";
  call.readings = {reading_of("sensor", "sensor-plug", Outcome::out_of_limits, 1),
                   reading_of("heater", "heater-alone", Outcome::out_of_limits, 2)};
  call.replaced = {replaced("heater", told_at(3), false)};
  call.replaced[0].tells_insulation = false;
  EXPECT_EQ(closing_bars(call), std::vector<Form>{Form::part_not_within}) << "another part went in";
  EXPECT_EQ(bars_to_closing(call, {})[0].part, "sensor");
  call.readings.push_back(reading_of("sensor", "sensor-plug", Outcome::undecided, 4));
  EXPECT_EQ(closing_bars(call), std::vector<Form>{Form::part_not_within}) << "in circuit, or nobody knows how warm";
  call.readings.push_back(reading_of("sensor", "sensor-alone", Outcome::within_limits, 5));
  EXPECT_THAT(closing_bars(call), IsEmpty()) << "the last reading counts";
}

TEST(Proof, AReadingFromBeforeTheRepairProvesNoNewPartThoughEnteredAfterIt) {
  ServiceCall call;
  call.replaced = {replaced("heater", told_at(1, 30), true)};
  call.readings = {insulation("heater", Outcome::within_limits, told_at(2, 10))};
  call.checks = {bond(Outcome::within_limits, told_at(3, 20))};
  EXPECT_EQ(bars_of(call), (std::vector<Form>{Form::insulation_unread, Form::earth_bond_unread}));
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(4, 40)));
  call.checks.push_back(bond(Outcome::within_limits, told_at(5, 41)));
  EXPECT_TRUE(bars_to_energising(call).empty());
  call.readings.push_back(insulation("heater", Outcome::undecided, told_at(6, 35)));
  EXPECT_TRUE(bars_to_energising(call).empty()) << "it was read good after that, at minute 40";
}

TEST(Proof, AReplacementThatIsEnteredLaterCountsFromWhenItWas) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::within_limits, told_at(1, 20))};
  call.replaced = {replaced("heater", told_at(2, 10), false)};
  EXPECT_TRUE(bars_to_energising(call).empty());
}

TEST(Proof, ABadOldPartDoesNotBarOnceTheNewOneIsRead) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::out_of_limits, told_at(1))};
  call.replaced = {replaced("heater", told_at(2), false)};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::insulation_unread});
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(3)));
  EXPECT_TRUE(bars_to_energising(call).empty());
}

TEST(Proof, EachNewPartIsReadWhereTheOldOneWas) {
  ServiceCall call;
  for (const char* part : {"heater", "fan"}) {
    job::MeasuredValue value;
    static_cast<job::Told&>(value) = told_at(1);
    value.part = part;
    value.word = std::string(part) + "-alone@off=OL";
    call.readings.push_back(value);
    call.replaced.push_back(replaced(part, told_at(2), false));
    call.replaced.back().tells_insulation = false;
  }
  std::vector<std::string> places;
  for (const ProofStep& step : open_proof(call))
    if (step.form == Form::new_part_unread) places.push_back(step.place);
  EXPECT_EQ(places, (std::vector<std::string>{"fan-alone@off", "heater-alone@off"}));
}

/// Read at a plug alone, a part was named through the circuit.
TEST(Proof, ANewPartIsReadThroughTheCircuitWhereThatNamedTheOldOne) {
  ServiceCall call;
  call.replaced = {replaced("lock", told_at(2), false)};
  call.replaced[0].tells_insulation = false;
  call.replaced[0].read_through = "lock-plug";
  ASSERT_EQ(forms_of(open_proof(call)).front(), Form::new_part_unread);
  EXPECT_EQ(open_proof(call).front().place, "lock-plug");
  job::MeasuredValue at_plug;
  static_cast<job::Told&>(at_plug) = told_at(3);
  at_plug.word = "lock-plug=OL";
  call.readings = {at_plug};
  EXPECT_NE(forms_of(open_proof(call)).front(), Form::new_part_unread) << "it was read; what it says is not asked here";
  ServiceCall mended = call;
  mended.replaced[0].mended = "pushed its connector on";
  EXPECT_EQ(forms_of(open_proof(mended)).front(), Form::mended_unread) << "OL shows no joint good";
  mended.readings[0].as_it_should = true;
  EXPECT_NE(forms_of(open_proof(mended)).front(), Form::mended_unread);
  call.readings.insert(call.readings.begin(), reading_of("lock", "lock-alone", Outcome::out_of_limits, 1));
  EXPECT_EQ(open_proof(call).front().place, "lock-alone") << "read by itself before, and at the plug OL since";
  call.readings.back().as_it_should = true;
  EXPECT_NE(forms_of(open_proof(call)).front(), Form::new_part_unread);
}

}  // namespace
}  // namespace ohmwright
