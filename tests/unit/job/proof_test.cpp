// A job is not closed as repaired, and nothing live is done, while it is not proved safe to energise; and what counts
// is when a reading was taken, not when it was written down.

#include <algorithm>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/job/proof.hpp>

namespace ohmwright {
namespace {

using job::bars_to_energising;
using job::bars_to_heating;
using job::open_proof;
using job::ProofStep;
using job::ServiceCall;
using Form = ProofStep::Form;
using ::testing::IsEmpty;

/// Entry number `order`, of the minute `minute` after the first.
job::Told told_at(std::size_t order, std::size_t minute) {
  job::Told told;
  told.order = order;
  told.when = "2026-01-01T00:" + std::string(minute < 10 ? "0" : "") + std::to_string(minute) + ":00.000Z";
  return told;
}

/// As entered at once: the times are in the order of the entries.
job::Told told_at(std::size_t order) { return told_at(order, order); }

job::MeasuredValue insulation(const std::string& part, Outcome outcome, const job::Told& told,
                              const std::string& rule = "insulation") {
  job::MeasuredValue value;
  static_cast<job::Told&>(value) = told;
  value.part = part;
  value.title = "The " + part;
  value.safety = {{rule, outcome}};
  return value;
}

job::MeasuredValue to_frame(Outcome leak, const job::Told& told) {
  job::MeasuredValue value = insulation({}, leak, told, std::string(job::leak_rule));
  value.place = "heater-to-frame";
  value.word = "heater-to-frame=0.1M";
  value.point = "Heater to its frame";
  return value;
}

job::ReplacedPart replaced(const std::string& part, const job::Told& told, bool earthed) {
  job::ReplacedPart exchanged;
  static_cast<job::Told&>(exchanged) = told;
  exchanged.part = part;
  exchanged.title = "The " + part;
  exchanged.tells_insulation = true;
  exchanged.has_earth = earthed;
  return exchanged;
}

job::Check check(job::CheckForm form, Outcome outcome, const job::Told& told) {
  job::Check done;
  static_cast<job::Told&>(done) = told;
  done.form = form;
  done.outcome = outcome;
  return done;
}

job::Check bond(Outcome outcome, const job::Told& told) { return check(job::CheckForm::earth_bond, outcome, told); }

std::vector<Form> forms_of(const std::vector<ProofStep>& steps) {
  std::vector<Form> forms;
  for (const ProofStep& step : steps) forms.push_back(step.form);
  return forms;
}

std::vector<Form> bars_of(const ServiceCall& call) { return forms_of(bars_to_energising(call)); }

TEST(Proof, NothingBarsACallInWhichNothingWasDone) { EXPECT_TRUE(bars_to_energising({}).empty()); }

TEST(Proof, InsulationThatIsNotWithinLimitsBarsEnergising) {
  for (const auto& [outcome, form] : {std::pair{Outcome::out_of_limits, Form::insulation_not_within},
                                      std::pair{Outcome::undecided, Form::insulation_undecided}}) {
    ServiceCall call;
    call.readings = {insulation("heater", outcome, told_at(1))};
    EXPECT_EQ(bars_of(call), std::vector<Form>{form});
    EXPECT_EQ(bars_to_energising(call)[0].subject, "The heater");
    EXPECT_EQ(bars_to_energising(call)[0].part, "heater");
    call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(2)));
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
  call.readings.push_back(insulation("heater", Outcome::within_limits, told_at(5)));
  call.checks = {bond(Outcome::within_limits, told_at(6))};
  EXPECT_THAT(bars_of(call), IsEmpty());
}

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
  EXPECT_THAT(bars_of(call), IsEmpty()) << "what cannot be told is no finding against it";
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

job::MeasuredValue reading_of(const std::string& part, const char* place, Outcome outcome, std::size_t order) {
  job::MeasuredValue value;
  static_cast<job::Told&>(value) = told_at(order);
  value.part = part;
  value.title = "The " + part;
  value.word = std::string(place) + "=5";
  value.outcome = outcome;
  return value;
}

std::vector<Form> closing_bars(const ServiceCall& call, const job::SafetyAsked& asked = {}) {
  return forms_of(bars_to_closing(call, asked));
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

TEST(Proof, APartThatReadsBadIsNoRepairUntilItReadsGood) {
  ServiceCall call;
  call.refrigerant = "none";
  call.readings = {reading_of("sensor", "sensor-plug", Outcome::out_of_limits, 1),
                   reading_of("heater", "heater-alone", Outcome::out_of_limits, 2)};
  call.replaced = {replaced("heater", told_at(3), false)};
  call.replaced[0].tells_insulation = false;
  EXPECT_EQ(closing_bars(call), std::vector<Form>{Form::part_not_within}) << "another part went in";
  EXPECT_EQ(bars_to_closing(call, {})[0].part, "sensor");
  call.readings.push_back(reading_of("sensor", "sensor-alone", Outcome::within_limits, 4));
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
  call.readings.push_back(insulation("heater", Outcome::out_of_limits, told_at(6, 35)));
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
  EXPECT_THAT(bars(open), IsEmpty()) << "it is not welded";
  open.readings.back().for_good = Outcome::undecided;
  EXPECT_EQ(bars(open), std::vector<Form>{Form::limit_unread}) << "what opens for good is read closed";
  call.readings.push_back(reading_of("limit", "limit-alone", Outcome::out_of_limits, 6));
  EXPECT_EQ(bars(call), std::vector<Form>{Form::new_part_not_within});
  call.readings.push_back(reading_of("limit", "limit-alone", Outcome::within_limits, 7));
  EXPECT_THAT(bars(call), IsEmpty());
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

}  // namespace
}  // namespace ohmwright
