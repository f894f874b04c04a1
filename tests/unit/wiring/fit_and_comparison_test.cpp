#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "part/comparison.hpp"
#include "part/drop_fit.hpp"
#include "wiring_fixture.hpp"

namespace ohmwright::wiring {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::ElementsAre;

MeasuredRow row(double volts, double amperes) {
  return {AnyQuantity(Dimension::current, amperes), 0.0,
          StatedValue{AnyQuantity(Dimension::voltage, volts), {}, Unit::si(Dimension::voltage)}};
}

std::vector<std::string> remarks_of(const Fitting& fitting) {
  std::vector<std::string> ids;
  for (const RowRemark& remark : fitting.remarks) ids.emplace_back(remark.text.id);
  return ids;
}

TEST(DropFit, TheSlopeIsTheOhmsWhateverTheMetersZero) {
  const std::vector<MeasuredRow> rows{row(0.053, 1), row(0.103, 2), row(0.203, 4)};  // 50 milliohm and 3 mV
  const Fitting fitting = fit_drop({drop, load_current, rows});
  ASSERT_EQ(fitting.forms.size(), 1U);
  EXPECT_NEAR(fitting.forms[0].figures[0].value, 0.05, 1e-12);
  EXPECT_NEAR(fitting.forms[0].residuals[1].value_in_si(), 0.0, 1e-12);
  EXPECT_NEAR(fitting.forms[0].figures[0].standard_uncertainty, 0.02 * 0.05 / std::sqrt(3.0), 1e-12);
  EXPECT_TRUE(fitting.remarks.empty());
  EXPECT_EQ(fitting.forms[0].ratings.members(), nullptr);  // what one joint has is no limit of good ones
}

TEST(DropFit, OneRowIsVoltsByAmperes) {
  const std::vector<MeasuredRow> rows{row(-1.875, 3.75)};
  EXPECT_NEAR(fit_drop({drop, load_current, rows}).forms.at(0).figures[0].value, 0.5, 1e-12);
}

TEST(DropFit, LeavesOutWhatIsNoneAndSaysSo) {
  std::vector<MeasuredRow> rows{row(0.05, 1), row(0.1, 2), row(0.3, 0.0)};
  rows.push_back({AnyQuantity(Dimension::current, 1.0), 0.0, OverRange{}});
  const Fitting fitting = fit_drop({drop, load_current, rows});
  EXPECT_THAT(remarks_of(fitting), ElementsAre("no-current", "no-value"));
  EXPECT_NEAR(fitting.forms.at(0).figures[0].value, 0.05, 1e-12);
  EXPECT_THAT(remarks_of(fit_drop({drop, load_current, {}})), ElementsAre("no-rows"));
  EXPECT_TRUE(fit_drop({resistance, lead_length, rows}).forms.empty());
}

TEST(DropFit, RemarksAJointThatChangesAsItWarms) {
  const std::vector<MeasuredRow> rows{row(0.05, 1), row(0.1, 2), row(0.2, 4), row(1.6, 8)};
  EXPECT_THAT(remarks_of(fit_drop({drop, load_current, rows})), ElementsAre("no-line"));
}

std::vector<std::string> statements(const std::string& original, const std::string& candidate, Outcome only,
                                    const ComparisonContext& context = {}) {
  const WiringRatings a = ratings(original);
  const WiringRatings b = ratings(candidate);
  std::vector<std::string> ids;
  for (const EquivalenceFinding& finding : compare_wiring(&a, &b, context))
    if (finding.outcome == only) ids.emplace_back(finding.text.id);
  return ids;
}

const std::string original =
    R"({"form": "lead", "cross_section": "1", "length": "1 m", "contact_resistance": "0.1 ohm", "rated_current": "10 A", )"
    R"("temperature_rating": "105 degC"})";

TEST(Comparison, OneLikeTheOtherIsAReplacement) {
  EXPECT_TRUE(statements(original, original, Outcome::out_of_limits).empty());
  EXPECT_TRUE(statements(original, original, Outcome::undecided).empty());
}

TEST(Comparison, NamesWhatDiffers) {
  EXPECT_THAT(
      statements(original,
                 R"({"form": "lead", "cross_section": "0.5", "length": "0.5 m", "contact_resistance": "0.1 ohm", )"
                 R"("rated_current": "3 A", "temperature_rating": "70 degC"})",
                 Outcome::out_of_limits),
      ElementsAre("area-too-small", "too-short", "current-too-small", "heat-too-low"));
  EXPECT_THAT(statements(original,
                         R"({"form": "lead", "cross_section": "1.5", "metal": "plain-copper", "stranding": "solid", )"
                         R"("contact_resistance": "0.2 ohm"})",
                         Outcome::undecided),
              ElementsAre("stiffer", "not-tinned", "contacts-worse", "current-unknown", "heat-unknown"));
  EXPECT_THAT(statements(original, R"({"form": "splice", "contact_resistance": "0.1 ohm"})", Outcome::out_of_limits),
              Contains("form-differs"));
  EXPECT_THAT(statements(R"({"form": "splice", "contact_resistance": "0.1 ohm", "earth_class": "II"})",
                         R"({"form": "splice", "contact_resistance": "0.1 ohm"})", Outcome::out_of_limits),
              Contains("insulated-less"));
  EXPECT_EQ(compare_wiring(nullptr, nullptr, {}).at(0).text.id, "ratings-unknown");
}

TEST(Comparison, TheLoadOfThePlaceGoesBeforeTheRating) {
  const ConditionValue load{load_current, 3.75};
  ComparisonContext context;
  context.situation = Situation({&load, 1});
  const std::string small =
      R"({"form": "lead", "cross_section": "1", "length": "1 m", "contact_resistance": "0.1 ohm", "rated_current": "6 A"})";
  EXPECT_THAT(statements(original, small, Outcome::within_limits, context), Contains("current-enough"));
  EXPECT_THAT(statements(original, small, Outcome::out_of_limits), ElementsAre("current-too-small"));
}

}  // namespace
}  // namespace ohmwright::wiring
