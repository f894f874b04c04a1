#include <limits>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/descriptor_check.hpp>

#include "../../plugins/support/fixture_kind.hpp"

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

/// What is wrong with a complete descriptor after `change`.
template <class Change>
std::vector<std::string> problems_after(Change change) {
  Descriptor descriptor = fixture::complete_descriptor("fan-motor", {"fan"});
  change(descriptor);
  return descriptor_problems(descriptor, {"fan-motor", {"fan"}});
}

TEST(DescriptorCheck, ACompleteDescriptorHasNoProblem) {
  EXPECT_THAT(problems_after([](Descriptor&) {}), IsEmpty());
}

TEST(DescriptorCheck, NamesMustBeThoseOfTheStamp) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.aliases = {"motor"}; }),
              ElementsAre("the alias \"motor\" is in its descriptor but not in its stamp",
                          "the alias \"fan\" is in its stamp but not in its descriptor"));
}

TEST(DescriptorCheck, AnEmptyDescriptorLacksEverything) {
  EXPECT_THAT(descriptor_problems(Descriptor{}, {"fan-motor", {}}),
              ElementsAre("its descriptor is of \"\", its stamp of \"fan-motor\"", "kind \"fan-motor\" has no title",
                          "kind \"fan-motor\" has no ratings schema",
                          "kind \"fan-motor\" has no text domain named with a-z, 0-9, - and _: \"\"",
                          "it has no measurand", "it has no rule"));
}

TEST(DescriptorCheck, NoKindIsForGasPartsOrAMicrowavesHighVoltage) {
  for (const char* title : {"Gas valve coil", "Microwave oven magnetron", "Microwave high-voltage capacitor"}) {
    const auto problems = problems_after([title](Descriptor& descriptor) { descriptor.title = title; });
    ASSERT_EQ(problems.size(), 1U) << title;
    EXPECT_THAT(problems.front(), testing::HasSubstr(title));
  }
}

TEST(DescriptorCheck, ASourceOfBlanksIsNone) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.rules[0].source = " "; }),
              ElementsAre("rule \"reads-something\" has no source"));
}

TEST(DescriptorCheck, NorDoesAnyTextOfItSpeakOfThat) {
  const auto first = [](auto change) {
    const auto problems = problems_after(change);
    return problems.empty() ? std::string("nothing") : problems.front();
  };
  const testing::Matcher<std::string> of_gas = testing::HasSubstr("gas is outside of what this program does");
  const testing::Matcher<std::string> of_high_voltage = testing::HasSubstr("the high-voltage side of a microwave oven");
  EXPECT_THAT(first([](Descriptor& one) { one.measurands[0].title = "Filament of the magnetron"; }), of_high_voltage);
  EXPECT_THAT(first([](Descriptor& one) { one.procedures[0].title = "Read the coil of the gas valve"; }), of_gas);
  EXPECT_THAT(first([](Descriptor& one) { one.procedures[0].steps[0].english = "Open the gas valve, light it."; }),
              testing::AllOf(of_gas, testing::HasSubstr("where it only warns, say it in a caution")));
  EXPECT_THAT(first([](Descriptor& one) { one.rules[0].title = "Magnetron ohms"; }), of_high_voltage);
  EXPECT_THAT(first([](Descriptor& one) { one.rules[0].texts[0].english = "The gas valve is open."; }), of_gas);
  EXPECT_THAT(first([](Descriptor& one) { one.ratings_schema = R"({"description":"ohms of the gas valve"})"; }),
              of_gas);
  EXPECT_EQ(first([](Descriptor& one) { one.procedures[0].steps[0].english = "Prove the gas dryer's fan dead."; }),
            "nothing");
}

TEST(DescriptorCheck, IdsAreUniqueInTheirListAndWellFormed) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.measurands.push_back(descriptor.measurands[0]); }),
              ElementsAre("measurand \"resistance\" stands twice"));
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.roles = {"Heats coil"}; }),
              ElementsAre("role \"Heats coil\" must be named with a-z, 0-9, - and _"));
  EXPECT_THAT(
      problems_after([](Descriptor& descriptor) { descriptor.rules[0].texts.push_back(descriptor.rules[0].texts[0]); }),
      ElementsAre("text of rule \"reads-something\" \"reads\" stands twice"));
}

TEST(DescriptorCheck, WhatCondemnsForGoodDeclaresThatItCondemns) {
  const auto problems = problems_after([](Descriptor& descriptor) {
    descriptor.rules[0].outcomes = can_pass;
    descriptor.rules[0].condemns_for_good = true;
  });
  EXPECT_THAT(problems,
              ElementsAre("rule \"reads-something\" condemns for good, and declares that it condemns nothing"));
}

TEST(DescriptorCheck, ReferencesMustResolve) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) { descriptor.procedures[0].cautions = {"sharp-wit"}; }),
              ElementsAre("procedure \"read-it\" names the caution \"sharp-wit\", which is not there"));
  EXPECT_THAT(problems_after([](Descriptor& descriptor) {
                descriptor.charts = {ChartAxis{"resistance", "weather"}};
              }),
              ElementsAre("a chart names the condition \"weather\", which is not there"));
}

TEST(DescriptorCheck, AnErrorSourceHasATitleAndStandsOnce) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) {
                descriptor.error_sources = {{"gap", "the gap"}, {"gap", ""}};
              }),
              ElementsAre("error source \"gap\" stands twice", "error source \"gap\" has no title"));
}

TEST(DescriptorCheck, ACautionOfItsOwnWillDo) {
  EXPECT_THAT(problems_after([](Descriptor& descriptor) {
                descriptor.cautions = {{"sharp-blades", "brief", "The blades are sharp", "common practice, no source"}};
                descriptor.procedures[0].cautions = {"sharp-blades"};
              }),
              IsEmpty());
}

TEST(DescriptorCheck, WeightsAndProbabilitiesMustBePossible) {
  FaultModeDescriptor mode{"open", "Open", 1.0, "common practice, no source", {{"warm-cabinet", 0.5}}, {}};
  EXPECT_THAT(problems_after([&](Descriptor& descriptor) { descriptor.fault_modes = {mode}; }), IsEmpty());
  mode.prior_weight = -1.0;
  mode.symptoms[0].probability = std::numeric_limits<double>::quiet_NaN();
  EXPECT_THAT(problems_after([&](Descriptor& descriptor) { descriptor.fault_modes = {mode}; }),
              ElementsAre("fault mode \"open\" has no possible weight",
                          "fault mode \"open\" has no possible symptom \"warm-cabinet\""));
}

TEST(DescriptorCheck, ARuleDeclaresWhatItCanSayAndItsSource) {
  EXPECT_THAT(
      problems_after([](Descriptor& descriptor) {
        descriptor.rules[0].outcomes = 0;
        descriptor.rules[0].source = "";
      }),
      ElementsAre("rule \"reads-something\" has no source", "rule \"reads-something\" declares no possible outcome"));
}

ConditionDescriptor condition(std::string_view id, std::string_view option) {
  return {id, "Temperature of the part", option, Dimension::temperature, "", 1.0, "made up for this test"};
}

TEST(DescriptorCheck, AnOptionMeansOneThing) {
  EXPECT_THAT(problems_after([](Descriptor& d) { d.conditions = {condition("part_temperature", "at")}; }), IsEmpty());
  for (const char* taken :
       {"lead-off", "in-circuit", "wet", "dry", "unplugged", "proved-dead", "live", "range", "ratings", "meter",
        "readings", "series", "format", "out", "help", "confidence", "every-rule", "language", "plugins"}) {
    EXPECT_THAT(problems_after([&](Descriptor& d) { d.conditions = {condition("part_temperature", taken)}; }),
                ElementsAre("condition \"part_temperature\" takes the option \"--" + std::string(taken) +
                            "\", which is the program's own"));
  }
  EXPECT_THAT(problems_after([](Descriptor& d) { d.conditions = {condition("range", "span")}; }),
              ElementsAre("condition \"range\" takes the option \"--range\", which is the program's own"))
      << "a condition can be typed by its id, too";
  EXPECT_THAT(problems_after([](Descriptor& d) { d.conditions = {condition("part_temperature", "resistance")}; }),
              ElementsAre("condition \"part_temperature\" takes the option \"--resistance\", which is the name of a "
                          "measurand"));
  EXPECT_THAT(problems_after([](Descriptor& d) {
                d.conditions = {condition("a", "b"), condition("b", "c")};
              }),
              ElementsAre("condition \"a\" takes the option \"--b\", which is the name of another condition"));
}

TEST(DescriptorCheck, AReadingCarriesSoManyConditions) {
  static const std::vector<std::string> ids{"c1", "c2", "c3", "c4", "c5", "c6", "c7"};
  const auto with = [](std::size_t count) {
    return problems_after([&](Descriptor& d) {
      for (std::size_t i = 0; i < count; ++i) d.conditions.push_back(condition(ids[i], ids[i]));
    });
  };
  EXPECT_THAT(with(6), IsEmpty());
  EXPECT_THAT(with(7), ElementsAre("it has 7 conditions; a reading carries at most 6"));
}

TEST(DescriptorCheck, AUnitIsOneOfItsDimension) {
  EXPECT_THAT(problems_after([](Descriptor& d) { d.measurands[0].default_unit = "degC"; }),
              ElementsAre("measurand \"resistance\" is a resistance, which has no unit \"degC\""));
  EXPECT_THAT(problems_after([](Descriptor& d) {
                d.conditions = {condition("part_temperature", "at")};
                d.conditions[0].default_unit = "V";
              }),
              ElementsAre("condition \"part_temperature\" is a temperature, which has no unit \"V\""));
}

TEST(DescriptorCheck, AnAxisCanBeDrawn) {
  const auto with = [](const ChartAxis& axis) {
    return problems_after([&](Descriptor& d) {
      d.conditions = {condition("part_temperature", "at")};
      d.charts = {axis};
    });
  };
  const AnyQuantity cold(Dimension::temperature, 233.15);
  const AnyQuantity warm(Dimension::temperature, 333.15);
  EXPECT_THAT(with({"resistance", "part_temperature", cold, warm}), IsEmpty());
  EXPECT_THAT(with({"resistance", "part_temperature", warm, cold}),
              ElementsAre("a chart along \"part_temperature\" does not end above its beginning"));
  EXPECT_THAT(with({"resistance", "part_temperature", cold, cold}),
              ElementsAre("a chart along \"part_temperature\" does not end above its beginning"));
  EXPECT_THAT(with({"resistance", "part_temperature", cold,
                    AnyQuantity(Dimension::temperature, std::numeric_limits<double>::quiet_NaN())}),
              ElementsAre("a chart along \"part_temperature\" does not end above its beginning"));
  EXPECT_THAT(with({"resistance", "part_temperature", cold, AnyQuantity(Dimension::resistance, 400.0)}),
              ElementsAre("a chart along \"part_temperature\" runs from a temperature to a resistance; its condition "
                          "is a temperature"));
  EXPECT_THAT(with({"resistance", "part_temperature", cold, warm, false, "history"}),
              ElementsAre("a chart names the state \"history\", which is not there"));
}

TEST(DescriptorCheck, AKindThatCouldNeverPassAPartIsNone) {
  EXPECT_THAT(problems_after([](Descriptor& d) { d.rules[0].essential = false; }),
              ElementsAre("none of its rules is essential, so no part could ever pass"));
}

TEST(DescriptorCheck, ACautionFitsAboveAVerdict) {
  const auto with = [](std::string_view brief) {
    return problems_after([&](Descriptor& d) {
      d.cautions = {{"sharp-blades", brief, "The blades are sharp.", "common practice, no source"}};
    });
  };
  static const std::string longest(90, 'x');
  static const std::string too_long(91, 'x');
  EXPECT_THAT(with(longest), IsEmpty());
  EXPECT_THAT(with(too_long), ElementsAre("caution \"sharp-blades\" has a brief text of 91 bytes; at most 90 can "
                                          "stand above a verdict"));
  EXPECT_THAT(with("The blades are sharp."),
              ElementsAre("caution \"sharp-blades\" has a brief text that ends in a full stop"));
}

TEST(DescriptorCheck, TheFieldsOfASentenceCanBeFilled) {
  const auto with = [](std::string_view text) {
    return problems_after([&](Descriptor& d) { d.rules[0].texts[0].english = text; });
  };
  for (const char* good : {"{measured}", "{a}{b_2}", "{{not a field}} but {one}", "no field"})
    EXPECT_THAT(with(good), IsEmpty()) << good;
  for (const std::string bad : {"{measured", "measured}", "{}", "{0}", "{a b}", "{a:.3}", "{{a}", "{{{a}}}}"})
    EXPECT_THAT(with(bad), ElementsAre("text of rule \"reads-something\" \"reads\" has braces that are no field; "
                                       "write {name}, or {{ and }} for braces: \"" +
                                       bad + "\""));
}

TEST(DescriptorCheck, TextsCanBeShown) {
  EXPECT_THAT(problems_after([](Descriptor& d) { d.title = "Fan\x1b[2J"; }),
              ElementsAre("kind \"fan-motor\" has a title that cannot be shown: \"Fan\\x1b[2J\""));
  EXPECT_THAT(problems_after([](Descriptor& d) { d.rules[0].texts[0].english = "two\nlines"; }),
              ElementsAre("text of rule \"reads-something\" \"reads\" has a text that cannot be shown: "
                          "\"two\\nlines\""));
  EXPECT_THAT(problems_after([](Descriptor& d) { d.title = "A \"quoted\" \\ \u2126 title"; }), IsEmpty());
  EXPECT_THAT(problems_after([](Descriptor& d) { d.text_domain = "../elsewhere"; }),
              ElementsAre("kind \"fan-motor\" has no text domain named with a-z, 0-9, - and _: \"../elsewhere\""));
}

TEST(DescriptorCheck, AMeasurandIsReadBetweenTerminalsThatAreThere) {
  const auto between = [](std::uint16_t from, std::uint16_t to) {
    return problems_after([=](Descriptor& d) {
      d.terminals = {"a", "b"};
      d.measurands[0].from = from;
      d.measurands[0].to = to;
    });
  };
  EXPECT_THAT(between(0, 1), IsEmpty());
  const std::string id(fixture::complete_descriptor("fan-motor", {"fan"}).measurands[0].id);
  const std::string refusal = "measurand \"" + id + "\" is read between terminals that it does not have";
  EXPECT_THAT(between(0, 2), ElementsAre(refusal));
  EXPECT_THAT(between(0, 0), ElementsAre(refusal));
  EXPECT_THAT(between(0, not_found), ElementsAre(refusal));
}

TEST(DescriptorCheck, TheOptionOfAStateIsItsOwn) {
  const auto with = [](std::string_view option) {
    return problems_after([=](Descriptor& d) {
      d.states = {{"position", "position of its cam", {{"run", "in run"}, {"defrost", "in defrost"}}, option}};
    });
  };
  EXPECT_THAT(with("position"), IsEmpty());
  EXPECT_THAT(with(""), IsEmpty());
  EXPECT_THAT(with("live"), ElementsAre("state \"position\" takes the option \"--live\", which is the program's own"));
}

TEST(DescriptorCheck, AnAdviceNamesAProcedureThatIsThere) {
  EXPECT_THAT(problems_after([](Descriptor& d) {
                d.advice = {{"again", "Read it again."}};
                d.advice[0].procedure = "dance";
              }),
              ElementsAre("advice \"again\" names the procedure \"dance\", which is not there"));
}

}  // namespace
}  // namespace ohmwright
