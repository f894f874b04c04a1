#include <string>

#include <gtest/gtest.h>

#include <ohmwright/document/ratings_document.hpp>
#include <ohmwright/document/vectors_document.hpp>

#include "kind_with_schema.hpp"
#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

using testing::kind_with_schema;

std::string ratings_refusal(std::string_view text) {
  return testing::refusal_of([text] { read_ratings(parse_document_to_check(text, "p.json"), kind_with_schema()); });
}

TEST(RatingsDocument, GivesTheFrameAndTheTree) {
  const RatingsDocument ratings =
      read_ratings(parse_document("{\"kind\": \"test-part\", \"name\": \"a-1\", \"title\": \"A\", \"source\": "
                                  "\"test\",\n\"ratings\": {\"nominal\":\n\"10 kohm\"}}",
                                  "p.json"),
                   kind_with_schema());
  EXPECT_EQ(ratings.kind, "test-part");
  EXPECT_EQ(ratings.name, "a-1");
  EXPECT_EQ(ratings.title, "A");
  EXPECT_EQ(ratings.source, "test");
  EXPECT_EQ(ratings.file, "p.json");
  EXPECT_EQ(*ratings.ratings->find("nominal")->text(), "10 kohm");
  EXPECT_EQ(ratings.ratings->find("nominal")->pointer(), "/ratings/nominal");
  EXPECT_EQ(ratings.ratings->find("nominal")->line(), 3);
}

TEST(RatingsDocument, ChecksTheFrameAndTheFiguresTogetherWithTheirPlacesInTheFile) {
  EXPECT_EQ(ratings_refusal("{\"kind\": \"other\", \"name\": \"A 1\", \"title\": \"A\",\n\"ratings\": {\"nominal\": "
                            "10,\n\"tolerence\": \"5 %\"}}"),
            "p.json:1: the field \"source\" is missing: where the figures come from: a standard, a data sheet, or "
            "\"common practice, no "
            "source\"\n"
            "p.json:1: /name: found \"A 1\"; expected a name to choose it by: small letters, digits, . and -\n"
            "p.json:1: /kind: the file is about the kind \"other\"; expected \"test-part\"\n"
            "p.json:2: /ratings/nominal: found the number 10; expected text or an object\n"
            "p.json:3: /ratings/tolerence: unknown field \"tolerence\"; did you mean \"tolerance\"?");
}

/// A part that no kind is for is none of another kind by its ratings either.
TEST(RatingsDocument, RefusesThoseOfGasPartsAndOfAMicrowavesHighVoltage) {
  for (const char* title : {"Gas valve coil", "Microwave oven high-voltage capacitor 1 uF 2100 V"})
    EXPECT_NE(ratings_refusal("{\"kind\": \"test-part\", \"name\": \"a-1\", \"title\": \"" + std::string(title) +
                              "\", \"source\": \"s\", \"ratings\": {\"nominal\": \"10 kohm\"}}")
                  .find("p.json:1: /title: \"" + std::string(title) + "\": "),
              std::string::npos)
        << title;
}

/// A name that stands twice hides nothing else that is wrong; of the two values the first is checked further.
TEST(RatingsDocument, TellsANameThatStandsTwiceWithAllElseThatIsWrong) {
  EXPECT_EQ(ratings_refusal("{\"kind\": \"test-part\", \"name\": \"A 1\", \"title\": \"A\", \"source\": \"s\",\n"
                            "\"ratings\": {\"nominal\": 10,\n\"nominal\": \"10 kohm\",\n\"tolerence\": \"5 %\"},\n"
                            "\"title\": \"B\"}"),
            "p.json:1: /name: found \"A 1\"; expected a name to choose it by: small letters, digits, . and -\n"
            "p.json:2: /ratings/nominal: found the number 10; expected text or an object\n"
            "p.json:3: /ratings/nominal: the field \"nominal\" stands twice, first on line 2; keep one\n"
            "p.json:4: /ratings/tolerence: unknown field \"tolerence\"; did you mean \"tolerance\"?\n"
            "p.json:5: /title: the field \"title\" stands twice, first on line 1; keep one");
}

TEST(RatingsDocument, ReadsTheFrameAloneForLists) {
  EXPECT_EQ(
      read_ratings_frame(
          parse_document(R"({"kind": "any", "name": "a", "title": "A", "source": "s", "ratings": {"x": 1}})", "p"))
          .title,
      "A");
}

/// The test kind, whose tolerance may come from a control.
const Descriptor& kind_with_control() {
  static const Descriptor descriptor = [] {
    Descriptor d = kind_with_schema();
    d.control_member = "tolerance";
    return d;
  }();
  return descriptor;
}

RatingsDocument ratings_and(std::string_view control, const Descriptor& descriptor = kind_with_control()) {
  const RatingsDocument ratings = read_ratings(
      parse_document(
          R"({"kind": "test-part", "name": "a", "title": "A", "source": "s", "ratings": {"nominal": "10 kohm", "tolerance": "1 %"}})",
          "p.json"),
      descriptor);
  return with_control(ratings, parse_document(control, "c.json"), descriptor);
}

std::string control_refusal(std::string_view control, const Descriptor& descriptor = kind_with_control()) {
  return testing::refusal_of([&] { ratings_and(control, descriptor); });
}

TEST(WithControl, PutsTheOtherFilesFiguresInTheirPlace) {
  const RatingsDocument merged =
      ratings_and(R"({"kind": "test-part", "name": "c", "title": "C", "source": "s", "control": {"value": "5 %"}})");
  EXPECT_EQ(merged.name, "a");
  EXPECT_EQ(*merged.ratings->find("nominal")->text(), "10 kohm");
  EXPECT_EQ(*merged.ratings->find("tolerance")->find("value")->text(), "5 %");
  EXPECT_EQ(merged.ratings->find("tolerance")->pointer(), "/control");
}

TEST(WithControl, RefusesUnderTheFileThatIsWrong) {
  EXPECT_EQ(control_refusal(R"({"kind": "test-part", "name": "c", "title": "C", "source": "s"})").substr(0, 44),
            "c.json:1: the field \"control\" is missing: th");
  EXPECT_EQ(
      control_refusal("{\"kind\": \"test-part\", \"name\": \"c\", \"title\": \"C\", \"source\": \"s\",\n\"control\": "
                      "{\"value\":\n5}}"),
      "c.json:3: /control/value: found the number 5; expected text");
  EXPECT_EQ(
      control_refusal(R"({"kind": "other", "name": "c", "title": "C", "source": "s", "control": {"value": "5 %"}})"),
      "c.json:1: /kind: the file is about the kind \"other\"; expected \"test-part\"");
  EXPECT_EQ(
      control_refusal(R"({"kind": "test-part", "name": "c", "title": "C", "source": "s", "control": {"value": "5 %"}})",
                      kind_with_schema()),
      "a test-part has no control that could be named");
}

TEST(WithControl, AProblemOfTheKindStandsUnderItsOwnFile) {
  const RatingsDocument merged =
      ratings_and(R"({"kind": "test-part", "name": "c", "title": "C", "source": "s", "control": {"value": "5 %"}})");
  EXPECT_EQ(testing::refusal_of([&] {
              merged.refuse_if_any({{"/control/value", 1, "too much"}});
            }),
            "c.json:1: /control/value: too much");
  EXPECT_EQ(testing::refusal_of([&] {
              merged.refuse_if_any({{"/ratings/nominal", 1, "too little"}});
            }),
            "p.json:1: /ratings/nominal: too little");
  EXPECT_EQ(testing::refusal_of([&] { merged.refuse_if_any({}); }), "");
}

TEST(RatingsDocument, AKindWithoutASchemaIsThePluginsMistake) {
  try {
    ratings_schema_of(testing::test_descriptor());
    FAIL();
  } catch (const Error& error) {
    EXPECT_EQ(error.category(), ErrorCategory::plugin);
    EXPECT_EQ(std::string(error.what()).substr(0, 80),
              "the schema of the ratings of test-part is not a JSON Schema of draft 7: [json.ex");
  }
}

std::string vectors_refusal(std::string_view text) {
  return testing::refusal_of([text] { read_vectors(parse_document_to_check(text, "v.json"), kind_with_schema()); });
}

TEST(VectorsDocument, ReadsACase) {
  const VectorsDocument vectors = read_vectors(parse_document(R"({"kind": "test-part", "vectors": [
   {"id": "one", "title": "A part", "source": "test", "ratings": {"nominal": "10 kohm"}, "meter": "good", "confidence": 0.9,
    "readings": [{"value": "11 kohm"}],
    "expect": {"verdict": "within-limits", "probability_within": {"value": 0.9577, "tolerance": 3e-4, "reason": "digits printed"},
      "rules": [{"rule": "first", "outcome": "within-limits"}, {"rule": "second", "outcome": "silent"}],
      "figures": [{"rule": "first", "figure": "lower", "value": "33900.42 ohm", "relative_tolerance": 1e-6, "reason": "printed"},
                  {"rule": "first", "figure": "t", "value": "23 degC", "tolerance": "0.5 K", "reason": "printed"},
                  {"rule": "first", "figure": "n", "value": 7, "tolerance": 0.5, "reason": "printed"}],
      "advice": ["again"]}},
   {"id": "two", "title": "A part", "source": "test", "ratings": "ntc-10k", "readings": [{"value": "open"}],
    "expect": {"verdict": "undecided", "rules": [{"rule": "first", "outcome": "silent"}]}},
   {"id": "three", "title": "A part", "source": "test", "ratings": null, "readings": [{"value": "open"}],
    "expect": {"verdict": "out-of-limits", "rules": [{"rule": "first", "outcome": "out-of-limits"}], "advice": []}}]})",
                                                              "v.json"),
                                               kind_with_schema());
  ASSERT_EQ(vectors.cases.size(), 3U);
  const VectorCase& one = vectors.cases[0];
  EXPECT_EQ(one.id, "one");
  EXPECT_EQ(one.line, 2);
  EXPECT_EQ(*one.ratings->find("nominal")->text(), "10 kohm");
  EXPECT_EQ(one.ratings_name, "");
  EXPECT_EQ(one.meter, "good");
  EXPECT_EQ(one.confidence, 0.9);
  EXPECT_EQ(one.readings.size(), 1U);
  EXPECT_EQ(one.verdict, Outcome::within_limits);
  EXPECT_EQ(one.probability_within->value, 0.9577);
  EXPECT_EQ(one.rules[1].outcome, Outcome::silent);
  EXPECT_EQ(one.advice, std::vector<std::string>{"again"});
  const AllowedFigure lower = allowed_in(one.figures[0], Dimension::resistance);
  EXPECT_DOUBLE_EQ(lower.value, 33900.42);
  EXPECT_DOUBLE_EQ(lower.tolerance, 0.03390042);
  const AllowedFigure temperature = allowed_in(one.figures[1], Dimension::temperature);
  EXPECT_DOUBLE_EQ(temperature.value, 296.15);
  EXPECT_DOUBLE_EQ(temperature.tolerance, 0.5);
  EXPECT_DOUBLE_EQ(allowed_in(one.figures[2], Dimension::ratio).tolerance, 0.5);
  EXPECT_THROW(allowed_in(one.figures[0], Dimension::temperature), InputError);
  EXPECT_EQ(vectors.cases[1].ratings, nullptr);
  EXPECT_EQ(vectors.cases[1].ratings_name, "ntc-10k");
  EXPECT_EQ(vectors.cases[1].advice, std::nullopt);
  EXPECT_EQ(vectors.cases[2].ratings, nullptr);
  EXPECT_EQ(vectors.cases[2].advice, std::vector<std::string>{});
}

TEST(VectorsDocument, RefusesCasesWithoutSourceToleranceOrReason) {
  EXPECT_EQ(vectors_refusal(R"({"kind": "test-part", "vectors": [
{"id": "one", "title": "A part", "ratings": {"nominal": 5}, "readings": [{"value": "11 kohm"}],
"expect": {"verdict": "silent", "probability_within": {"value": 0.9577, "tolerance": 3e-4},
"rules": [{"rule": "frist", "outcome": "within-limits"}],
"figures": [{"rule": "first", "figure": "lower", "value": "33900 ohn", "reason": "printed"},
{"rule": "first", "figure": "lower", "value": "33900 ohm", "tolerance": 5, "reason": "printed"}],
"advice": ["agian"]}},
{"id": "one", "title": "A part", "source": "s", "ratings": null, "readings": [{"value": "11 V"}], "expect": {"verdict": "undecided", "rules": [{"rule": "first", "outcome": "silent"}]}}]})"),
            "v.json:2: /vectors/0: the field \"source\" is missing: where the figures come from: a standard, a data "
            "sheet, or \"common "
            "practice, no source\"\n"
            "v.json:2: /vectors/0/ratings/nominal: found the number 5; expected text or an object\n"
            "v.json:3: /vectors/0/expect/probability_within: the field \"reason\" is missing: why this tolerance\n"
            "v.json:3: /vectors/0/expect/verdict: found \"silent\"; expected \"within-limits\", \"out-of-limits\" or "
            "\"undecided\"\n"
            "v.json:4: /vectors/0/expect/rules/0/rule: a test-part has no rule \"frist\"; did you mean \"first\"?\n"
            "v.json:5: /vectors/0/expect/figures/0: found an object that fits none of the accepted forms; expected a "
            "figure with "
            "\"tolerance\" or a figure with \"relative_tolerance\" (one of the two)\n"
            "v.json:5: /vectors/0/expect/figures/0/value: expected a quantity with its unit, such as \"11.0 kohm\", "
            "got \"33900 ohn\"\n"
            "v.json:6: /vectors/0/expect/figures/1/tolerance: value and tolerance are both quantities with their "
            "units, or both plain "
            "numbers\n"
            "v.json:7: /vectors/0/expect/advice/0: a test-part has no advice \"agian\"; did you mean \"again\"?\n"
            "v.json:8: /vectors/1/id: the id \"one\" stands twice\n"
            "v.json:8: /vectors/1/readings/0/value: expected a resistance, such as \"11.0 kohm\", or \"open\", "
            "\"closed\", \"beep\", \"no "
            "beep\" or \"OL\", got \"11 V\"");
}

}  // namespace
}  // namespace ohmwright
