#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/job/proof.hpp>

#include "proof_calls.hpp"

// That a leak which went away by itself comes back with the water: common practice, no source.

namespace ohmwright {

namespace {

using namespace testing_support;
using job::ServiceCall;
using ::testing::IsEmpty;

struct HowRead {
  Moisture moisture = Moisture::unstated;
  Connection connection = Connection::lead_off;
};

/// The insulation of the heater, as the book keeps it.
job::MeasuredValue heater(double ohms, Outcome outcome, std::size_t order, HowRead how = {}) {
  job::MeasuredValue value = insulation("heater", outcome, told_at(order));
  value.entry = "entry-" + std::to_string(order);
  Reading reading{.measurand = "insulation",
                  .observed = StatedValue{
                      AnyQuantity(Dimension::resistance, ohms), {}, *Unit::named("ohm", Dimension::resistance)}};
  reading.moisture = how.moisture;
  reading.connection = how.connection;
  value.records = readings_record(std::vector<Reading>{reading});
  return value;
}

job::ReplacedPart mended(std::size_t order) {
  job::ReplacedPart work = replaced("heater", told_at(order), false);
  work.mended = "sealed its ends";
  return work;
}

constexpr HowRead wet{Moisture::wet};
constexpr HowRead dry{Moisture::dry};

TEST(LeakProof, ALeakThatWentAwayByItselfBarsEnergisingUntilItIsReadGoodWhileWet) {
  ServiceCall call;
  call.readings = {heater(4e4, Outcome::out_of_limits, 1), heater(3e8, Outcome::within_limits, 2)};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::leak_unexplained});
  EXPECT_EQ(job::bars_to_energising(call)[0].entry, "entry-1") << "which is taken back where it was a slip";
  call.readings.push_back(heater(3e8, Outcome::within_limits, 3, dry));
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::leak_unexplained});
  call.readings.push_back(heater(3e8, Outcome::within_limits, 4, wet));
  EXPECT_THAT(bars_of(call), IsEmpty());
}

/// No rule condemns what is read wet; the book holds it against a dry reading all the same, whatever the kind.
TEST(LeakProof, WhatWasLowWhileWetIsNotProvedDry) {
  ServiceCall call;
  call.readings = {heater(4e4, Outcome::undecided, 1, wet), heater(3e8, Outcome::within_limits, 2, dry)};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::leak_unexplained});
  call.readings[0] = heater(5e6, Outcome::undecided, 1, wet);
  EXPECT_THAT(bars_of(call), IsEmpty()) << "5 Mohm while wet is more than is asked of it dry";
}

TEST(LeakProof, ANewPartHasNoneOfTheOldOnesLeaks) {
  ServiceCall call;
  call.readings = {heater(4e4, Outcome::out_of_limits, 1), heater(3e8, Outcome::within_limits, 3, dry)};
  call.replaced = {replaced("heater", told_at(2), false)};
  EXPECT_THAT(bars_of(call), IsEmpty());
}

TEST(LeakProof, WhatLeakedWetAndWasMendedIsReadWetAgain) {
  ServiceCall call;
  call.readings = {heater(4e4, Outcome::undecided, 1, wet), heater(3e8, Outcome::within_limits, 3, dry)};
  call.replaced = {mended(2)};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::leak_unexplained});
  EXPECT_TRUE(job::bars_to_energising(call)[0].mended);
  call.readings.push_back(heater(3e8, Outcome::within_limits, 4, wet));
  EXPECT_THAT(bars_of(call), IsEmpty());
}

TEST(LeakProof, WhatLeakedDryAndWasMendedIsProvedDry) {
  ServiceCall call;
  call.readings = {heater(4e4, Outcome::out_of_limits, 1, dry), heater(3e8, Outcome::within_limits, 3, dry)};
  call.replaced = {mended(2)};
  EXPECT_THAT(bars_of(call), IsEmpty());
}

TEST(LeakProof, WithItsLeadsOnWhatLiesBesideItLeaked) {
  const HowRead in_circuit{Moisture::dry, Connection::in_circuit};
  ServiceCall call;
  call.readings = {heater(4e4, Outcome::undecided, 1, in_circuit), heater(3e8, Outcome::within_limits, 2, dry)};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::leak_beside});
  call.readings.push_back(heater(3e8, Outcome::within_limits, 3, in_circuit));
  EXPECT_THAT(bars_of(call), IsEmpty()) << "read so again, it leaks no more";
  call.readings.pop_back();
  call.replaced = {replaced("splice", told_at(4), false)};
  call.replaced[0].tells_insulation = false;
  EXPECT_THAT(bars_of(call), IsEmpty()) << "what lay beside it was replaced";
}

/// Whoever does not say how the leads were has read a leak all the same.
TEST(LeakProof, ALeakOfWhichNobodySaidHowItWasReadIsNotForgotten) {
  ServiceCall call;
  call.readings = {heater(1e5, Outcome::undecided, 1, {Moisture::unstated, Connection::unstated}),
                   heater(1e8, Outcome::within_limits, 2, {Moisture::unstated, Connection::unstated})};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::leak_unexplained});
}

/// The kind holds the wet reading against the dry one; that alone would have no way out.
TEST(LeakProof, WhatItsKindLeavesUndecidedIsToldAsTheLeakThatItIs) {
  ServiceCall call;
  call.readings = {heater(4e4, Outcome::undecided, 1, wet), heater(3e8, Outcome::undecided, 2, dry)};
  call.readings[1].beside = "40 kohm while wet";
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::leak_unexplained});
}

TEST(LeakProof, AWayToTheEarthThatFellAwayBarsClosingUntilSomethingIsDone) {
  ServiceCall call;
  call.readings = {to_frame(Outcome::out_of_limits, told_at(1)), to_frame(Outcome::undecided, told_at(2)),
                   heater(3e8, Outcome::within_limits, 3, dry)};
  EXPECT_EQ(forms_of(job::bars_to_leaving_it_plugged_in(call)), std::vector<Form>{Form::leak_fell_away});
  EXPECT_EQ(closing_bars(call, {false, false}), std::vector<Form>{Form::leak_fell_away});
  call.readings.push_back(heater(3e8, Outcome::within_limits, 4, wet));
  EXPECT_THAT(closing_bars(call, {false, false}), IsEmpty()) << "wetted it insulates";
  call.readings.pop_back();
  call.replaced = {replaced("splice", told_at(4), false)};
  call.replaced[0].tells_insulation = false;
  EXPECT_THAT(closing_bars(call, {false, false}), IsEmpty());
}

}  // namespace

}  // namespace ohmwright
