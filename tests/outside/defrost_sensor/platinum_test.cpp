#include <cstdlib>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

#include "curves/platinum_curve.hpp"
#include "part/tolerance.hpp"
#include "sensor_fixture.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;

// IEC 60751:2022: its table prints two decimals (138.51, 175.86, 212.05, 247.09, 280.98, 390.48; from memory);
// unrounded by numpy and closed form.
TEST(PlatinumOutside, Pt100AboveZero) {
  const PlatinumCurve curve(ohm(100), PlatinumClass::b);
  const std::pair<double, double> rows[] = {{100, 138.505500}, {200, 175.856000}, {300, 212.051500},
                                            {400, 247.092000}, {500, 280.977500}, {850, 390.481125}};
  for (const auto& [t, r] : rows) EXPECT_NEAR(curve.resistance(celsius(t)).value(), r, 1e-9 * r) << t;
}

TEST(PlatinumOutside, Pt100BelowZero) {  // the table prints 18.52, 60.26, 80.31 (from memory)
  const PlatinumCurve curve(ohm(100), PlatinumClass::b);
  const std::pair<double, double> rows[] = {{-200, 18.520080}, {-100, 60.255840}, {-50, 80.306282}};
  for (const auto& [t, r] : rows) {
    EXPECT_NEAR(curve.resistance(celsius(t)).value(), r, 5e-7) << t;
    EXPECT_NEAR(curve.temperature(ohm(r))->celsius(), t, 2e-6) << t;
  }
}

TEST(PlatinumOutside, Pt1000OfAnOven) {  // numpy, GSL
  const PlatinumCurve curve(ohm(1000), PlatinumClass::b);
  EXPECT_NEAR(curve.temperature(ohm(1080))->celsius(), 20.531546, 1e-6);
  EXPECT_NEAR(curve.temperature(ohm(1100))->celsius(), 25.684047, 1e-6);
  EXPECT_NEAR(curve.resistance(celsius(25)).value(), 1097.347, 5e-4);
}

TEST(PlatinumOutside, ClassBAt177Celsius) {  // numpy: ±1.185 K, ±0.438909 ohm of a Pt100
  const PlatinumCurve curve(ohm(100), PlatinumClass::b);
  EXPECT_NEAR(class_tolerance(PlatinumClass::b, celsius(177)).value(), 1.185, 1e-12);
  const LogLimits limits = Tolerance(OfClass{PlatinumClass::b}).at(curve, celsius(177));
  const double nominal = curve.resistance(celsius(177)).value();
  EXPECT_NEAR(nominal * 0.5 * (limits.upper - limits.lower), 0.438909, 1e-4 * 0.438909);
}

// ±0.04, ±0.06, ±0.12 ohm for a Pt100 as printed: half of the last digit. Class C is printed as ±0.24 (twice class B);
// its 0.6 K are 0.2345 ohm by the slope of 0.39083 ohm/K, and that is what counts here.
TEST(PlatinumOutside, ClassesAtZero) {
  const PlatinumCurve curve(ohm(100), PlatinumClass::b);
  const auto half_width = [&](PlatinumClass platinum_class) {
    const LogLimits limits = Tolerance(OfClass{platinum_class}).at(curve, celsius(0));
    return 50.0 * (limits.upper - limits.lower);
  };
  EXPECT_NEAR(half_width(PlatinumClass::aa), 0.04, 0.005);
  EXPECT_NEAR(half_width(PlatinumClass::a), 0.06, 0.005);
  EXPECT_NEAR(half_width(PlatinumClass::b), 0.12, 0.005);
  EXPECT_NEAR(half_width(PlatinumClass::c), 0.6 * 0.390830, 2e-5);  // ln R is bent: exact shift against straight slope
}

// Every kelvin from -200 to 850 °C against the Callendar-Van Dusen column of an open Pt100 table (drhaney/pt100rtd,
// BSD-2-Clause), which prints four decimals.
TEST(PlatinumOutside, OpenTableByOneKelvin) {
  const char* folder = std::getenv("OHMWRIGHT_OPEN_DATA");
  if (folder == nullptr) GTEST_SKIP() << "skipped: OHMWRIGHT_OPEN_DATA is not set";
  std::ifstream file(std::string(folder) + "/rtd/pt100_table_1K.csv");
  ASSERT_TRUE(file) << folder;
  const PlatinumCurve curve(ohm(100), PlatinumClass::b);
  int rows = 0;
  for (std::string line; std::getline(file, line);) {
    double t = 0;
    double printed = 0;
    double exact = 0;
    char comma = 0;
    if (!(std::istringstream(line) >> t >> comma >> printed >> comma >> exact)) continue;
    EXPECT_NEAR(curve.resistance(celsius(t)).value(), exact, 5.1e-5) << t;
    EXPECT_NEAR(curve.temperature(ohm(exact))->celsius(), t, 2e-4) << t;
    ++rows;
  }
  EXPECT_EQ(rows, 1051);
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
