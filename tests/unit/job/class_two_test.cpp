// An appliance without a protective earth asks for more insulation, and what lies at low voltage proves none.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/job/proof.hpp>

#include "proof_calls.hpp"

namespace ohmwright {
namespace {

using namespace testing_support;
using job::ServiceCall;
using ::testing::IsEmpty;

job::MeasuredValue enough_beside_an_earth(std::size_t order) {
  job::MeasuredValue value = insulation("heater", Outcome::within_limits, told_at(order));
  value.safety[0].without_earth = Outcome::out_of_limits;
  return value;
}

job::Check no_earth(std::size_t order) {
  job::Check check = bond(Outcome::within_limits, told_at(order));
  check.result = job::no_earth;
  return check;
}

TEST(Proof, AsksForMoreInsulationWhereThereIsNoEarth) {
  ServiceCall call;
  call.replaced = {replaced("heater", told_at(1), true)};
  call.readings = {enough_beside_an_earth(2)};
  call.checks = {bond(Outcome::within_limits, told_at(3))};
  EXPECT_THAT(bars_of(call), IsEmpty());
  call.checks = {no_earth(3)};
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::insulation_below_class_two}) << "though it was read before";
  ServiceCall without = call;
  without.checks.clear();
  without.replaced[0].has_earth = false;
  EXPECT_EQ(bars_of(without), std::vector<Form>{Form::insulation_below_class_two}) << "as its file says";
  ServiceCall untouched = without;
  untouched.replaced.clear();
  untouched.readings[0].lacks_earth = true;
  EXPECT_EQ(bars_of(untouched), std::vector<Form>{Form::insulation_below_class_two}) << "though nothing was replaced";
  call.checks.push_back(bond(Outcome::within_limits, told_at(4)));
  EXPECT_THAT(bars_of(call), IsEmpty()) << "it has one after all";
  call.checks = {no_earth(3)};
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(5)));
  EXPECT_THAT(bars_of(call), IsEmpty());
}

TEST(Proof, IsNoneOfTheMainsWhereItWasReadAtLowVoltage) {
  ServiceCall call;
  call.replaced = {replaced("sensor", told_at(1), false)};
  call.replaced[0].tells_insulation = false;
  call.replaced[0].asks_circuit_insulation = true;
  call.readings = {insulation("sensor-connector", Outcome::within_limits, told_at(2))};
  call.readings[0].safety[0].low_voltage = true;
  EXPECT_EQ(bars_of(call), std::vector<Form>{Form::circuit_insulation_unread});
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(3)));
  EXPECT_THAT(bars_of(call), IsEmpty());
}

TEST(Proof, AsksForNo500VoltsWhereTheyDestroy) {
  ServiceCall call;
  call.replaced = {replaced("fan", told_at(1), true)};
  EXPECT_THAT(bars_of(call), testing::Contains(Form::insulation_unread));
  call.replaced[0].bears_test_volts = false;
  EXPECT_THAT(bars_of(call), testing::AllOf(testing::Contains(Form::electronics_unread),
                                            testing::Not(testing::Contains(Form::insulation_unread))));
}

}  // namespace
}  // namespace ohmwright
