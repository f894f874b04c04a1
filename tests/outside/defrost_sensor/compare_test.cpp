#include <array>
#include <cmath>

#include <gtest/gtest.h>

#include "compare/difference.hpp"
#include "compare_fixture.hpp"
#include "real_charts.hpp"

// One sensor in place of another, against figures computed elsewhere.

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

double kelvin_off(const SensorRatings& original, const SensorRatings& candidate, double t) {
  return difference_at({original, candidate}, celsius(t)).kelvin->value();
}

// A control made for 10 kohm, 3977 K with 10 kohm, 3435 K fitted: what it takes the true temperature for, less that
// (beta equation; numpy and GSL at -18 °C and 10 °C, numpy else).
TEST(CompareOutside, AnotherBetaInTheControl) {
  const SensorRatings original = vouched_beta(3977);
  const SensorRatings candidate = vouched_beta(3435);
  const std::pair<double, double> rows[] = {{-30, 6.270523}, {-25, 5.804089}, {-20, 5.316498}, {-18, 5.115570},
                                            {-10, 4.278431}, {-5, 3.728246},  {0, 3.157487},   {5, 2.566295},
                                            {10, 1.954811},  {15, 1.323175},  {20, 0.671525},  {25, 0.0},
                                            {30, -0.691266}};
  for (const auto& [t, off] : rows) EXPECT_NEAR(kelvin_off(original, candidate, t), off, 1e-6) << t;
}

// 5 kohm, 3950 K fitted in that control, and the reverse: what it believes.
TEST(CompareOutside, AnotherValueInTheControl) {
  const SensorRatings ten = vouched_beta(3977);
  const SensorRatings five = vouched_beta(3950, 5000);
  const std::array<std::array<double, 3>, 8> rows{{{-30, -18.907199, -40.231855},
                                                   {-20, -8.030956, -31.006515},
                                                   {-18, -5.851564, -29.164677},
                                                   {-10, 2.879859, -21.808059},
                                                   {0, 13.825411, -12.636370},
                                                   {10, 24.805867, -3.491330},
                                                   {20, 35.821393, 5.627174},
                                                   {30, 46.872158, 14.719260}}};
  for (const auto& [t, five_fitted, ten_fitted] : rows) {
    EXPECT_NEAR(t + kelvin_off(ten, five, t), five_fitted, 1e-6) << t;
    EXPECT_NEAR(t + kelvin_off(five, ten, t), ten_fitted, 1e-6) << t;
  }
}

// A defrost set to end at 10 °C ends at 7.769965 °C with 3435 K, at -3.491330 °C with 5 kohm, 3950 K (numpy, GSL); with
// the part 10 % high at 11.934523 °C, 10 % low at 7.891810 °C (numpy).
TEST(CompareOutside, EndOfTheDefrost) {
  const SensorRatings original = in_a_control(vouched_beta(3977), 10);
  const std::pair<SensorRatings, double> rows[] = {{vouched_beta(3435), 7.769965},
                                                   {vouched_beta(3950, 5000), -3.491330},
                                                   {vouched_beta(3977, 11000), 11.934523},
                                                   {vouched_beta(3977, 9000), 7.891810}};
  for (const auto& [candidate, ends_at] : rows) {
    const EquivalenceFinding end = compare(original, candidate).back();
    EXPECT_EQ(end.text.id, ends_at < 10 ? "ends-early" : "ends-late");
    EXPECT_NEAR(told(end, "ends_at"), celsius(ends_at).kelvin(), 1e-6);
    EXPECT_NEAR(told(end, "off"), std::abs(ends_at - 10), 1e-6);
  }
}

// A perfect part against the two-point beta of its own data sheet: 9.3 % low at -18 °C, 10.02 % at -20 °C, 12.0 % at
// -25 °C (published four-coefficient set, nine public programs); 0.76 K off at 0 °C, 1.60 K at -18 °C, 2.31 K at -30
// °C. Nobody may call that part wrong, or right.
TEST(CompareOutside, PerfectPartAgainstItsTwoPointBeta) {
  const SensorRatings sheet = two_point_beta_of(3977);
  const SensorRatings perfect = full_curve_3977();
  const auto percent = [&](double t) { return 100 * std::expm1(difference_at({sheet, perfect}, celsius(t)).log); };
  EXPECT_NEAR(percent(-18), -9.3, 0.05);
  EXPECT_NEAR(percent(-20), -10.02, 0.005);
  EXPECT_NEAR(percent(-25), -12.0, 0.05);
  EXPECT_NEAR(kelvin_off(sheet, perfect, 0), 0.76, 0.01);
  EXPECT_NEAR(kelvin_off(sheet, perfect, -18), 1.60, 0.01);
  EXPECT_NEAR(kelvin_off(sheet, perfect, -30), 2.31, 0.01);
  const auto findings = compare(sheet, perfect, -20, 30);
  EXPECT_EQ(findings[0].outcome, Outcome::undecided);
  EXPECT_NEAR(told(findings[0], "percent"), 10.02, 0.005);
  EXPECT_NEAR(told(findings[0], "where"), celsius(-20).kelvin(), 1e-9);
}

SensorRatings chart_of(const RealChart& chart) {
  std::vector<CurvePoint> rows;
  for (std::size_t i = 0; i < chart.ohms.size(); ++i)
    rows.push_back({celsius(real_chart_celsius[i]), ohm(chart.ohms[i])});
  return ratings_with(std::make_shared<ChartCurve>(rows));
}

// Two published charts of one label: 10 kohm at 25 °C, B25/85 = 3432 and 3435 K. At -30 °C the one reads 135 128 ohm,
// the other 112 060 ohm.
TEST(CompareOutside, TwoMaterialsOfOneLabelPartInTheCold) {
  const RealChart& straight = real_charts[3];
  const RealChart& bent = real_charts[4];
  ASSERT_NEAR(straight.b25_85, bent.b25_85, 4);
  const auto findings = compare(chart_of(straight), chart_of(bent));
  EXPECT_EQ(findings[0].text.id, "reads-low-though-alike-at-room-ends-early");
  EXPECT_NEAR(told(findings[0], "where"), celsius(-30).kelvin(), 1e-9);
  EXPECT_NEAR(told(findings[0], "percent"), 100 * (1 - 112060.0 / 135128.0), 0.005);
  EXPECT_EQ(findings[1].text.id, "alike-at-room-only");
  // Their labels alone decide nothing.
  EXPECT_EQ(compare(two_point_beta_of(straight.b25_85), two_point_beta_of(bent.b25_85))[0].outcome, Outcome::undecided);
}

// Each real material against a two-point beta of its own: never condemned, never passed in the cold.
TEST(CompareOutside, RealMaterialsAreNotCondemnedByTheirOwnLabel) {
  for (const RealChart& chart : real_charts) {
    const auto findings = compare(two_point_beta_of(chart.b25_85, chart.ohms[7]), chart_of(chart));
    EXPECT_EQ(findings[0].outcome, Outcome::undecided) << chart.name;
  }
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
