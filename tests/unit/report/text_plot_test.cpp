#include <gmock/gmock.h>

#include <ohmwright/report/text_plot.hpp>

namespace ohmwright {
namespace {

using ::testing::ElementsAre;

TEST(TextPlot, DrawsTheBandTheCurveAndTheMarkInThisOrder) {
  TextPlot plot;
  plot.width = 5;
  plot.height = 5;
  plot.lowest = 0.0;
  plot.highest = 4.0;
  plot.curves = {{{0.0, {}, {}}, {1.0, {}, {}}, {2.0, 1.0, 3.0}, {3.0, {}, {}}, {{}, {}, {}}}};
  plot.marks = {{1.0, 3.0, 1.0}};
  EXPECT_THAT(text_plot_lines(plot), ElementsAre("    |",  //
                                                 "  :*X",  //
                                                 "  * |",  //
                                                 " *:  ",  //
                                                 "*    "));
}

TEST(TextPlot, GivesEachCurveItsSign) {
  TextPlot plot;
  plot.width = 2;
  plot.height = 3;
  plot.lowest = 0.0;
  plot.highest = 2.0;
  plot.curves = {{{0.0, {}, {}}, {0.0, {}, {}}}, {{1.0, {}, {}}, {0.0, {}, {}}}, {{2.0, {}, {}}, {2.0, {}, {}}}};
  EXPECT_THAT(text_plot_lines(plot), ElementsAre("++", "o ", "*o"));
  EXPECT_EQ(curve_sign(4), curve_sign(0));
}

TEST(TextPlot, LeavesOutWhatLiesOutside) {
  TextPlot plot;
  plot.width = 2;
  plot.height = 3;
  plot.lowest = 1.0;
  plot.highest = 2.0;
  plot.curves = {{{9.0, 8.0, 9.5}, {1.0, {}, {}}}};
  plot.marks = {{1.5, 1.5, 0.1}, {0.0, -4.0, 0.1}};
  EXPECT_THAT(text_plot_lines(plot), ElementsAre("  ", "  ", " *"));
}

TEST(TextPlot, OnALogarithmicAxisDecadesAreEven) {
  TextPlot plot;
  plot.width = 3;
  plot.height = 3;
  plot.lowest = 1.0;
  plot.highest = 100.0;
  plot.logarithmic = true;
  plot.curves = {{{1.0, {}, {}}, {10.0, {}, {}}, {100.0, {}, {}}}};
  EXPECT_THAT(text_plot_lines(plot), ElementsAre("  *", " * ", "*  "));
}

}  // namespace
}  // namespace ohmwright
