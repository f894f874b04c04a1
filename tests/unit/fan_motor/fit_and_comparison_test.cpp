#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "fan_motor_fixture.hpp"
#include "part/comparison.hpp"
#include "part/winding_fit.hpp"

namespace ohmwright::fan_motor {
namespace {

using namespace testing_support;
using ::testing::Contains;

MeasuredRow row(double ohms, double celsius) {
  return {Temperature::from_celsius(celsius), 0.0,
          StatedValue{AnyQuantity(Dimension::resistance, ohms), {}, Unit::si(Dimension::resistance)}};
}

TEST(WindingFit, MovesEveryRowToTheReference) {
  const std::vector<MeasuredRow> rows{row(67.779, -20.0), row(82.0, 25.0), row(86.740, 40.0)};
  const Fitting fitting = fit_winding({winding, part_temperature, rows});
  ASSERT_EQ(fitting.forms.size(), 1U);
  EXPECT_NEAR(fitting.forms[0].figures[0].value, 82.0, 2e-3);
  EXPECT_EQ(fitting.forms[0].figures.at(1).name, "reference_temperature");
  EXPECT_NEAR(fitting.forms[0].figures.at(1).value, 25.0, 1e-9);
  ASSERT_NE(fitting.forms[0].ratings.find("reference_temperature"), nullptr);
  // How it is built no ohms tell.
  ASSERT_EQ(fitting.forms[0].ratings.find("construction"), nullptr);
  ValueNode::Members members = *fitting.forms[0].ratings.members();
  members.emplace_back("construction", ValueNode(std::string("capacitor-run"), "", 0));
  std::vector<Problem> problems;
  ASSERT_TRUE(read_ratings(ValueNode(std::move(members), "", 0), problems));
  EXPECT_TRUE(fitting.remarks.empty());
}

TEST(WindingFit, LeavesOutAStrayRow) {
  const std::vector<MeasuredRow> rows{row(82.0, 25.0), row(81.9, 25.0), row(8.2, 25.0), row(82.1, 25.0)};
  const Fitting fitting = fit_winding({winding, part_temperature, rows});
  ASSERT_EQ(fitting.remarks.size(), 1U);
  EXPECT_EQ(fitting.remarks[0].text.id, "stray");
  EXPECT_EQ(fitting.remarks[0].row, 2U);
  EXPECT_NEAR(fitting.forms.at(0).figures[0].value, 82.0, 1e-9);
}

std::vector<std::string> texts(const std::string& original, const std::string& candidate) {
  const FanMotorRatings a = ratings(original);
  const FanMotorRatings b = ratings(candidate);
  std::vector<std::string> ids;
  for (const EquivalenceFinding& finding : compare_fan_motors(&a, &b, {})) ids.emplace_back(finding.text.id);
  return ids;
}

TEST(Comparison, NamesWhatDiffers) {
  const std::string original = R"({"construction": "shaded-pole", "voltage": "120 V", "frequency": "60 Hz", "poles": 4,
                                   "rotation": "clockwise", "size": "0.2 m"})";
  EXPECT_THAT(texts(original, R"({"construction": "electronically-commutated", "voltage": "12 V"})"),
              Contains("construction-differs"));
  EXPECT_THAT(
      texts(original, R"({"construction": "shaded-pole", "voltage": "230 V", "frequency": "50 Hz", "poles": 2})"),
      ::testing::AllOf(Contains("voltage-differs"), Contains("frequency-differs"), Contains("speed-differs")));
  EXPECT_THAT(texts(original, R"({"construction": "shaded-pole", "voltage": "120 V", "frequency": "60 Hz", "poles": 4,
                                  "rotation": "counter-clockwise", "size": "0.3 m"})"),
              ::testing::AllOf(Contains("rotation-differs"), Contains("size-differs"), Contains("speed-alike")));
  EXPECT_THAT(
      texts(original, R"({"construction": "capacitor-run", "voltage": "120 V"})"),
      ::testing::AllOf(Contains("construction-other"), Contains("frequency-unknown"), Contains("size-unknown")));
  EXPECT_THAT(texts(R"({"construction": "electronically-commutated", "pulses_per_turn": 2})",
                    R"({"construction": "electronically-commutated", "pulses_per_turn": 4})"),
              Contains("tachometer-differs"));
  EXPECT_EQ(compare_fan_motors(nullptr, nullptr, {}).at(0).text.id, "ratings-unknown");
}

}  // namespace
}  // namespace ohmwright::fan_motor
