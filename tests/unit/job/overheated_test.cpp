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

}  // namespace
}  // namespace ohmwright
