#include <filesystem>

#include <gmock/gmock.h>

#include <ohmwright/report/chart_picture.hpp>

#include "charted_part.hpp"

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;
using testing::straight_chart;

const Sentences& say() {
  static const Sentences sentences{UnitPreferences{}};
  return sentences;
}

/// What would write a file if any of it were carried out.
const std::filesystem::path trap = std::filesystem::temp_directory_path() / "ohmwright-picture-trap";
const std::string hostile =
    "a'\nsystem 'touch " + trap.string() + "'\n`touch " + trap.string() + "`<script>|{/Symbol a}\x1b";

TEST(PictureScript, KeepsEveryTextInsideItsQuotes) {
  Chart chart = straight_chart();
  chart.part_title = hostile;
  const std::string script = picture_script(chart, say());
  EXPECT_THAT(script, HasSubstr("set title 'a''system ''touch "));
  EXPECT_THAT(script, Not(HasSubstr("\nsystem")));
  EXPECT_THAT(script, Not(HasSubstr("\x1b")));
}

TEST(PictureScript, DrawsLimitsPastTheSpanFainterThanThoseWithinIt) {
  const std::string script = picture_script(straight_chart(), say());
  EXPECT_THAT(script, HasSubstr("16.85 290 261 319 NaN NaN\n"));
  EXPECT_THAT(script, HasSubstr("26.85 300 NaN NaN 270 330\n"));
  EXPECT_THAT(script, HasSubstr("using 1:5:6 with filledcurves fillcolor rgb '#eef2f6'"));
}

TEST(ChartPicture, IsDrawnAndCarriesNothingOut) {
  std::filesystem::remove(trap);
  Chart chart = straight_chart(101);
  chart.part_title = hostile;
  chart.marks = {{"reading 1", 280.0, 1.0, 290.0, 4.0}};
  const std::optional<std::string> svg = chart_picture(chart, say());
  if (!svg) GTEST_SKIP() << "gnuplot is not installed";
  EXPECT_THAT(*svg, HasSubstr("<svg"));
  EXPECT_THAT(*svg, HasSubstr("Resistance [Ω]"));
  EXPECT_THAT(*svg, Not(HasSubstr("<script>")));
  EXPECT_FALSE(std::filesystem::exists(trap));
}

TEST(ChartPicture, OfContactsIsDrawnToo) {
  const std::optional<std::string> svg = chart_picture(testing::switching_chart(101), say());
  if (!svg) GTEST_SKIP() << "gnuplot is not installed";
  EXPECT_THAT(*svg, HasSubstr("warming"));
}

}  // namespace
}  // namespace ohmwright
