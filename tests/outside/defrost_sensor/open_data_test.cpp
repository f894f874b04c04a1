#include <algorithm>
#include <array>
#include <cstdlib>
#include <fstream>
#include <sstream>
#include <string>
#include <utility>

#include <gtest/gtest.h>

#include "curves/beta_curve.hpp"
#include "part/control.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

BetaCurve ten_kilohm(double beta_kelvin) {
  BetaCurve::Figures figures = beta_3977();
  figures.beta_kelvin = beta_kelvin;
  return BetaCurve(figures);
}

// A computed table of an open device-tree source (Apache-2.0): R25 = 10 kohm, B = 3974 K, rounded to whole ohms.
TEST(OpenTable, OfATenKilohmThermistorComesOut) {
  constexpr std::array<std::pair<double, double>, 16> rows{{{-25, 146676},
                                                            {-15, 78875},
                                                            {-5, 44424},
                                                            {5, 26075},
                                                            {15, 15881},
                                                            {25, 10000},
                                                            {35, 6488},
                                                            {45, 4326},
                                                            {55, 2956},
                                                            {65, 2066},
                                                            {75, 1474},
                                                            {85, 1072},
                                                            {95, 793},
                                                            {105, 596},
                                                            {115, 454},
                                                            {125, 351}}};
  const BetaCurve curve = ten_kilohm(3974);
  for (const auto& [t, r] : rows) EXPECT_NEAR(curve.resistance(celsius(t)).value(), r, 1.0) << t;  // rounded or cut
}

// A measured divider, 6700 s at 1 Hz: 10 kohm over a thermistor of R25 10 kohm, B 3988 K (J. R. Leeman, Techniques of
// Geoscientific Experimentation, CC BY-SA 4.0). Expected figures computed with numpy from R = 10000·V/(Vref − V).
TEST(OpenLog, OfARealDividerGivesItsResistanceAndTemperature) {
  const char* folder = std::getenv("OHMWRIGHT_OPEN_DATA");
  if (folder == nullptr) GTEST_SKIP() << "skipped: OHMWRIGHT_OPEN_DATA is not set";
  std::ifstream file(std::string(folder) + "/ntc/divider_10k_1Hz_measured.csv");
  ASSERT_TRUE(file) << folder;
  Control divider;
  divider.pull_up = ohm(10000);
  const BetaCurve curve = ten_kilohm(3988);
  int rows = 0;
  double sum_ohm = 0;
  double sum_celsius = 0;
  double least_ohm = 1e9;
  double most_ohm = 0;
  double least_celsius = 1e9;
  double most_celsius = -1e9;
  for (std::string line; std::getline(file, line);) {
    double across = 0;
    double reference = 0;
    char comma = 0;
    if (!(std::istringstream(line) >> across >> comma >> reference)) continue;
    const std::optional<Resistance> r = divider.resistance_at(across / reference);
    ASSERT_TRUE(r) << line;
    const double t = curve.temperature(*r)->celsius();
    ++rows;
    sum_ohm += r->value();
    sum_celsius += t;
    least_ohm = std::min(least_ohm, r->value());
    most_ohm = std::max(most_ohm, r->value());
    least_celsius = std::min(least_celsius, t);
    most_celsius = std::max(most_celsius, t);
  }
  ASSERT_EQ(rows, 6700);
  EXPECT_NEAR(sum_ohm / rows, 11347.40, 0.005);
  EXPECT_NEAR(least_ohm, 11241.57, 0.005);
  EXPECT_NEAR(most_ohm, 11438.61, 0.005);
  EXPECT_NEAR(sum_celsius / rows, 22.209, 5e-4);
  EXPECT_NEAR(least_celsius, 22.034, 5e-4);
  EXPECT_NEAR(most_celsius, 22.414, 5e-4);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
