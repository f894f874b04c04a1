// Kind files whose advice, procedures, cautions, elements or charts are wrong: every message, word for word.

#include <gtest/gtest.h>

#include "bad_file.hpp"

namespace ohmwright::kind_file {
namespace {

using namespace testing_support;

class WrongRows : public ::testing::TestWithParam<BadFile> {};

TEST_P(WrongRows, AreToldWithLineAndPointerAllAtOnce) { EXPECT_EQ(refusals_of(GetParam()), GetParam().reasons); }

const std::vector<BadFile> bad_files = {
    {"AdviceOnNothing",
     {{R"({"rule": "winding", "says": ["high", "low"]})", R"({"rule": "windings", "says": ["high", "low"]})"}},
     {R"(line 53, /advice/0/when/rule: there is no rule "windings"; did you mean "winding"?)"}},
    {"AdviceOnNoText",
     {{R"("says": ["high", "low"])", R"("says": ["high", "over"])"}},
     {R"(line 53, /advice/0/when/says/1: there is no text of this rule "over"; there is "within", "high", "low", "undecided", "within-connection-unstated", "connection-unstated", "readings-disagree", "over-range", "range-too-low", "range-unknown", "in-circuit", "not-read", "no-condition", "out-of-reach", "no-figure", "wet" or "live")"}},
    {"AdviceWithoutWhen",
     {{R"(, "when": {"rule": "winding", "says": ["high", "low"]})", ""}},
     {R"(line 53, /advice/0: the field "when" is missing: the rule, and which of its texts it said)"}},
    {"AdviceOfOursWithWhen",
     {{R"("text": "Take a lead off.")", R"("text": "Take a lead off.", "when": {"rule": "winding", "says": ["low"]})"}},
     {R"(line 54, /advice/1/when: the advice "lift-a-lead" is given by itself; only its text can be written anew)"}},
    {"AdviceWithAField",
     {{R"("Buy one.")", R"("Buy {measured}.")"}},
     {R"(line 53, /advice/0/text: the sentence has a field "{measured}" that cannot be filled; it takes none)"}},
    {"UnknownCaution",
     {{R"(["live-measurement"])", R"(["live-measurment"])"}},
     {R"(line 59, /procedures/2/cautions/0: there is no caution "live-measurment"; did you mean "live-measurement"?)"}},
    {"OhmsWithoutTheirCautions",
     {{R"("cautions": ["disconnect-power", "prove-dead", "own"])", R"("cautions": ["own"])"}},
     {R"(line 57, /procedures/0/cautions: the caution "disconnect-power" is missing: a resistance is read on a part without supply)",
      R"(line 57, /procedures/0/cautions: the caution "prove-dead" is missing: a resistance is read on a part without supply)"}},
    {"MeasurandWithoutProcedure",
     {{R"(,
    {"id": "amps", "title": "Current", "measurand": "current", "minutes": 1, "steps": ["Read."], "cautions": ["live-measurement"]})",
       ""}},
     {R"(line 56, /procedures: no procedure says how "current" is read, so nobody would see a caution before it)"}},
    {"StepWithAField",
     {{R"("Unplug.")", R"("Unplug {it}.")"}},
     {"line 57, /procedures/0/steps/0: a step takes no field, and no braces"}},
    {"ProcedureOfNothing",
     {{R"("measurand": "current", "minutes")", R"("measurand": "curent", "minutes")"}},
     {R"(line 56, /procedures: no procedure says how "current" is read, so nobody would see a caution before it)",
      R"(line 59, /procedures/2/measurand: there is no measurand "curent"; did you mean "current"?)"}},
    {"CautionOfTheFramework",
     {{R"("id": "own", "brief")", R"("id": "prove-dead", "brief")"}},
     {R"(line 57, /procedures/0/cautions/2: there is no caution "own"; there is "disconnect-power", "prove-dead", "meter-category", "live-measurement", "low-voltage-side-live", "capacitor-charge", "sharp-fins", "hot-surface", "no-heat-gun", "water-and-mains", "flammable-refrigerant", "insulation-test", "moving-parts", "do-not-bridge" or "prove-dead")",
      R"(line 62, /cautions/0/id: the caution "prove-dead" is the framework's own and cannot be replaced)"}},
    {"BriefWithAFullStop",
     {{R"("Own hazard")", R"("Own hazard.")"}},
     {"line 62, /cautions/0/brief: a brief text does not end in a full stop"}},
    {"IfRatedOfNothing",
     {{R"({"id": "bypassed",)", R"({"id": "bypassed", "if_rated": "opened",)"}},
     {R"(line 70, /fault_modes/2/if_rated: there is no figure of the ratings "opened"; did you mean "opens"?)"}},
    {"UnknownTerminal",
     {{R"("between": ["a", "b"], "nominal_of": "winding"}
)",
       R"("between": ["a", "c"], "nominal_of": "winding"}
)"}},
     {R"(line 65, /elements/0/between/1: there is no terminal "c"; there is "a" or "b")"}},
    {"ElementOfNothing",
     {{R"("between": ["a", "b"], "nominal_of": "winding"}
)",
       R"("between": ["a", "b"]}
)"}},
     {R"(line 65, /elements/0: an element has either "value" or "nominal_of", the rule whose nominal value it has)"}},
    {"ElementOfARuleWithoutNominal",
     {{R"("between": ["a", "b"], "nominal_of": "winding"}
)",
       R"("between": ["a", "b"], "nominal_of": "switch"}
)"}},
     {"line 65, /elements/0/nominal_of: that rule has no nominal resistance"}},
    {"ContactOfLimits",
     {{R"("contact_of": "switch")", R"("contact_of": "winding")"}},
     {"line 70, /fault_modes/2/elements/0/contact_of: that rule is on no contact"}},
    {"ContactOfNothing",
     {{R"(, "contact_of": "switch")", ""}},
     {R"(line 70, /fault_modes/2/elements/0: the field "contact_of" is missing: the rule that it follows)"}},
    {"OpenWithAValue",
     {{R"({"type": "open", "between": ["a", "b"]})", R"({"type": "open", "between": ["a", "b"], "value": "1 ohm"})"}},
     {R"(line 68, /fault_modes/0/elements/0/value: an element of type "open" has no "value")"}},
    {"ElementsTolerance",
     {{R"("tolerance": "20 %")", R"("tolerance": "120 %")"}},
     {R"(line 69, /fault_modes/1/elements/0/tolerance: a tolerance lies between 0 % and 100 %, such as "5 %")"}},
    {"ProtectorThatIsOpenBeforeItIsClosed",
     {{R"("fault_modes": [)",
       R"("own_protectors": [{"between": ["a", "c"], "condition": "heat", "closed_to": "150 degC", "open_from": "120 degC", "source": "invented"}], "fault_modes": [)"}},
     {R"(line 67, /own_protectors/0/between/1: there is no terminal "c"; there is "a" or "b")",
      R"(line 67, /own_protectors/0/condition: there is no condition "heat"; there is "part_temperature" or "line_voltage")",
      R"(line 67, /own_protectors/0: "closed_to" has to lie below "open_from")"}},
    {"ChartOfNothing",
     {{R"("charts": [
    {"measurand": "resistance")",
       R"("charts": [
    {"measurand": "ohms")"}},
     {R"(line 73, /charts/0/measurand: there is no measurand "ohms"; there is "resistance", "contact" or "current")"}},
    {"ChartThatEndsBeforeItBegins",
     {{R"("from": "0 degC")", R"("from": "60 degC")"}},
     {"line 73, /charts/0: the chart does not end above its beginning"}},
    {"ChartAlongAnotherDimension",
     {{R"("from": "0 degC")", R"("from": "0 V")"}},
     {R"(line 73, /charts/0/from: expected a temperature, such as "23 degC", got "0 V")"}},
};

INSTANTIATE_TEST_SUITE_P(BadFiles, WrongRows, ::testing::ValuesIn(bad_files),
                         [](const auto& bad) { return bad.param.name; });

}  // namespace
}  // namespace ohmwright::kind_file
