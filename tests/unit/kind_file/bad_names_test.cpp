// Kind files that are wrong around their rules: every message, word for word.

#include <gtest/gtest.h>

#include "bad_file.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;

class WrongNames : public ::testing::TestWithParam<BadFile> {};

TEST_P(WrongNames, AreToldWithLineAndPointerAllAtOnce) { EXPECT_EQ(refusals_of(GetParam()), GetParam().reasons); }

const std::vector<BadFile> bad_files = {
    {"ProcedureWithoutCautions",
     {{R"("cautions": ["live-measurement"])", R"("cautions": [])"}},
     {"line 59, /procedures/2/cautions: found a list of 0; expected a list of 1 or more: ids of the cautions that are "
      "shown before the first step"}},
    {"ProcedureThatForgetsThem",
     {{R"(, "cautions": ["live-measurement"])", ""}},
     {R"(line 59, /procedures/2: the field "cautions" is missing: ids of the cautions that are shown before the first step)"}},
    {"UnknownField",
     {{R"("aliases")", R"("alias")"}},
     {R"(line 4, /alias: unknown field "alias"; expected "$schema", "advice", "aliases", "cautions", "charts", "conditions", "elements", "fault_modes", "kind", "measurands", "points", "procedures", "ratings", "roles", "rules", "states", "terminals" or "title")"}},
    {"UnknownDimension",
     {{R"("dimension": "current")", R"("dimension": "amperage")"}},
     {R"(line 10, /measurands/2/dimension: found "amperage"; expected "resistance", "voltage", "current", "power", "energy", "frequency", "capacitance", "inductance", "duration", "temperature", "temperature_difference", "rotational_speed", "mass", "length" or "ratio")"}},
    {"FaultWithoutElements",
     {{R"(, "elements": [{"type": "contact", "between": ["a", "b"], "contact_of": "switch"}])", ""}},
     {R"(line 70, /fault_modes/2: the field "elements" is missing: what lies between the part's terminals)"}},
    {"SeveralAtOnce",
     {{R"("title": "Coil for tests",)", R"("title": "",)"},
      {R"("minutes": 1,)", R"("minutes": -1,)"},
      {R"("to": "50 degC")", R"("to": 50)"}},
     {R"(line 3, /title: found ""; expected 1 characters or more: what people read)",
      "line 57, /procedures/0/minutes: found the number -1; expected at least 0",
      R"(line 73, /charts/0/to: found the number 50; expected text: a quantity with its unit, such as "0.1 ohm")"}},
    {"KindThatIsNoName",
     {{R"("test-coil")", R"("Test Coil")"}},
     {R"(line 2, /kind: found "Test Coil"; expected the name of a kind: small letters, digits and -)"}},
    {"CutOff",
     {{R"(    {"measurand": "resistance", "condition": "part_temperature", "from": "0 degC", "to": "50 degC"}
  ]
}
)",
       ""}},
     {"line 72, /charts: the document ends too early; expected a value"}},
    {"FieldTwice",
     {{R"("roles")", R"("title": "again",
  "roles")"}},
     {R"(line 5, /title: the field "title" stands twice, first on line 3; keep one)"}},
    {"FieldTwiceAndMore",
     {{R"("test-coil")", R"("Test Coil")"}, {R"("roles")", R"("title": "again",
  "roles")"}},
     {R"(line 2, /kind: found "Test Coil"; expected the name of a kind: small letters, digits and -)",
      R"(line 5, /title: the field "title" stands twice, first on line 3; keep one)"}},
    {"TextThatHides",
     {{"Coil for tests", R"(Coil\u202e for tests)"}},
     {R"(line 3, /title: the text cannot be shown: "Coil\u202e for tests")"}},
    {"AliasThatHides",
     {{R"("spool")", R"("sp\u202eool")"}},
     {R"(line 4, /aliases/0: the alias cannot be shown: "sp\u202eool")"}},
    {"GasValve",
     {{R"("title": "Coil for tests")", R"("title": "Coil of the gas valve")"},
      {R"("opens-water")", R"("opens-gas-valve")"}},
     {R"(line 3, /title: "Coil of the gas valve": gas is outside of what this program does: it stops at valve, pipe and burner, which are work for licensed hands; describe the electrical side alone, such as an igniter)",
      R"(line 5, /roles/0: "opens-gas-valve": gas is outside of what this program does: it stops at valve, pipe and burner, which are work for licensed hands; describe the electrical side alone, such as an igniter)"}},
    {"HighVoltageOfAMicrowaveOven",
     {{R"("spool")", R"("magnetron")"}},
     {R"(line 4, /aliases/0: "magnetron": the high-voltage side of a microwave oven can kill, also when it is unplugged; this program has no part in it: leave it to those who are qualified and equipped for it)"}},
    {"IdsTwice",
     {{R"("id": "contact", "title")", R"("id": "resistance", "title")"},
      {R"("id": "line_voltage", "option": "line")", R"("id": "part_temperature", "option": "line")"}},
     {R"(line 9, /measurands/1/id: the measurand "resistance" stands twice)",
      R"(line 14, /conditions/1/id: the condition "part_temperature" stands twice)",
      R"(line 36, /rules/1/measurand: there is no measurand "contact"; there is "resistance", "resistance" or "current")",
      R"(line 48, /rules/2/proportional_to/condition: there is no condition "line_voltage"; there is "part_temperature" or "part_temperature")",
      R"(line 58, /procedures/1/measurand: there is no measurand "contact"; there is "resistance", "resistance" or "current")"}},
    {"RatingTwice",
     {{R"("id": "opens", "title")", R"("id": "nominal", "title")"}},
     {R"(line 19, /ratings/2/id: the figure of the ratings "nominal" stands twice)",
      R"(line 37, /rules/1/contact/closed_below/rating: there is no figure of the ratings "opens"; there is "nominal", "tolerance", "nominal", "power" or "voltage")",
      R"(line 37, /rules/1/contact/open_above/rating: there is no figure of the ratings "opens"; there is "nominal", "tolerance", "nominal", "power" or "voltage")"}},
    {"RuleTwice",
     {{R"("id": "switch", "title")", R"("id": "winding", "title")"}},
     {R"(line 36, /rules/1/id: the rule "winding" stands twice)",
      R"(line 70, /fault_modes/2/elements/0/contact_of: there is no rule "switch"; there is "winding", "winding" or "current")"}},
    {"ProcedureCautionFaultAndAdviceTwice",
     {{R"("id": "ends")", R"("id": "ohms")"},
      {R"({"id": "own", "brief": "Own hazard", "text": "A hazard of its own.", "source": "made up"})",
       R"({"id": "own", "brief": "Own hazard", "text": "A hazard of its own.", "source": "made up"},
    {"id": "own", "brief": "Own hazard", "text": "A hazard of its own.", "source": "made up"})"},
      {R"("id": "bypassed")", R"("id": "open")"},
      {R"("id": "lift-a-lead")", R"("id": "buy")"}},
     {R"(line 54, /advice/1/id: the advice "buy" stands twice)",
      R"(line 54, /advice/1: the field "when" is missing: the rule, and which of its texts it said)",
      R"(line 58, /procedures/1/id: the procedure "ohms" stands twice)",
      R"(line 63, /cautions/1/id: the caution "own" stands twice)",
      R"(line 71, /fault_modes/2/id: the fault mode "open" stands twice)"}},
    {"NamesTwice",
     {{R"(["spool"])", R"(["spool", "spool"])"}, {R"("terminals": ["a", "b"])", R"("terminals": ["a", "b", "b"])"}},
     {R"(line 4, /aliases/1: the alias "spool" stands twice)",
      R"(line 6, /terminals/2: the terminal "b" stands twice)"}},
    {"UnitOfAnotherDimension",
     {{R"("dimension": "current", "unit": "A")", R"("dimension": "current", "unit": "ohm")"},
      {R"("unit": "V")", R"("unit": "K")"}},
     {R"(line 10, /measurands/2/unit: a current has no unit "ohm"; its unit is "A")",
      R"(line 14, /conditions/1/unit: a voltage has no unit "K"; its unit is "V")"}},
    {"ContactWordsOnACurrent",
     {{R"("unit": "A")", R"("unit": "A", "contact_words": true)"}},
     {R"(line 10, /measurands/2/contact_words: "open" and "closed" are read off a resistance only)"}},
    {"OptionOfTheProgram",
     {{R"("option": "line")", R"("option": "out")"}},
     {R"(line 14, /conditions/1/option: the option "--out" is the program's own)"}},
    {"OptionThatIsAMeasurand",
     {{R"("option": "line")", R"("option": "current")"}},
     {R"(line 14, /conditions/1/option: the option "--current" is the name of a measurand)"}},
    {"OptionTwice",
     {{R"("option": "line")", R"("option": "at")"}},
     {R"(line 14, /conditions/1/option: the option "--at" stands twice)"}},
    {"HalfWidthOfAnotherDimension",
     {{R"("half_width": "2 V")", R"("half_width": "2 K")"}},
     {R"(line 14, /conditions/1/doubt/half_width: expected a voltage, such as "120 V", got "2 K")"}},
    {"HalfWidthBelowZero",
     {{R"("half_width": "2 V")", R"("half_width": "-2 V")"}},
     {R"(line 14, /conditions/1/doubt/half_width: a half-width is zero or more, such as "1 K")"}},
    {"BetterThatIsNoBetter",
     {{R"("half_width": "0.2 K")", R"("half_width": "1 K")"}},
     {"line 13, /conditions/0/better/half_width: it is no better than the half-width that is taken where none is "
      "stated"}},
};

INSTANTIATE_TEST_SUITE_P(BadFiles, WrongNames, ::testing::ValuesIn(bad_files),
                         [](const auto& bad) { return bad.param.name; });

}  // namespace
}  // namespace ohmwright::kind_file
