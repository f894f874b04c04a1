// What a check after a repair proves: the earth bond, a forced defrost, a log, and what bars heating for one.

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

TEST(Proof, OnlyWhatPassedAfterTheLastPartIsProof) {
  ServiceCall call;
  const auto is_open = [&](Form form) {
    const std::vector<Form> forms = forms_of(open_proof(call));
    return std::find(forms.begin(), forms.end(), form) != forms.end();
  };
  EXPECT_TRUE(is_open(Form::log));
  call.checks = {check(job::CheckForm::log, Outcome::undecided, told_at(1)),
                 check(job::CheckForm::forced_defrost, Outcome::out_of_limits, told_at(2))};
  EXPECT_TRUE(is_open(Form::log)) << "a log that decides nothing";
  EXPECT_TRUE(is_open(Form::heat_did_not_come)) << "it did not heat";
  call.checks.back().result = job::heat_without_end;
  ASSERT_TRUE(is_open(Form::heat_did_not_end));
  EXPECT_TRUE(open_proof(call).front().bars_energising()) << "and stands first: it is unplugged before all else";
  call.checks.push_back(check(job::CheckForm::log, Outcome::within_limits, told_at(3)));
  call.checks.push_back(check(job::CheckForm::forced_defrost, Outcome::within_limits, told_at(4)));
  EXPECT_THAT(open_proof(call), IsEmpty());
  call.replaced = {replaced("heater", told_at(5), false)};
  EXPECT_TRUE(is_open(Form::log) && is_open(Form::forced_defrost)) << "another part went in";
  call.checks.push_back(check(job::CheckForm::log, Outcome::out_of_limits, told_at(6)));
  ASSERT_TRUE(is_open(Form::log_shows_fault));
  const std::vector<ProofStep> bars = bars_to_closing(call, {});
  EXPECT_TRUE(
      std::any_of(bars.begin(), bars.end(), [](const ProofStep& step) { return step.form == Form::log_shows_fault; }));
  call.checks.pop_back();
  call.refrigerant = "none";
  EXPECT_FALSE(is_open(Form::log) || is_open(Form::forced_defrost)) << "what has no frost has no defrost";
}

/// Whatever part goes in, a fan or what should have ended the heat: only the same check shows that it is repaired.
TEST(Proof, AFailedCheckStandsUntilTheSameCheckPasses) {
  struct Failure {
    job::CheckForm form;
    std::string_view result;
    Form now;
    Form since_repair;
  };
  for (const Failure& one :
       {Failure{job::CheckForm::forced_defrost, job::heat_without_end, Form::heat_did_not_end, Form::heat_end_unproved},
        Failure{job::CheckForm::forced_defrost, "no-heat", Form::heat_did_not_come, Form::heat_unproved},
        Failure{job::CheckForm::log, "", Form::log_shows_fault, Form::log_unproved}}) {
    const auto first_is = [&](const std::vector<Form>& forms, Form form) {
      return std::count(forms.begin(), forms.end(), form) == 1;
    };
    ServiceCall call;
    call.checks = {check(one.form, Outcome::out_of_limits, told_at(1))};
    call.checks[0].result = one.result;
    call.checks[0].entry = "the-failed-one";
    EXPECT_TRUE(first_is(closing_bars(call), one.now));
    call.checks.push_back(check(one.form, Outcome::undecided, told_at(2)));
    EXPECT_TRUE(first_is(closing_bars(call), one.now)) << "what decides nothing takes no failure away";
    call.replaced = {replaced("fan", told_at(3), false)};
    call.replaced[0].tells_insulation = false;
    EXPECT_THAT(bars_of(call), IsEmpty()) << "it may be tried again";
    ASSERT_EQ(closing_bars(call), std::vector<Form>{one.since_repair}) << "and must be";
    const ProofStep bar = bars_to_closing(call, {})[0];
    EXPECT_EQ(bar.entry, "the-failed-one");
    EXPECT_TRUE(bar.is_failed_check());
    EXPECT_EQ(bar.bars_leaving_it_plugged_in(), one.now == Form::heat_did_not_end);
    const std::vector<Form> open = forms_of(open_proof(call));
    const Form untried = one.form == job::CheckForm::log ? Form::log : Form::forced_defrost;
    EXPECT_EQ(std::count(open.begin(), open.end(), untried), 0) << "told once";
    ServiceCall again = call;
    again.checks.push_back(check(one.form, Outcome::out_of_limits, told_at(4)));
    again.checks.back().result = one.result;
    EXPECT_TRUE(first_is(closing_bars(again), one.now)) << "it failed after the repair, too";
    call.checks.push_back(check(one.form, Outcome::within_limits, told_at(4)));
    EXPECT_THAT(closing_bars(call), IsEmpty());
  }
}

TEST(Proof, HeatThatDidNotComeShowsNoEndOfOneThatDidNotEnd) {
  ServiceCall call;
  call.checks = {check(job::CheckForm::forced_defrost, Outcome::out_of_limits, told_at(1))};
  call.checks[0].result = job::heat_without_end;
  call.replaced = {replaced("fan", told_at(2), false)};
  call.replaced[0].tells_insulation = false;
  call.checks.push_back(check(job::CheckForm::forced_defrost, Outcome::out_of_limits, told_at(3)));
  call.checks[1].result = "no-heat";
  EXPECT_EQ(closing_bars(call), (std::vector<Form>{Form::heat_end_unproved, Form::heat_did_not_come}));
}

/// What ends the heat, and nothing else, bars it.
TEST(Proof, WhatLimitsTheHeatBarsHeatingUntilItIsReadGood) {
  const auto bars = [](const ServiceCall& call) {
    return forms_of(bars_to_heating(call, [](const std::string& part) { return part == "limit"; }));
  };
  ServiceCall call;
  call.refrigerant = "none";
  EXPECT_THAT(bars(call), IsEmpty()) << "nothing speaks against it";
  call.readings = {reading_of("limit", "limit-alone", Outcome::undecided, 1)};
  EXPECT_THAT(bars(call), IsEmpty());
  call.readings.push_back(reading_of("limit", "limit-alone", Outcome::out_of_limits, 2));
  call.readings.push_back(reading_of("heater", "heater-alone", Outcome::out_of_limits, 3));
  EXPECT_EQ(bars(call), std::vector<Form>{Form::part_not_within});
  call.replaced = {replaced("limit", told_at(4), false)};
  call.replaced[0].tells_insulation = false;
  ServiceCall mended = call;
  mended.replaced[0].mended = "cleaned";
  EXPECT_EQ(bars(mended), std::vector<Form>{Form::mended_unread});
  EXPECT_EQ(bars(call), std::vector<Form>{Form::limit_unread});
  EXPECT_THAT(bars_of(call), IsEmpty()) << "it bars no other live step";
  call.readings.push_back(reading_of("limit", "limit-alone", Outcome::undecided, 5));
  EXPECT_EQ(bars(call), std::vector<Form>{Form::limit_unread});
  ServiceCall open = call;
  open.readings.back().records =
      readings_record(std::vector<Reading>{{.label = "1", .measurand = "state", .observed = OverRange{}}});
  EXPECT_EQ(bars(open), std::vector<Form>{Form::limit_unread}) << "nobody knows how warm it was";
  ServiceCall moved = open;
  moved.readings.insert(moved.readings.end() - 1, open.readings.back());
  (moved.readings.end() - 2)->records =
      readings_record(std::vector<Reading>{{.label = "1", .measurand = "state", .observed = ContactState::closed}});
  EXPECT_EQ(bars(moved), std::vector<Form>{Form::limit_unread}) << "one OL, and nobody knows how warm";
  ServiceCall warm = moved;
  warm.readings.back().open_where_warm = true;
  EXPECT_THAT(bars(warm), IsEmpty()) << "it was closed, and opened where it is warm";
  moved.readings.push_back(moved.readings.back());
  EXPECT_THAT(bars(moved), IsEmpty()) << "it was closed, and open twice";
  open.readings.back().open_where_warm = true;
  EXPECT_EQ(bars(open), std::vector<Form>{Form::limit_unread}) << "a lost lead reads so, too";
  open.readings.push_back(open.readings.back());
  EXPECT_THAT(bars(open), IsEmpty()) << "it is not welded";
  open.readings.back().for_good = Outcome::undecided;
  EXPECT_EQ(bars(open), std::vector<Form>{Form::limit_unread}) << "what opens for good is read closed";
  call.readings.push_back(reading_of("limit", "limit-alone", Outcome::out_of_limits, 6));
  EXPECT_EQ(bars(call), std::vector<Form>{Form::new_part_not_within});
  call.readings.push_back(reading_of("limit", "limit-alone", Outcome::within_limits, 7));
  EXPECT_THAT(bars(call), IsEmpty());
}

}  // namespace
}  // namespace ohmwright
