#include <gtest/gtest.h>

#include <ohmwright/verdict/decimal_slip.hpp>

namespace ohmwright {
namespace {

AnyQuantity ohms(double value) { return {Dimension::resistance, value}; }

Finding condemned(double measured, double lower, double upper) {
  Finding finding;
  finding.outcome = Outcome::out_of_limits;
  finding.measured = ohms(measured);
  finding.limits = {ohms(lower), ohms(upper)};
  return finding;
}

std::optional<double> right_as(const Finding& finding) {
  const std::optional<DecimalSlip> slip = decimal_slip({&finding, 1});
  return slip ? std::optional(slip->right_as.value_in_si()) : std::nullopt;
}

TEST(DecimalSlip, AShiftedPointOrAForgottenK) {
  EXPECT_EQ(right_as(condemned(1.1e3, 10e3, 12e3)), 11e3);
  EXPECT_EQ(right_as(condemned(11.0, 10e3, 12e3)), 11e3);
  EXPECT_EQ(right_as(condemned(11e6, 10e3, 12e3)), 11e3);
  EXPECT_EQ(right_as(condemned(32e6, 28.0, 36.0)), 32.0);  // an M where nothing stood
}

TEST(DecimalSlip, NotWhereNoShiftFits) {
  EXPECT_EQ(right_as(condemned(6e3, 10e3, 12e3)), std::nullopt);
  EXPECT_EQ(right_as(condemned(14e3, 10e3, 12e3)), std::nullopt);
  EXPECT_EQ(right_as(condemned(0.0, 10e3, 12e3)), std::nullopt);
}

TEST(DecimalSlip, OnlyOfWhatIsCondemnedWithBothLimits) {
  Finding undecided = condemned(1.1e3, 10e3, 12e3);
  undecided.outcome = Outcome::undecided;
  EXPECT_EQ(right_as(undecided), std::nullopt);
  Finding one_sided = condemned(1.1e3, 10e3, 12e3);
  one_sided.limits.upper.reset();
  EXPECT_EQ(right_as(one_sided), std::nullopt);
}

TEST(DecimalSlip, AlsoWhereOnlyTheCircumstancesKeepItFromBeingCondemned) {
  Finding beyond = condemned(1.1e3, 10e3, 12e3);
  beyond.outcome = Outcome::undecided;
  beyond.meaning = ProbabilityMeaning::within_limits;
  beyond.probability = 0.0;
  EXPECT_EQ(right_as(beyond), 11e3);
  beyond.probability = 0.3;
  EXPECT_EQ(right_as(beyond), std::nullopt);
}

TEST(DecimalSlip, AShareOfTheCurveIsNothingThatWasRead) {
  Finding share = condemned(0.1, 0.95, 1.05);
  share.measured = AnyQuantity(Dimension::ratio, 0.1);
  EXPECT_EQ(right_as(share), std::nullopt);
}

}  // namespace
}  // namespace ohmwright
