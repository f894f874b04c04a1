// What a part of a kind of a file is expected to read, how it conducts, and what its ratings may say.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/ratings_document.hpp>

#include "kind_fixture.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;
using ::testing::ElementsAre;
using ::testing::IsEmpty;
using ::testing::SizeIs;

std::vector<Element> elements(const Part& part, std::uint16_t fault, std::optional<double> celsius = 25.0) {
  std::vector<ConditionValue> conditions;
  if (celsius) conditions.push_back({0, *celsius + 273.15});
  std::vector<Element> found;
  part.electrical_model(fault, Situation(conditions), found);
  return found;
}

// Copper 100 ohm at 25 °C has 82.658960 ohm at -20 °C with k = 234.5 (winding law, standards of appliances).
TEST(PartOfFile, ExpectsWhatItsLimitsSayThere) {
  const auto kind = coil();
  const auto part = part_of(*kind, R"({"nominal": "100 ohm"})");
  const ConditionValue cold{0, 253.15};
  const auto expected = part->expect(0, Situation({&cold, 1}));
  ASSERT_TRUE(expected);
  EXPECT_NEAR(expected->nominal.value_in_si(), 82.658960, 1e-6);
  EXPECT_NEAR(expected->limits.lower->value_in_si(), 0.93 * 82.658960, 1e-6);
  EXPECT_NEAR(expected->limits.upper->value_in_si(), 1.07 * 82.658960, 1e-6);
  EXPECT_FALSE(expected->share_closed);
  EXPECT_FALSE(part->expect(0, {}));                     // no temperature
  EXPECT_FALSE(part->expect(1, Situation({&cold, 1})));  // where it opens is not stated
  EXPECT_FALSE(part->expect(7, Situation({&cold, 1})));
}

TEST(PartOfFile, ExpectsTheShareOfContactsThatAreClosed) {
  const auto kind = coil();
  const auto part = part_of(*kind, R"({"nominal": "100 ohm", "opens": "13 degC"})");
  const auto share = [&](double celsius) {
    const ConditionValue at{0, celsius + 273.15};
    return part->expect(1, Situation({&at, 1}))->share_closed.value();
  };
  EXPECT_EQ(share(-20.0), 1.0);
  EXPECT_EQ(share(3.0), 1.0);
  EXPECT_NEAR(share(8.0), 0.5, 1e-9);
  EXPECT_NEAR(share(10.5), 0.25, 1e-9);
  EXPECT_EQ(share(13.0), 0.0);
  EXPECT_EQ(share(30.0), 0.0);
}

TEST(PartOfFile, ConductsInSeriesThroughPointsWithin) {
  const auto kind = coil(
      {{R"("measurands": [)", R"("points": ["joint"], "measurands": [)"},
       {R"({"id": "resistance", "title": "Resistance",)",
        R"({"id": "resistance", "between": ["a", "b"], "title": "Resistance",)"},
       {R"({"type": "resistance", "between": ["a", "b"], "nominal_of": "winding"})",
        R"({"type": "resistance", "between": ["a", "joint"], "nominal_of": "winding"}, {"type": "contact", "between": ["joint", "b"], "contact_of": "switch", "value": "3 ohm", "tolerance": "50 %"})"}});
  EXPECT_EQ(kind->descriptor().measurands[0].from, 0);
  EXPECT_EQ(kind->descriptor().measurands[0].to, 1);
  const auto part = part_of(*kind, R"({"nominal": "100 ohm", "opens": "13 degC"})");
  const std::vector<Element> cold = elements(*part, not_found, 0.0);
  ASSERT_THAT(cold, SizeIs(2));
  EXPECT_EQ(cold[0].to, 2);  // past the two terminals
  EXPECT_EQ(cold[1].from, 2);
  EXPECT_EQ(cold[1].type, ElementType::resistance);
  EXPECT_EQ(cold[1].value_in_si, 3.0);
  EXPECT_EQ(cold[1].relative_half_width, 0.5);
  const std::vector<Element> between = elements(*part, not_found, 8.0);
  EXPECT_EQ(between[1].type, ElementType::contact);
  EXPECT_EQ(between[1].value_in_si, 3.0);
  EXPECT_NEAR(between[1].probability_closed, 0.5, 1e-9);
  EXPECT_EQ(elements(*part, not_found, 20.0)[1].type, ElementType::open);
}

TEST(PartOfFile, OpensItsOwnProtectorWhileItIsHot) {
  const auto kind = coil({{R"("fault_modes": [)",
                           R"("own_protectors": [{"between": ["a", "b"], "condition": "part_temperature",
    "closed_to": "120 degC", "open_from": "150 degC", "source": "invented"}],
  "fault_modes": [)"}});
  const auto part = part_of(*kind, R"({"nominal": "100 ohm", "opens": "13 degC"})");
  EXPECT_EQ(elements(*part, not_found, 25.0)[0].type, ElementType::resistance);
  EXPECT_EQ(elements(*part, not_found, 120.0)[0].type, ElementType::resistance);
  const std::vector<Element> between = elements(*part, not_found, 140.0);
  EXPECT_EQ(between[0].type, ElementType::contact);
  EXPECT_NEAR(between[0].probability_closed, 1.0 / 3.0, 1e-9);
  EXPECT_NEAR(between[0].value_in_si, 100.0 * (234.5 + 140.0) / 259.5, 1e-6);
  EXPECT_EQ(elements(*part, not_found, 150.0)[0].type, ElementType::open);
  EXPECT_EQ(elements(*part, 1, 150.0)[0].type, ElementType::open);  // turns shorted: it opens all the sooner
  EXPECT_EQ(elements(*part, not_found, std::nullopt).size(), 0u);   // nobody knows its ohms without a temperature
}

TEST(PartOfFile, ConductsAsItsFileSays) {
  const auto kind = coil();
  const auto part = part_of(*kind, R"({"nominal": "100 ohm", "opens": "13 degC"})");
  const auto healthy = elements(*part, not_found);
  ASSERT_THAT(healthy, SizeIs(1));
  EXPECT_EQ(healthy[0].type, ElementType::resistance);
  EXPECT_EQ(healthy[0].from, 0);
  EXPECT_EQ(healthy[0].to, 1);
  EXPECT_NEAR(healthy[0].value_in_si, 100.0, 1e-9);
  EXPECT_NEAR(healthy[0].relative_half_width, 0.07, 1e-9);
  EXPECT_NEAR(elements(*part, not_found, -20.0)[0].value_in_si, 82.658960, 1e-6);
  EXPECT_EQ(elements(*part, 0)[0].type, ElementType::open);
  EXPECT_NEAR(elements(*part, 1)[0].value_in_si, 50.0, 1e-9);
  EXPECT_NEAR(elements(*part, 1)[0].relative_half_width, 0.2, 1e-12);
  EXPECT_EQ(elements(*part, 2, 0.0)[0].type, ElementType::closed);
  EXPECT_EQ(elements(*part, 2, 23.0)[0].type, ElementType::open);
  EXPECT_EQ(elements(*part, 2, std::nullopt)[0].type, ElementType::closed);
  EXPECT_THAT(elements(*part, 99), IsEmpty());
  EXPECT_THAT(elements(*part_of(*kind, ""), not_found), IsEmpty());  // nobody knows its ohms
}

// A motor without a tacho has no pins of one, and none that opens; of a part of which nothing is known it may.
TEST(PartOfFile, HasOnlyWhatItsRatingsState) {
  const auto kind = coil({{R"({"type": "resistance", "between": ["a", "b"], "nominal_of": "winding"}
  ],)",
                           R"({"type": "resistance", "between": ["a", "b"], "nominal_of": "winding"},
    {"type": "closed", "between": ["a", "b"], "if_rated": "opens"}
  ],)"},
                          {R"({"id": "bypassed",)", R"({"id": "bypassed", "if_rated": "opens",)"}});
  const auto with = part_of(*kind, R"({"nominal": "100 ohm", "opens": "13 degC"})");
  EXPECT_THAT(elements(*with, not_found), SizeIs(2));
  EXPECT_THAT(elements(*with, 2), SizeIs(1));
  const auto without = part_of(*kind, R"({"nominal": "100 ohm"})");
  EXPECT_THAT(elements(*without, not_found), SizeIs(1));
  std::vector<Element> unused;
  EXPECT_EQ(without->electrical_model(2, Situation(), unused), ModelAnswer::not_applicable);
  EXPECT_EQ(part_of(*kind, "")->electrical_model(2, Situation(), unused), ModelAnswer::stated);
}

// Limits of -20 % and +10 % of 100 ohm are 80 to 110 ohm: 95 ohm and 15 ohm to either side (own arithmetic).
TEST(PartOfFile, GoodOnesFillTheirLimitsAlsoWhereOneSideIsWider) {
  const auto kind = coil({{R"("tolerance": [{"rating": "tolerance"}, "7 %"])",
                           R"("tolerance_below": "20 %", "tolerance_above": "10 %")"}});
  const auto part = part_of(*kind, R"({"nominal": "100 ohm"})");
  const Element good = elements(*part, not_found)[0];
  EXPECT_NEAR(good.value_in_si, 95.0, 1e-9);
  EXPECT_NEAR(good.value_in_si * good.relative_half_width, 15.0, 1e-9);
  EXPECT_NEAR(elements(*part, 1)[0].value_in_si, 50.0, 1e-9) << "a drift is one of the nominal value";
}

/// What is open from 20 kohm on says nothing of what a good one reads.
TEST(PartOfFile, ExpectsNothingByALimitOfWhatIsOpen) {
  const auto kind = coil({{R"(    {
      "id": "switch",)",
                           R"(    {
      "id": "open", "title": "Open or not", "measurand": "resistance", "source": "made up", "limits": {"upper": "20 kohm"},
      "texts": {"within": "no", "high": "yes", "undecided": "perhaps"}
    },
    {
      "id": "switch",)"}});
  EXPECT_FALSE(part_of(*kind, R"({"nominal": "100 ohm"})")->expect(0, {}));
  const auto unrated = part_of(*kind, "")->expect(0, {});
  ASSERT_TRUE(unrated);
  EXPECT_NEAR(unrated->limits.upper->value_in_si(), 2e4, 1e-6);
}

std::vector<std::string> refusals(const std::string& figures) {
  const auto kind = coil();
  const std::string text =
      R"({"kind": "test-coil", "name": "n", "title": "t", "source": "s", "ratings": )" + figures + "}";
  try {
    const RatingsDocument ratings = read_ratings(parse_document(text, "file"), kind->descriptor());
    std::vector<Problem> problems;
    const bool made = kind->make_part(ratings.ratings, problems) != nullptr;
    EXPECT_EQ(made, problems.empty());
    std::vector<std::string> texts;
    for (const Problem& problem : problems) texts.push_back(problem.pointer + ": " + problem.text);
    return texts;
  } catch (const DocumentError& error) {
    return {error.what()};
  }
}

TEST(RatingsOfAFile, FollowTheSchemaThatTheFileYields) {
  EXPECT_THAT(refusals(R"({"nominal": {"value": "82 ohm", "source": "sheet"}, "opens": "13 degC"})"), IsEmpty());
  EXPECT_THAT(refusals(R"({"opens": "13 degC"})"),
              ElementsAre("file:1: /ratings: the field \"nominal\" is missing: resistance at 25 °C, a resistance, such "
                          "as \"11.0 kohm\""));
  EXPECT_THAT(refusals(R"({"nominal": "82 ohm", "nominel": "1 ohm"})"),
              ElementsAre("file:1: /ratings/nominel: unknown field \"nominel\"; did you mean \"nominal\"?"));
  EXPECT_THAT(refusals(R"({"nominal": 82})"),
              ElementsAre("file:1: /ratings/nominal: found the number 82; expected text or an object: resistance at 25 "
                          "°C, a resistance, such as \"11.0 kohm\""));
}

TEST(RatingsOfAFile, AreRefusedWhereTheirFiguresDoNotFit) {
  EXPECT_THAT(refusals(R"({"nominal": "82 V"})"),
              ElementsAre("/ratings/nominal: expected a resistance, such as \"11.0 kohm\", got \"82 V\""));
  EXPECT_THAT(refusals(R"({"nominal": {"value": "82 ohm +- 1 ohm"}})"),
              ElementsAre("/ratings/nominal/value: a rating has no ± of its own; how far good parts may be off is what "
                          "the kind says"));
  EXPECT_THAT(refusals(R"({"nominal": "82 ohm", "tolerance": "-5 %"})"),
              ElementsAre("/ratings: rule \"winding\": a tolerance must be 0 or more"));
  EXPECT_THAT(refusals(R"({"nominal": "0 ohm"})"),
              ElementsAre("/ratings: rule \"winding\": its nominal value has to be above 0: of nothing every share is "
                          "nothing"));
  EXPECT_THAT(refusals(R"({"nominal": "82 ohm", "voltage": "0 V", "power": "5 W"})"),
              ElementsAre("/ratings: rule \"current\": its nominal value is no number; every figure of a load must be "
                          "above 0"));
}

}  // namespace
}  // namespace ohmwright::kind_file
