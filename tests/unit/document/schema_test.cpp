#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/schema.hpp>

#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

using ::testing::ElementsAre;

/// "LINE POINTER: text" of all problems.
std::vector<std::string> problems(const std::string& members, std::string_view text) {
  const Schema schema(R"({"$schema": "http://json-schema.org/draft-07/schema#", )" + members + "}",
                      "the test's schema");
  std::vector<std::string> lines;
  for (const Problem& p : schema.problems(parse_document(text, "f").root))
    lines.push_back(std::to_string(p.line) + ' ' + p.pointer + ": " + p.text);
  return lines;
}

constexpr const char* part_schema = R"("type": "object", "required": ["name", "value"], "additionalProperties": false,
  "properties": {"name": {"type": "string", "minLength": 2, "pattern": "^[a-z]+$", "description": "small letters"},
                 "value": {"type": "string", "description": "a quantity with its unit"},
                 "state": {"enum": ["lead-off", "in-circuit", null]},
                 "count": {"type": "integer", "minimum": 1, "maximum": 9},
                 "list": {"type": "array", "minItems": 1, "uniqueItems": true, "items": {"type": "number"}}})";

TEST(Schema, AcceptsWhatIsValid) {
  EXPECT_THAT(
      problems(part_schema, R"({"name": "ab", "value": "1 ohm", "state": null, "count": 3.0, "list": [1, 2.5]})"),
      ElementsAre());
}

TEST(Schema, TellsAllProblemsAtOnceInTheOrderOfTheFile) {
  EXPECT_THAT(
      problems(part_schema,
               "{\"name\": \"A1\",\n\"value\": 5,\n\"state\": \"lead_off\",\n\"count\": 0,\n\"list\": "
               "[1,\n\"x\"],\n\"cuont\": 1}"),
      ElementsAre(
          "1 /name: found \"A1\"; expected small letters",
          "2 /value: found the number 5; expected text: a quantity with its unit",
          "3 /state: found \"lead_off\"; expected \"lead-off\", \"in-circuit\" or \"null\"; did you mean \"lead-off\"?",
          "4 /count: found the number 0; expected at least 1", "6 /list/1: found \"x\"; expected a number",
          "7 /cuont: unknown field \"cuont\"; did you mean \"count\"?"));
}

TEST(Schema, NamesAMissingFieldAndTheOneThatWasProbablyMeantToBeIt) {
  EXPECT_THAT(problems(part_schema, R"({"name": "ab", "valeu": "1 ohm"})"),
              ElementsAre("1 : the field \"value\" is missing: a quantity with its unit (is it \"valeu\"?)",
                          "1 /valeu: unknown field \"valeu\"; did you mean \"value\"?"));
}

TEST(Schema, ListsTheKnownFieldsWhenNoneIsNear) {
  EXPECT_THAT(
      problems(part_schema, R"({"name": "ab", "value": "", "zzzzzz": 1})"),
      ElementsAre(
          "1 /zzzzzz: unknown field \"zzzzzz\"; expected \"count\", \"list\", \"name\", \"state\" or \"value\""));
}

TEST(Schema, TellsBrokenBoundsInWords) {
  EXPECT_THAT(problems(part_schema, R"({"name": "a", "value": "", "count": 10, "list": []})"),
              ElementsAre("1 /count: found the number 10; expected at most 9",
                          "1 /list: found a list of 0; expected a list of 1 or more",
                          "1 /name: found \"a\"; expected 2 characters or more: small letters"));
  EXPECT_THAT(problems(part_schema, R"({"name": "ab", "value": "", "count": 2.5})"),
              ElementsAre("1 /count: found the number 2.5; expected a whole number"));
  EXPECT_THAT(problems(part_schema, "[]"), ElementsAre("1 : found a list; expected an object"));
}

constexpr const char* by_form =
    R"("type": "object", "required": ["form"], "properties": {"form": {"enum": ["beta", "chart"]}},
  "allOf": [{"if": {"properties": {"form": {"const": "beta"}}}, "then": {"$ref": "#/definitions/beta"}},
            {"if": {"properties": {"form": {"const": "chart"}}}, "then": {"$ref": "#/definitions/chart"}}],
  "definitions": {"beta": {"required": ["beta"], "properties": {"form": {}, "beta": {"type": "string"}}, "additionalProperties": false},
                  "chart": {"required": ["rows"], "properties": {"form": {}, "rows": {"type": "array"}}, "additionalProperties": false}})";

TEST(Schema, SpeaksOnlyOfTheBranchThatTheConditionChose) {
  EXPECT_THAT(problems(by_form, R"({"form": "beta", "beta": "3977 K", "rows": []})"),
              ElementsAre("1 /rows: unknown field \"rows\"; expected \"beta\" or \"form\""));
  EXPECT_THAT(problems(by_form, R"({"form": "chart", "rows": "none"})"),
              ElementsAre("1 /rows: found \"none\"; expected a list"));
  EXPECT_THAT(problems(by_form, R"({"form": "bata"})"),
              ElementsAre("1 /form: found \"bata\"; expected \"beta\" or \"chart\"; did you mean \"beta\"?"));
}

constexpr const char* one_of_forms = R"("oneOf": [
  {"type": "string", "description": "a quantity"},
  {"type": "object", "description": "a beta curve", "required": ["form", "beta"], "additionalProperties": false,
   "properties": {"form": {"const": "beta"}, "beta": {"type": "string"}}},
  {"type": "object", "description": "a chart", "required": ["form", "rows"], "additionalProperties": false,
   "properties": {"form": {"const": "chart"}, "rows": {"type": "array", "items": {"$ref": "#/definitions/row"}}}}],
  "definitions": {"row": {"type": "number"}})";

TEST(Schema, OfSeveralAlternativesSpeaksOfTheOneThatWasMeant) {
  EXPECT_THAT(problems(one_of_forms, R"({"form": "chart", "rows": [1, "x"]})"),
              ElementsAre("1 /rows/1: found \"x\"; expected a number"));
  EXPECT_THAT(problems(one_of_forms, R"({"form": "beta"})"), ElementsAre("1 : the field \"beta\" is missing"));
  EXPECT_THAT(problems(one_of_forms, R"({"form": "bta"})"),
              ElementsAre("1 /form: found \"bta\"; expected \"beta\" or \"chart\"; did you mean \"beta\"?"));
  EXPECT_THAT(problems(one_of_forms, "5"),
              ElementsAre("1 : found the number 5; expected a quantity, a beta curve or a chart"));
}

TEST(Schema, TellsFieldsThatExcludeEachOther) {
  const char* tolerance =
      R"("oneOf": [{"required": ["reference"]}, {"required": ["resistance"]}], "dependencies": {"slope": ["reference"]})";
  EXPECT_THAT(problems(tolerance, R"({"slope": "1 %"})"),
              ElementsAre("1 : found an object that fits none of the accepted forms; expected one with \"reference\" "
                          "or one with \"resistance\"",
                          "1 : the field \"reference\" is missing; another field here needs it"));
  EXPECT_THAT(problems(tolerance, R"({"reference": "1 %", "resistance": "5 %"})"),
              ElementsAre("1 : found an object that fits more than one of the accepted forms; expected one with "
                          "\"reference\" or one with "
                          "\"resistance\", not several at once"));
}

TEST(Schema, FieldNamesWithAnyCharactersKeepTheirPointer) {
  EXPECT_THAT(problems(R"("additionalProperties": {"type": "number"})", R"({"a/b~c]": "x", "0": [1]})"),
              ElementsAre("1 /0: found a list; expected a number", "1 /a~1b~0c]: found \"x\"; expected a number"));
}

TEST(Schema, ALongTextIsNoDangerToThePatternMatcher) {
  const std::string longest(1024, 'a');
  EXPECT_THAT(problems(R"("items": {"pattern": "^(a|b)*c$"})", "[\"" + longest + "\"]").size(), 1U);
}

TEST(Schema, StopsAfterAHundredProblems) {
  std::string many = "[0";
  for (int i = 0; i < 500; ++i) many += ",0";
  const auto found = problems(R"("items": {"type": "string"})", many + "]");
  EXPECT_EQ(found.size(), 101U);
  EXPECT_EQ(found.front(), "1 : and more of the same");
}

TEST(Schema, RefusesWhatIsNoSchemaOfDraft7) {
  const auto refusal = [](const char* text) {
    return testing::refusal_of([text] { Schema(text, "the schema of the ratings of pump", ErrorCategory::plugin); });
  };
  EXPECT_THAT(refusal("{"), ::testing::StartsWith(
                                "the schema of the ratings of pump is not a JSON Schema of draft 7: [json.exception"));
  EXPECT_EQ(refusal("{}"), "the schema of the ratings of pump is not a JSON Schema of draft 7: it has no \"$schema\"");
  EXPECT_EQ(
      refusal(R"({"$schema": "https://json-schema.org/draft/2020-12/schema"})"),
      "the schema of the ratings of pump is not a JSON Schema of draft 7: \"$schema\" names another draft; expected "
      "\"http://json-schema.org/draft-07/schema#\"");
  EXPECT_THAT(refusal(R"({"$schema": "http://json-schema.org/draft-07/schema#", "type": 5})"),
              ::testing::HasSubstr("is not a JSON Schema of draft 7"));
}

}  // namespace
}  // namespace ohmwright
