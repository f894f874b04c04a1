#include <set>

#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>

#include "rules/generic_classes.hpp"
#include "thermostat_fixture.hpp"

namespace ohmwright::bimetal_thermostat {
namespace {

using namespace testing_support;

Typed link_reads(std::string_view value, Connection connection = Connection::lead_off,
                 Supply supply = Supply::proved_dead) {
  return {.value = value, .connection = connection, .supply = supply, .measurand = "link"};
}

Findings judge_link(const std::vector<Typed>& typed) { return judge(ratings_with_link(4), typed); }

TEST(LinkRule, PassesClosedAndCondemnsOpen) {
  EXPECT_EQ(outcome_of(judge_link({link_reads("closed")}), thermal_link), Outcome::within_limits);
  EXPECT_EQ(outcome_of(judge_link({link_reads("0.3 ohm")}), thermal_link), Outcome::within_limits);
  EXPECT_EQ(outcome_of(judge_link({link_reads("OL")}), thermal_link), Outcome::out_of_limits);
  EXPECT_EQ(outcome_of(judge_link({link_reads("OL", Connection::unstated)}), thermal_link), Outcome::out_of_limits);
}

TEST(LinkRule, LeavesTheRestOpen) {
  EXPECT_EQ(text_of(judge_link({link_reads("closed", Connection::unstated)}), thermal_link),
            "closed-connection-unstated");
  EXPECT_EQ(text_of(judge_link({link_reads("closed", Connection::in_circuit)}), thermal_link), "closed-in-circuit");
  EXPECT_EQ(text_of(judge_link({link_reads("OL", Connection::in_circuit, Supply::unplugged)}), thermal_link),
            "open-in-circuit");
  EXPECT_EQ(outcome_of(judge_link({link_reads("OL", Connection::in_circuit)}), thermal_link), Outcome::out_of_limits);
  EXPECT_EQ(text_of(judge_link({link_reads("20 ohm")}), thermal_link), "poor-link");
}

TEST(LinkRule, ACleanReadingOutweighsOneThatTellsNothing) {
  EXPECT_EQ(outcome_of(judge_link({link_reads("closed", Connection::in_circuit), link_reads("closed")}), thermal_link),
            Outcome::within_limits);
  EXPECT_EQ(outcome_of(judge_link({link_reads("closed"), link_reads("OL")}), thermal_link), Outcome::out_of_limits);
}

TEST(LinkRule, SaysWhyItStaysSilent) {
  EXPECT_EQ(text_of(judge_link({{.value = "OL", .at = "22 degC"}}), thermal_link), "not-read");
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "OL", .at = "22 degC"}}), thermal_link), "no-link");
  EXPECT_EQ(text_of(judge(ratings_with_link(2), {{.value = "OL", .at = "22 degC"}}), thermal_link), "two-leads-only");
  EXPECT_EQ(outcome_of(judge(ratings_with_link(2), {link_reads("OL")}), thermal_link), Outcome::undecided);
  EXPECT_EQ(text_of(judge_link({link_reads("OL", Connection::lead_off, Supply::live)}), thermal_link), "only-live");
}

TEST(PairRule, SuspectsBothOfAPairThatIsOpenCold) {
  const Findings findings = judge(ratings_with_link(2), {{.value = "OL", .at = "-18 degC +- 1 K"}});
  EXPECT_EQ(text_of(findings, pair_suspected), "both-suspected");
  EXPECT_EQ(outcome_of(findings, state_at_temperature), Outcome::out_of_limits);
  EXPECT_EQ(text_of(judge(ratings_with_link(2), {{.value = "OL", .at = "22 degC +- 1 K"}}), pair_suspected),
            "not-open-cold");
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "OL", .at = "-18 degC +- 1 K"}}), pair_suspected), "no-pair");
}

TEST(PairRule, ALaterClosedReadingClearsTheLink) {
  EXPECT_EQ(text_of(judge(ratings_with_link(2),
                          {{.value = "OL", .at = "-18 degC +- 1 K"}, {.value = "closed", .at = "-20 degC +- 1 K"}}),
                    pair_suspected),
            "link-closed-then");
  EXPECT_EQ(text_of(judge(ratings_with_link(2),
                          {{.value = "closed", .at = "-20 degC +- 1 K"}, {.value = "OL", .at = "-18 degC +- 1 K"}}),
                    pair_suspected),
            "both-suspected");
}

TEST(MatchingClass, NamesTheNearest) {
  const Findings findings = judge(nullptr, series({{'C', 12.5}, {'O', 13.5}}));
  EXPECT_EQ(text_of(findings, matching_class), "nearest-by-opening");
  EXPECT_EQ(std::get<std::string>(finding_of(findings, matching_class).arguments[1].value), "opens-13");
  const Findings both = judge(nullptr, series({{'C', 9.5}, {'O', 10.5}, {'O', -6.5}, {'C', -7.5}}));
  EXPECT_EQ(text_of(both, matching_class), "nearest-by-both");
  EXPECT_EQ(std::get<std::string>(finding_of(both, matching_class).arguments[2].value), "opens-10");
}

TEST(MatchingClass, SaysWhereItCannot) {
  EXPECT_EQ(text_of(judge(nullptr, series({{'C', -18}, {'O', 22}})), matching_class), "too-wide");
  EXPECT_EQ(text_of(judge(nullptr, series({{'O', 22}})), matching_class), "not-seen");
  EXPECT_EQ(text_of(judge(plain_ratings(), {{.value = "OL", .at = "22 degC"}}), matching_class), "ratings-known");
}

TEST(Classes, HaveTheFiguresOfTheirFiles) {
  std::set<std::string_view> names;
  for (const GenericClass& one : generic_classes()) {
    EXPECT_LE(one.name.size(), 15U) << one.name;  // a longer name would allocate in judge
    EXPECT_TRUE(names.insert(one.name).second) << one.name;
    const Document file =
        read_document(std::string(OHMWRIGHT_THERMOSTAT_FOLDER) + "/ratings/" + std::string(one.name) + ".json");
    std::vector<Problem> problems;
    const auto ratings = read_ratings(*file.root.find("ratings"), problems);
    ASSERT_TRUE(ratings) << one.name;
    EXPECT_EQ(ratings->opening.nominal, one.opening.nominal) << one.name;
    EXPECT_EQ(ratings->opening.tolerance, one.opening.tolerance) << one.name;
    EXPECT_EQ(ratings->closing.nominal, one.closing.nominal) << one.name;
    EXPECT_EQ(ratings->closing.tolerance, one.closing.tolerance) << one.name;
  }
}

}  // namespace
}  // namespace ohmwright::bimetal_thermostat
