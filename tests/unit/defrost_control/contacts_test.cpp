#include <gtest/gtest.h>

#include "control_fixture.hpp"

namespace ohmwright::defrost_control {
namespace {

using namespace testing_support;

std::vector<Typed> right_at(std::string_view position) {
  const bool run = position == "run";
  return {contact("defrost_contact", run ? "OL" : "0.3 ohm", position),
          contact("run_contact", run ? "0.3 ohm" : "OL", position)};
}

std::vector<Typed> right_at_both() {
  std::vector<Typed> all = right_at("run");
  for (const Typed& one : right_at("defrost")) all.push_back(one);
  return all;
}

std::string_view contacts_say(const ControlRatings& ratings, const std::vector<Typed>& typed) {
  return text_of(judge(ratings, typed), contacts);
}

TEST(Contacts, OfATimerFollowTheCam) {
  EXPECT_EQ(contacts_say(timer(), right_at_both()), "follow-position");
  EXPECT_EQ(outcome_of(judge(timer(), right_at_both()), contacts), Outcome::within_limits);
  EXPECT_EQ(verdict_on(timer(), right_at_both()), Outcome::undecided);  // nobody watched it move
}

TEST(Contacts, StuckWeldedAndOpenAreToldApart) {
  const auto at = [](std::string_view position, std::string_view defrost, std::string_view run) {
    return std::vector<Typed>{contact("defrost_contact", defrost, position), contact("run_contact", run, position)};
  };
  EXPECT_EQ(contacts_say(timer(), at("defrost", "OL", "0.3 ohm")), "stuck-in-run");
  EXPECT_EQ(contacts_say(timer(), at("run", "0.3 ohm", "OL")), "stuck-in-defrost");
  EXPECT_EQ(contacts_say(timer(), at("defrost", "0.3 ohm", "0.3 ohm")), "run-contact-welded");
  EXPECT_EQ(contacts_say(timer(), at("run", "0.3 ohm", "closed")), "defrost-contact-welded");
  EXPECT_EQ(contacts_say(timer(), at("defrost", "OL", "OL")), "defrost-contact-open");
  EXPECT_EQ(contacts_say(timer(), at("run", "OL", "OL")), "run-contact-open");
  EXPECT_EQ(contacts_say(timer(), at("", "OL", "open")), "none-closed");
  EXPECT_EQ(contacts_say(timer(), at("", "0.3 ohm", "0.3 ohm")), "both-closed");
}

TEST(Contacts, AClosedOneHasNextToNoOhms) {
  const auto with = [](std::string_view ohms) {
    return std::vector<Typed>{contact("defrost_contact", "OL", "run"), contact("run_contact", "0.3 ohm", "run"),
                              contact("defrost_contact", ohms, "defrost"), contact("run_contact", "OL", "defrost")};
  };
  EXPECT_EQ(contacts_say(timer(), with("8 ohm")), "closed-contact-resists");
  EXPECT_EQ(contacts_say(timer(), with("1.5 ohm")), "closed-contact-resists");
  EXPECT_EQ(outcome_of(judge(timer(), with("8 ohm")), contacts), Outcome::undecided);
  EXPECT_EQ(contacts_say(timer(), with("0.4 ohm")), "follow-position");  // not told from 0.2 ohm by this meter
  // Where it has to be open, 8 ohm are no weld.
  EXPECT_EQ(contacts_say(timer(), {contact("defrost_contact", "8 ohm", "run")}), "closed-contact-resists");
}

TEST(Contacts, ClosedCountsOnlyWithTheWireOffAndOpenAlways) {
  const Typed closed = contact("run_contact", "0.3 ohm", "defrost", Connection::unstated);
  EXPECT_EQ(contacts_say(timer(), {closed}), "connection-unstated");
  const Typed open = contact("defrost_contact", "OL", "defrost", Connection::unstated);
  EXPECT_EQ(contacts_say(timer(), {open}), "defrost-contact-open");
  const Typed leaking = contact("defrost_contact", "8 kohm", "defrost", Connection::unstated);
  EXPECT_EQ(contacts_say(timer(), {leaking}), "defrost-contact-open");
}

TEST(Contacts, HalfSeenIsNoPass) {
  EXPECT_EQ(contacts_say(timer(), right_at("run")), "run-position-only");
  EXPECT_EQ(contacts_say(timer(), right_at("defrost")), "defrost-position-only");
  EXPECT_EQ(contacts_say(timer(), {contact("run_contact", "0.3 ohm", "run"), contact("run_contact", "OL", "defrost")}),
            "one-contact-only");
  EXPECT_EQ(contacts_say(timer(), {contact("run_contact", "OL", "")}), "position-unstated");
  EXPECT_EQ(contacts_say(timer(), {}), "not-read");
}

TEST(Contacts, WhatComesAndGoesHoldsItBack) {
  std::vector<Typed> all = right_at_both();
  all.push_back(contact("defrost_contact", "OL", "defrost"));
  const Findings findings = judge(timer(), all);
  EXPECT_EQ(text_of(findings, contacts), "comes-and-goes");
  EXPECT_TRUE(finding_of(findings, contacts).holds_back);
  EXPECT_EQ(contacts_say(timer(), {contact("defrost_contact", "40 ohm", "defrost")}), "poor-contact");
}

TEST(Contacts, TheOutputUnderLoadStandsForTheContactToTheHeater) {
  const std::vector<Typed> seen{output_at("defrost", "119.8 V", "3.7 A"), output_at("run", "0.1 V"),
                                contact("run_contact", "0.3 ohm", "run"), contact("run_contact", "OL", "defrost")};
  EXPECT_EQ(contacts_say(timer(), seen), "follow-position");
  EXPECT_EQ(contacts_say(timer(), {seen[0], seen[1]}), "by-output-only");
}

TEST(Contacts, OfABoardAreJudgedByItsOutput) {
  const Typed on = output_at("defrost", "229 V", "0.78 A", "229.5 V +- 0.5 V");
  const Typed off = output_at("run", "0.4 V", {}, "229.5 V +- 0.5 V");
  EXPECT_EQ(contacts_say(board(), {on, off}), "board-switches");
  EXPECT_EQ(contacts_say(board(), {on, contact("defrost_contact", "OL", "")}), "board-switches");
  EXPECT_EQ(contacts_say(board(), {on}), "board-not-seen-off");
  EXPECT_EQ(contacts_say(board(), {off}), "board-not-seen-on");
  EXPECT_EQ(contacts_say(board(), {contact("defrost_contact", "OL", "defrost")}), "board-at-rest");
  EXPECT_EQ(contacts_say(board(), {contact("defrost_contact", "0.3 ohm", "run")}), "relay-welded");
  EXPECT_EQ(contacts_say(board(), {}), "board-not-read");
}

TEST(Contacts, WithoutRatingsOnlyBothClosedIsWrong) {
  const auto say = [](const std::vector<Typed>& typed) { return text_of(judge(nullptr, typed), contacts); };
  EXPECT_EQ(say({contact("defrost_contact", "0.3 ohm", "run"), contact("run_contact", "0.3 ohm", "run")}),
            "both-closed");
  EXPECT_EQ(say({contact("defrost_contact", "OL", "defrost")}), "type-unknown");
}

TEST(Contacts, AGoodTimerPasses) {
  std::vector<Typed> all = right_at_both();
  all.push_back({.measurand = "advance", .value = "25 min", .position = "defrost"});
  EXPECT_EQ(verdict_on(timer(), all), Outcome::within_limits);
}

}  // namespace
}  // namespace ohmwright::defrost_control
