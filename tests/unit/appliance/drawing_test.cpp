// The drawing of an appliance: what stands in the script, and that no text of a file is anything but text.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/report/appliance_drawing.hpp>

#include "files.hpp"

namespace ohmwright::testing {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

const Sentences say{UnitPreferences{}};

TEST(ApplianceDrawing, ShowsPartsNodesAndTestPoints) {
  const std::string script = drawing_script(appliance_of(fan_heater()), {}, say);
  EXPECT_THAT(script, HasSubstr("p2 [shape=box label=\"Heater\\nheater-2kw-230v\"]\n"));
  // From live to neutral: the limit comes after L, the heater before N.
  EXPECT_THAT(script, HasSubstr("n0 -- p0 [label=\"contact-1\\n▸ 3\" fontcolor=\"#2f5d8a\"]\n"));
  EXPECT_THAT(script, HasSubstr("p0 -- n3 [label=\"contact-2\\n▸ 3\" fontcolor=\"#2f5d8a\"]\n"));
  EXPECT_THAT(script, HasSubstr("p2 -- n1 [label=\"lead-2\"]\n"));
  EXPECT_THAT(script, HasSubstr("label=\"N\\n▸ 1, 2\""));
  EXPECT_THAT(script, HasSubstr("Test points\\l1 Ω At the plug\\l2 Ω Plug to earth\\l"));
  EXPECT_THAT(script, HasSubstr("4 A Clamp at the heater\\l"));
}

TEST(ApplianceDrawing, TakesTextsAsTextsOnly) {
  const std::string title = R"(a\" ]; x [label=\"& <b> | ` \\N)";
  const std::string script =
      drawing_script(appliance_of(fan_heater_with(R"("title": "Limit")", "\"title\": \"" + title + "\"")), {}, say);
  EXPECT_THAT(script, HasSubstr(R"(a\" ]; x [label=\"&amp;)"));
  EXPECT_THAT(script, HasSubstr(R"(\\N)"));
  EXPECT_THAT(script, Not(HasSubstr("<<")));
}

TEST(ApplianceDrawing, DropsControlCharacters) {
  Appliance appliance = appliance_of(fan_heater());
  appliance.parts[0].title =
      "a\x01"
      "b\x7f\ncd";
  EXPECT_THAT(drawing_script(appliance, {}, say), HasSubstr("label=\"ab"));
}

TEST(ApplianceDrawing, MarksPartsByColourAndWord) {
  const Appliance appliance = appliance_of(fan_heater());
  const std::vector<double> probabilities{0.31, 0.0, 0.97, 0.004};
  const std::string script = drawing_script(appliance, marks_of(probabilities, say), say);
  EXPECT_THAT(script, HasSubstr("AT FAULT, 97.0 %\" style=\"filled\" penwidth=2 fillcolor=\"#f0a8a0\""));
  EXPECT_THAT(script, HasSubstr("possible, 31 %\" style=\"filled\" penwidth=2 fillcolor=\"#f6e3b4\""));
  EXPECT_THAT(script, HasSubstr("unlikely, 0.4 %\""));
}

TEST(ApplianceDrawing, BecomesAPictureWhereGraphvizIs) {
  const std::optional<std::string> svg = appliance_drawing(
      appliance_of(fan_heater_with(R"("title": "Limit")", R"("title": "a \" & <script> 'b")")), {}, say);
  if (!svg) GTEST_SKIP() << "dot of Graphviz is not installed";
  EXPECT_THAT(*svg, HasSubstr("</svg>"));
  EXPECT_THAT(*svg, HasSubstr("a &quot; &amp; &lt;script&gt;"));
  EXPECT_THAT(*svg, Not(HasSubstr("<script>")));
}

}  // namespace
}  // namespace ohmwright::testing
