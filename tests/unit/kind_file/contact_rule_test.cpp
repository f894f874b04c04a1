// Rules on contacts: closed or open against the ends of a condition.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "kind_fixture.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;

constexpr Outcome condemns = Outcome::out_of_limits;

const char* const opens_13 = R"({"nominal": "1 ohm", "opens": "13 degC"})";

Typed contact(std::string value, std::string at = {}, Connection connection = Connection::lead_off,
              Supply supply = Supply::proved_dead) {
  return {.value = std::move(value),
          .at = std::move(at),
          .connection = connection,
          .measurand = "contact",
          .supply = supply};
}

std::string said(const Kind& kind, const std::vector<Typed>& typed, const std::string& ratings = opens_13) {
  const Judged got = judged(kind, ratings, typed);
  return std::string(name_of(got.outcome("switch"))) + " " + std::string(got.text("switch"));
}

TEST(ContactRule, CondemnsWhereEveryGoodOneIsTheOther) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("closed", "23 degC")}), "out-of-limits closed-wrong");
  EXPECT_EQ(said(*kind, {contact("OL", "-18 degC")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("2 Mohm", "-18 degC")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("0.3 ohm", "23 degC")}), "out-of-limits closed-wrong");
}

TEST(ContactRule, PassesOnceItWasSeenRightAtBothEnds) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC")}), "undecided closed-right");
  EXPECT_EQ(said(*kind, {contact("OL", "23 degC")}), "undecided open-right");
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC"), contact("OL", "23 degC")}), "within-limits both-right");
}

TEST(ContactRule, PassesOnTheEndThatTheFileNames) {
  const auto kind =
      coil({{R"("open_above": {"rating": "opens"}})", R"("open_above": {"rating": "opens"}, "passes_on": "closed"})"}});
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC")}), "within-limits closed-right");
  EXPECT_EQ(said(*kind, {contact("OL", "23 degC")}), "undecided open-right");
}

// P(T <= 13 degC) of a rectangle from 11 to 17 degC is 1/3, of one from 12.8 to 18.8 degC 1/30 (own arithmetic).
TEST(ContactRule, CountsTheDoubtOfTheTemperature) {
  const auto kind = coil();
  const Judged either = judged(*kind, opens_13, {contact("closed", "14 degC +- 3 K")});
  EXPECT_EQ(either.text("switch"), "closed-either");
  EXPECT_EQ(either.of("switch").meaning, ProbabilityMeaning::observed_if_within);
  EXPECT_NEAR(either.of("switch").probability, 1.0 / 3.0, 1e-9);
  const Judged wrong = judged(*kind, opens_13, {contact("closed", "15.8 degC +- 3 K")});
  EXPECT_EQ(wrong.outcome("switch"), condemns);
  EXPECT_NEAR(wrong.of("switch").probability, 1.0 / 30.0, 1e-9);
  EXPECT_NEAR(wrong.argument("switch", "chance_percent"), 100.0 / 30.0, 1e-7);
  EXPECT_NEAR(wrong.argument("switch", "open_above"), 286.15, 1e-9);
  EXPECT_NEAR(wrong.argument("switch", "at"), 288.95, 1e-9);
}

TEST(ContactRule, BetweenTheEndsBothStatesAreGood) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("closed", "8 degC")}), "undecided closed-either");
  EXPECT_EQ(said(*kind, {contact("OL", "8 degC")}), "undecided open-either");
}

/// The coil's switch with hysteresis: closes surely below 3 °C, opens surely above 13 °C; warming it keeps closed to
/// 11 °C, cooling it keeps open to 5 °C.
std::unique_ptr<Kind> switch_with_hysteresis(const std::string& rising_keeps_to = "-2 K") {
  return coil({{R"("ratings": [)", R"("states": [{"id": "came_from", "title": "came from", "option": "came-from",
                 "values": [{"id": "cold", "title": "the cold"}, {"id": "warm", "title": "the warm"}]}], "ratings": [)"},
               {R"("open_above": {"rating": "opens"}})", R"("open_above": {"rating": "opens"}, "hysteresis": {
                 "state": "came_from", "rising": "cold", "rising_keeps_to": {"rating": "opens", "offset": ")" +
                                                             rising_keeps_to + R"("},
                 "falling": "warm", "falling_keeps_to": {"rating": "opens", "offset": "-8 K"}}})"}});
}

Typed came(const char* from, std::string value, std::string at) {
  Typed typed = contact(std::move(value), std::move(at));
  typed.states = {{"came_from", from}};
  return typed;
}

TEST(ContactRule, KeepsBetweenTheEndsWhatItCameWith) {
  const auto kind = switch_with_hysteresis();
  EXPECT_EQ(said(*kind, {contact("closed", "8 degC")}), "undecided closed-either") << "nobody says from where";
  EXPECT_EQ(said(*kind, {came("cold", "closed", "8 degC")}), "undecided closed-right");
  EXPECT_EQ(said(*kind, {came("cold", "OL", "8 degC")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {came("warm", "OL", "8 degC")}), "undecided open-right");
  EXPECT_EQ(said(*kind, {came("warm", "closed", "8 degC")}), "out-of-limits closed-wrong");
  EXPECT_EQ(said(*kind, {came("cold", "closed", "8 degC"), came("warm", "OL", "8 degC")}), "within-limits both-right");
  EXPECT_EQ(said(*kind, {came("cold", "OL", "12 degC")}), "undecided open-either") << "it may open from 11 degC on";
  const Judged wrong = judged(*kind, opens_13, {came("cold", "OL", "8 degC")});
  EXPECT_NEAR(wrong.argument("switch", "closed_below"), 273.15 + 11.0, 1e-9);
}

// P(T <= 11 degC) of a rectangle from 10 to 14 degC is 1/4 (own arithmetic): closed there it passes nothing.
TEST(ContactRule, CountsTheDoubtOfTheTemperatureWithinTheDifferential) {
  const auto kind = switch_with_hysteresis();
  const Judged open = judged(*kind, opens_13, {came("cold", "OL", "12 degC +- 2 K")});
  EXPECT_EQ(open.text("switch"), "open-either");
  EXPECT_NEAR(open.of("switch").probability, 0.75, 1e-9);
}

TEST(ContactRule, RefusesWhatItKeepsBeyondItsEnds) {
  const auto kind = switch_with_hysteresis("3 K");
  EXPECT_THROW(part_of(*kind, opens_13), std::runtime_error);
}

std::unique_ptr<Kind> switch_of_a_plunger(const std::string& open = R"("free")") {
  return coil(
      {{R"("ratings": [)", R"("states": [{"id": "plunger", "title": "plunger", "option": "plunger",
                 "values": [{"id": "free", "title": "free"}, {"id": "in", "title": "pressed"}]}], "ratings": [)"},
       {R"({"condition": "part_temperature", "closed_below": {"rating": "opens", "offset": "-10 K"}, "open_above": {"rating": "opens"}})",
        R"({"in_state": {"state": "plunger", "closed": ["in"], "open": [)" + open + "]}}"},
       {R"("closed at {at}, has to be below {closed_below}")", R"("closed")"},
       {R"("open at {at}, has to be above {open_above}")", R"("open")"},
       {R"("closed at {at}, {chance_percent} %, has to be open above {open_above}")", R"("closed, not open")"},
       {R"("open at {at}, {chance_percent} %, has to be closed below {closed_below}")", R"("open, not closed")"}});
}

TEST(ContactRule, MayBeSetByAState) {
  const auto kind = switch_of_a_plunger();
  const auto plunger = [](const char* where, std::string value) {
    Typed typed = contact(std::move(value));
    typed.states = {{"plunger", where}};
    return typed;
  };
  EXPECT_EQ(said(*kind, {plunger("in", "closed")}), "undecided states-to-read");
  EXPECT_EQ(said(*kind, {plunger("in", "closed"), plunger("free", "OL")}), "within-limits both-right");
  EXPECT_EQ(said(*kind, {plunger("in", "OL")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {plunger("free", "0.2 ohm")}), "out-of-limits closed-wrong");
  EXPECT_EQ(said(*kind, {contact("closed")}), "silent no-condition");
  EXPECT_THROW(switch_of_a_plunger(R"("free", "in")"), std::runtime_error) << "closed and open at once";
  EXPECT_THROW(switch_of_a_plunger(R"("fre")"), std::runtime_error);
}

/// Off, low and high are contacts of their own: a burnt one of high is shown by none of the others.
TEST(ContactRule, SetByAStatePassesOnlyOnceEveryValueWasSeen) {
  const auto kind = coil(
      {{R"("ratings": [)", R"("states": [{"id": "knob", "title": "the knob", "option": "knob",
                 "values": [{"id": "off", "title": "off"}, {"id": "low", "title": "low"},
                            {"id": "high", "title": "high"}]}], "ratings": [)"},
       {R"({"condition": "part_temperature", "closed_below": {"rating": "opens", "offset": "-10 K"}, "open_above": {"rating": "opens"}})",
        R"({"in_state": {"state": "knob", "closed": ["low", "high"], "open": ["off"]}})"},
       {R"("closed at {at}, has to be below {closed_below}")", R"("closed")"},
       {R"("open at {at}, has to be above {open_above}")", R"("open")"},
       {R"("closed at {at}, {chance_percent} %, has to be open above {open_above}")", R"("closed, not open")"},
       {R"("open at {at}, {chance_percent} %, has to be closed below {closed_below}")", R"("open, not closed")"}});
  const auto knob = [](const char* where, std::string value) {
    Typed typed = contact(std::move(value));
    typed.states = {{"knob", where}};
    return typed;
  };
  const auto missing = [&](const std::vector<Typed>& typed) {
    const Judged got = judged(*kind, opens_13, typed);
    return std::get<std::string>(got.of("switch").arguments.front().value);
  };
  const std::vector<Typed> two{knob("off", "OL"), knob("low", "closed")};
  EXPECT_EQ(said(*kind, two), "undecided states-to-read");
  EXPECT_EQ(missing(two), "the knob high");
  EXPECT_EQ(missing({knob("low", "closed")}), "the knob off, high");
  EXPECT_EQ(said(*kind, {two[0], two[1], knob("high", "OL")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {two[0], two[1], knob("high", "closed")}), "within-limits both-right");
}

/// An advice that is given where the rule could not decide, whatever it said.
TEST(ContactRule, AdvisesWhereItCannotDecide) {
  const auto kind = coil({{R"("advice": [)", R"("advice": [{"id": "chill", "text": "Chill it.",
                            "when": {"rule": "switch", "outcome": "undecided"}}, )"}});
  const auto advice = [&](const Typed& typed) { return judged(*kind, opens_13, {typed}).advice(); };
  EXPECT_THAT(advice(contact("closed", "8 degC")), ElementsAre("chill"));
  EXPECT_THAT(advice(contact("closed", "-18 degC")), ElementsAre("chill"));
  EXPECT_THAT(advice(contact("closed", "23 degC")), ElementsAre());
}

TEST(ContactRule, ClosedCountsOnlyWithALeadOff) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("closed", "23 degC", Connection::unstated)}), "undecided connection-unstated");
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC", Connection::unstated)}), "undecided connection-unstated");
  EXPECT_EQ(said(*kind, {contact("closed", "23 degC", Connection::in_circuit)}), "undecided in-circuit");
  EXPECT_EQ(said(*kind, {contact("OL", "-18 degC", Connection::unstated)}), "out-of-limits open-wrong");
}

TEST(ContactRule, OpenInCircuitCondemnsOnceTheDeadPointsAreProved) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("OL", "-18 degC", Connection::in_circuit)}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("OL", "-18 degC", Connection::in_circuit, Supply::unplugged)}),
            "undecided open-in-circuit");
  EXPECT_EQ(said(*kind, {contact("OL", "23 degC", Connection::in_circuit)}), "undecided in-circuit");  // never a pass
}

TEST(ContactRule, TooMuchForClosedAndTooLittleForOpenIsNeither) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("100 ohm", "23 degC")}), "undecided poor");
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC"), contact("OL", "23 degC"), contact("100 ohm", "-18 degC")}),
            "undecided poor");
  EXPECT_NEAR(judged(*kind, opens_13, {contact("100.2 ohm", "23 degC")}).of("switch").measured->value_in_si(), 100.0,
              1e-9);
}

// 8 ohm at 10 A are 800 W (Joule): no contact that carries a load.
TEST(ContactRule, ABurntContactIsNoClosedOne) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("8 ohm", "-18 degC")}), "undecided poor");
  EXPECT_EQ(said(*kind, {contact("8 ohm", "23 degC")}), "out-of-limits closed-wrong") << "burnt, but not open";
  EXPECT_EQ(said(*kind, {contact("12 ohm", "23 degC")}), "undecided poor");
  EXPECT_EQ(said(*kind, {contact("8 ohm", "23 degC", Connection::in_circuit)}), "undecided in-circuit");
}

TEST(ContactRule, ALeakingContactIsNoOpenOne) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("2 kohm", "23 degC")}), "undecided poor");
  EXPECT_EQ(said(*kind, {contact("2 kohm", "-18 degC")}), "out-of-limits open-wrong") << "leaking, but not closed";
  EXPECT_EQ(said(*kind, {contact("2 kohm", "-18 degC", Connection::in_circuit)}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("2 kohm", "23 degC", Connection::in_circuit)}), "undecided in-circuit");
}

TEST(ContactRule, TheFileMayStateOtherOhms) {
  const auto kind = coil({{R"("open_above": {"rating": "opens"}})",
                           R"("open_above": {"rating": "opens"}, "closed_up_to": "20 ohm", "open_from": "100 ohm"})"}});
  EXPECT_EQ(said(*kind, {contact("15 ohm", "-18 degC")}), "undecided closed-right");
  EXPECT_EQ(said(*kind, {contact("50 ohm", "-18 degC")}), "undecided poor");
  EXPECT_EQ(said(*kind, {contact("150 ohm", "-18 degC")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("150 ohm", "23 degC")}), "undecided open-right");
}

TEST(ContactRule, StaysSilentForWhatTheReadingsLack) {
  const auto kind = coil();
  EXPECT_EQ(said(*kind, {contact("closed")}), "silent no-condition");
  EXPECT_EQ(said(*kind, {contact("closed", "23 degC")}, R"({"nominal": "1 ohm"})"), "silent no-figure");
  EXPECT_EQ(said(*kind, {contact("closed", "23 degC", Connection::lead_off, Supply::live)}), "silent live");
  EXPECT_EQ(said(*kind, {{"82 ohm", "25 degC"}}), "silent not-read");
}

TEST(ContactRule, OneThatOpensColdIsTheOtherWayRound) {
  const auto kind =
      coil({{R"("closed_below": {"rating": "opens", "offset": "-10 K"}, "open_above": {"rating": "opens"}})",
             R"("open_below": {"rating": "opens", "offset": "-10 K"}, "closed_above": {"rating": "opens"}})"},
            {R"(has to be below {closed_below}")", R"(has to be above {closed_above}")"},
            {R"(has to be above {open_above}")", R"(has to be below {open_below}")"},
            {R"(has to be open above {open_above}")", R"(has to be open below {open_below}")"},
            {R"(has to be closed below {closed_below}")", R"(has to be closed above {closed_above}")"}});
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC")}), "out-of-limits closed-wrong");
  EXPECT_EQ(said(*kind, {contact("OL", "23 degC")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("OL", "-18 degC"), contact("closed", "23 degC")}), "within-limits both-right");
  EXPECT_NEAR(judged(*kind, opens_13, {contact("closed", "-18 degC")}).argument("switch", "open_below"), 276.15, 1e-9);
}

TEST(ContactRule, OneThatMustAlwaysBeClosedNeedsNoTemperature) {
  const auto kind = coil(
      {{R"("condition": "part_temperature", "closed_below": {"rating": "opens", "offset": "-10 K"}, "open_above": {"rating": "opens"}})",
        R"("must_be": "closed"})"},
       {R"("closed at {at}, has to be below {closed_below}",
        "open-right": "open at {at}, has to be above {open_above}",
        "closed-wrong": "closed at {at}, {chance_percent} %, has to be open above {open_above}",
        "open-wrong": "open at {at}, {chance_percent} %, has to be closed below {closed_below}")",
        R"("closed", "open-wrong": "open")"}});
  EXPECT_EQ(said(*kind, {contact("closed")}, ""), "within-limits closed-right");
  EXPECT_EQ(said(*kind, {contact("OL")}, ""), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("closed", "", Connection::in_circuit)}, ""), "undecided in-circuit");
}

// IEC 60691: a thermal link opens once (from memory).
TEST(ContactRule, OneOfSingleOperationIsSpentOnceItIsOpen) {
  const auto kind =
      coil({{R"("open_above": {"rating": "opens"}})",
             R"("open_above": {"rating": "opens"}, "single_operation": true, "passes_on": "closed"})"},
            {R"("open-right": "open at {at}, has to be above {open_above}",)", ""},
            {R"("open at {at}, {chance_percent} %, has to be closed below {closed_below}")", R"("open for good")"}});
  EXPECT_EQ(said(*kind, {contact("OL")}, ""), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("OL", "40 degC")}), "out-of-limits open-wrong");
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC")}), "within-limits closed-right");
  EXPECT_EQ(said(*kind, {contact("closed", "-18 degC"), contact("OL", "-17 degC")}), "out-of-limits open-wrong");
}

TEST(ContactRule, AdvisesOnCircumstances) {
  const auto kind = coil();
  const auto advice = [&](const Typed& typed) { return judged(*kind, opens_13, {typed}).advice(); };
  EXPECT_THAT(advice(contact("closed", "23 degC", Connection::in_circuit)), ElementsAre("lift-a-lead"));
  EXPECT_THAT(advice(contact("OL", "-18 degC", Connection::in_circuit, Supply::unplugged)), ElementsAre("prove-dead"));
  EXPECT_THAT(advice(contact("closed", "23 degC", Connection::lead_off, Supply::live)), ElementsAre("read-unplugged"));
  EXPECT_THAT(advice(contact("100 ohm", "23 degC")), ElementsAre("read-again"));
}

}  // namespace
}  // namespace ohmwright::kind_file
