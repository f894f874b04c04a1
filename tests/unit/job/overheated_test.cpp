// What opens once and for good was overheated by something.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/job/proof.hpp>

#include "proof_calls.hpp"

namespace ohmwright {
namespace {

using namespace testing_support;
using job::ServiceCall;

bool asks_for_the_cause(const ServiceCall& call) {
  const std::vector<job::ProofStep> open = job::open_proof(call);
  return std::any_of(open.begin(), open.end(),
                     [](const job::ProofStep& step) { return step.form == Form::cause_unlooked_for; });
}

ServiceCall new_link() {
  ServiceCall call;
  call.replaced = {replaced("link", told_at(2), false)};
  call.replaced[0].opens_for_good = true;
  return call;
}

TEST(Proof, AsksWhatOverheatedALink) {
  ServiceCall call = new_link();
  EXPECT_TRUE(asks_for_the_cause(call));
  EXPECT_TRUE(job::open_proof(call)[0].leaves_new_part_open() || job::open_proof(call).size() > 1);
  call.replaced[0].opens_for_good = false;
  EXPECT_FALSE(asks_for_the_cause(call)) << "any other part";
  job::MeasuredValue open = reading_of("link", "link-alone", Outcome::out_of_limits, 1);
  open.for_good = Outcome::out_of_limits;
  call.readings = {open};
  EXPECT_TRUE(asks_for_the_cause(call)) << "a thermostat with a link in its housing";
  call.readings[0].for_good = Outcome::undecided;
  EXPECT_TRUE(asks_for_the_cause(call)) << "nobody can tell which of the two was open";
  call.readings[0].outcome = Outcome::undecided;
  EXPECT_FALSE(asks_for_the_cause(call));
}

TEST(Proof, AsksNoMoreWhatOverheatedALinkOnceItIsFoundOrTheHeatEnds) {
  ServiceCall ended = new_link();
  ended.checks = {check(job::CheckForm::forced_defrost, Outcome::within_limits, told_at(1))};
  EXPECT_TRUE(asks_for_the_cause(ended)) << "that was with the old one";
  ended.checks = {check(job::CheckForm::forced_defrost, Outcome::within_limits, told_at(3))};
  EXPECT_FALSE(asks_for_the_cause(ended));
  ServiceCall found = new_link();
  found.evidence = {{told_at(3), "--looked", "door=fine"}};
  EXPECT_TRUE(asks_for_the_cause(found));
  found.evidence.push_back({told_at(4), "--looked", "airflow=found"});
  EXPECT_FALSE(asks_for_the_cause(found));
  ServiceCall other = new_link();
  other.replaced.push_back(replaced("thermostat", told_at(3), false));
  EXPECT_TRUE(asks_for_the_cause(other)) << "nobody read that one bad";
  other.readings = {reading_of("thermostat", "thermostat-alone", Outcome::out_of_limits, 1)};
  EXPECT_FALSE(asks_for_the_cause(other));
}

/// By its appliance's file: what heats, what moves air, and causes that leave it without.
TEST(Proof, TakesOnlyWhatMayOverheatALinkForItsCause) {
  ServiceCall call = new_link();
  call.replaced[0].overheating = {true, {"thermostat", "heater"}, {"fan"}, {"vent-blocked"}};
  call.evidence = {{told_at(3), "--looked", "outlet-dead=found"}};
  EXPECT_TRUE(asks_for_the_cause(call)) << "a dead outlet overheats nothing";
  ServiceCall found = call;
  found.evidence.push_back({told_at(4), "--looked", "vent-blocked=found"});
  EXPECT_FALSE(asks_for_the_cause(found));
  const auto with_bad = [&](const std::string& part) {
    ServiceCall other = call;
    other.readings = {reading_of(part, "alone", Outcome::out_of_limits, 1)};
    other.replaced.push_back(replaced(part, told_at(3), false));
    return other;
  };
  EXPECT_FALSE(asks_for_the_cause(with_bad("thermostat")));
  EXPECT_FALSE(asks_for_the_cause(with_bad("fan")));
  EXPECT_TRUE(asks_for_the_cause(with_bad("timer"))) << "nothing says that it heats";
}

bool asks_for_the_trip(const ServiceCall& call) {
  const std::vector<Form> open = forms_of(job::open_proof(call));
  return std::find(open.begin(), open.end(), Form::trip_unlooked_for) != open.end();
}

TEST(Proof, AsksWhatTrippedALimitThatWasPressedIn) {
  ServiceCall call;
  call.replaced = {replaced("limit", told_at(2), false)};
  call.replaced[0].mended = "button pressed in";
  EXPECT_FALSE(asks_for_the_trip(call));
  call.replaced[0].trips_by_heat = true;
  call.replaced[0].overheating = {true, {"relay"}, {"fan"}, {}};
  EXPECT_TRUE(asks_for_the_trip(call));
  call.evidence = {{told_at(3), "--looked", "door=found"}};
  EXPECT_TRUE(asks_for_the_trip(call));
  call.readings = {reading_of("relay", "relay-contact", Outcome::out_of_limits, 1)};
  call.replaced.push_back(replaced("relay", told_at(3), false));
  EXPECT_FALSE(asks_for_the_trip(call)) << "the relay was welded";
}

}  // namespace
}  // namespace ohmwright
