// A job is not closed as repaired while insulation or earth bond is not within limits.

#include <gtest/gtest.h>

#include <ohmwright/job/closing.hpp>

namespace ohmwright {
namespace {

using job::Obstacle;
using job::obstacles;
using job::ServiceCall;
using Form = Obstacle::Form;

job::MeasuredValue insulation(const std::string& part, Outcome outcome, std::size_t order) {
  job::MeasuredValue value;
  value.part = part;
  value.title = "The " + part;
  value.order = order;
  value.safety = {{"insulation", outcome}};
  return value;
}

job::ReplacedPart replaced(const std::string& part, std::size_t order, bool earthed) {
  job::ReplacedPart exchanged;
  exchanged.part = part;
  exchanged.title = "The " + part;
  exchanged.order = order;
  exchanged.tells_insulation = true;
  exchanged.has_earth = earthed;
  return exchanged;
}

job::Check bond(Outcome outcome, std::size_t order) {
  job::Check check;
  check.what = "earth-bond";
  check.outcome = outcome;
  check.order = order;
  return check;
}

std::vector<Form> forms_of(const ServiceCall& call) {
  std::vector<Form> forms;
  for (const Obstacle& obstacle : obstacles(call)) forms.push_back(obstacle.form);
  return forms;
}

TEST(Closing, NothingStandsAgainstACallInWhichNothingWasDone) { EXPECT_TRUE(obstacles({}).empty()); }

TEST(Closing, InsulationThatIsNotWithinLimitsStandsAgainstIt) {
  for (const Outcome outcome : {Outcome::out_of_limits, Outcome::undecided}) {
    ServiceCall call;
    call.readings = {insulation("heater", outcome, 1)};
    EXPECT_EQ(forms_of(call), std::vector<Form>{Form::insulation_not_within});
    EXPECT_EQ(obstacles(call)[0].subject, "The heater");
    call.readings.push_back(insulation("heater", Outcome::within_limits, 2));
    EXPECT_TRUE(obstacles(call).empty()) << "the last reading counts";
    call.readings.push_back(insulation("fan", outcome, 3));
    EXPECT_EQ(forms_of(call), std::vector<Form>{Form::insulation_not_within});
  }
}

TEST(Closing, ANewPartIsReadAgainAndSoIsTheEarthBond) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::within_limits, 1)};
  call.checks = {bond(Outcome::within_limits, 2)};
  call.replaced = {replaced("heater", 3, true)};
  EXPECT_EQ(forms_of(call), (std::vector<Form>{Form::insulation_unread, Form::earth_bond_unread}));
  call.readings.push_back(insulation("heater", Outcome::within_limits, 4));
  EXPECT_EQ(forms_of(call), std::vector<Form>{Form::earth_bond_unread});
  call.checks.push_back(bond(Outcome::out_of_limits, 5));
  EXPECT_EQ(forms_of(call), std::vector<Form>{Form::earth_bond_not_within});
  call.checks.push_back(bond(Outcome::within_limits, 6));
  EXPECT_TRUE(obstacles(call).empty());
}

TEST(Closing, ABadOldPartDoesNotStandAgainstItOnceTheNewOneIsRead) {
  ServiceCall call;
  call.readings = {insulation("heater", Outcome::out_of_limits, 1)};
  call.replaced = {replaced("heater", 2, false)};
  EXPECT_EQ(forms_of(call), std::vector<Form>{Form::insulation_unread});
  call.readings.push_back(insulation("heater", Outcome::within_limits, 3));
  EXPECT_TRUE(obstacles(call).empty());
}

TEST(Closing, WhatTinglesIsReadBeforeItIsCalledRepaired) {
  ServiceCall call;
  call.phone["tingles"] = "yes";
  EXPECT_EQ(forms_of(call), std::vector<Form>{Form::nothing_insulated_read});
  call.readings = {insulation("heater", Outcome::within_limits, 1)};
  EXPECT_TRUE(obstacles(call).empty());
}

}  // namespace
}  // namespace ohmwright
