#include <algorithm>
#include <cmath>
#include <random>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/schema.hpp>
#include <ohmwright/report/fitting_report.hpp>

#include "fit_fixture.hpp"
#include "sensor_kind.hpp"
#include "sensor_part.hpp"

namespace ohmwright::defrost_sensor {
namespace {

using namespace testing_support;
using ::testing::Contains;
using ::testing::ElementsAre;
using ::testing::IsEmpty;

/// The part that the written ratings make, after the schema has had its say.
std::unique_ptr<const Part> part_of(const FittedRatings& form) {
  const Document file = parse_document(
      fitted_ratings_file(descriptor(), form, {"my-sensor", "My sensor", "measured by myself"}), "fitted");
  const ValueNode& ratings = *file.root.find("ratings");
  for (const Problem& problem : Schema(descriptor().ratings_schema, "ratings").problems(ratings))
    ADD_FAILURE() << problem.pointer << ": " << problem.text;
  std::vector<Problem> problems;
  std::unique_ptr<const Part> part = SensorKind().make_part(&ratings, problems);
  for (const Problem& problem : problems) ADD_FAILURE() << problem.pointer << ": " << problem.text;
  return part;
}

const Curve& curve_of(const Part& part) { return *static_cast<const SensorPart&>(part).ratings()->curve; }

TEST(Fit, GivesTheFormsBestFirstAndTheChartLast) {
  const Fitting fitting = fit(published_chart());
  EXPECT_THAT(forms_of(fitting), ElementsAre("steinhart-hart", "beta", "chart"));
  EXPECT_THAT(fitting.remarks, IsEmpty());
  EXPECT_LT(fitting.forms[0].standard_deviation.value_in_si(), fitting.forms[1].standard_deviation.value_in_si());
  for (const FittedRatings& form : fitting.forms) {
    EXPECT_NEAR(form.from.as<Temperature>().celsius(), -40.0, 1e-9);
    EXPECT_NEAR(form.to.as<Temperature>().celsius(), 50.0, 1e-9);
    EXPECT_EQ(form.residuals.size(), 10U);
  }
}

TEST(Fit, MakesRatingsWhosePartGivesTheResidualsAgain) {
  Chart rows = published_chart();
  rows[3].second = 55.05;  // left out, but it has its residual too
  const Fitting fitting = fit(rows);
  ASSERT_EQ(fitting.forms.size(), 3U);
  for (const FittedRatings& form : fitting.forms) {
    const std::unique_ptr<const Part> part = part_of(form);
    ASSERT_TRUE(part) << form.form;
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const std::optional<Temperature> seen = curve_of(*part).temperature(ohm(rows[i].second));
      if (!seen) continue;  // 55 ohm is past any temperature
      EXPECT_NEAR(seen->celsius() - rows[i].first, form.residuals[i].value_in_si(), 1e-6) << form.form << i;
    }
    EXPECT_GT(form.residuals[3].value_in_si(), 50.0) << form.form;
  }
}

// The line of a bent curve crosses it twice; there its B-value is right, and only there.
TEST(Fit, BetaNamesTheTemperaturesAtWhichItIsExact) {
  const Fitting fitting = fit(published_chart());
  const std::unique_ptr<const Part> part = part_of(form_of(fitting, "beta"));
  const Curve& curve = curve_of(*part);
  const FourCoefficientCurve real = published_four_coefficient();
  EXPECT_NEAR(real.log_resistance(curve.span().from), curve.log_resistance(curve.span().from), 2e-3);
  EXPECT_NEAR(real.log_resistance(curve.span().to), curve.log_resistance(curve.span().to), 2e-3);
  for (double t = -40; t <= 50; t += 1) {
    const double off = real.log_resistance(celsius(t)) - curve.log_resistance(celsius(t));
    EXPECT_LE(std::abs(off), std::abs(curve.model_error(celsius(t))) + 2e-3) << t;
  }
}

TEST(Fit, OfTwoRowsIsABetaThroughThem) {
  const Fitting fitting = fit(Chart{{0, 32550}, {25, 10000}});
  EXPECT_THAT(forms_of(fitting), ElementsAre("beta", "chart"));
  EXPECT_THAT(remarks_of(fitting), ElementsAre("all two-rows", "all two-alone"));
  EXPECT_EQ(fitting.forms.front().ratings.members(), nullptr) << "nobody would see that one of the two was wrong";
  const FittedRatings& beta = form_of(fitting, "beta");
  EXPECT_NEAR(figure_of(beta, "reference_resistance").value, 10000.0, 1e-5);
  EXPECT_EQ(figure_of(beta, "beta").standard_uncertainty, 0.0);
  EXPECT_EQ(beta.standard_deviation.value_in_si(), 0.0);
  const Fitting stated = fit(rows_of(Chart{{0, 32550}, {25, 10000}}, 0.1));
  const TemperatureSpan exact = curve_of(*part_of(form_of(stated, "beta"))).span();
  EXPECT_NEAR(exact.from.celsius(), 0.0, 1e-6);
  EXPECT_NEAR(exact.to.celsius(), 25.0, 1e-6);
}

TEST(Fit, OfThreeRowsGoesThroughThemAndSaysThatThisProvesNothing) {
  const Fitting fitting = fit(Chart{{0, 32550}, {20, 12490}, {40, 5330}});
  EXPECT_THAT(forms_of(fitting), ElementsAre("steinhart-hart", "beta", "chart"));
  EXPECT_THAT(remarks_of(fitting), ElementsAre("all goes-through"));
  EXPECT_FALSE(fitting.remarks[0].left_out);
}

// With six rows a search finds it; with five a first row that is 20 % off bent the curve and was called one of the
// part.
TEST(Fit, OfFiveRowsNamesTheOneThatTheOthersDoNotBearOut) {
  const Fitting cold = fit(Chart{{0, 26000}, {10, 19870}, {20, 12490}, {30, 8059}, {40, 5330}});
  EXPECT_THAT(remarks_of(cold), Contains("-0 off-the-curve"));
  EXPECT_NE(cold.forms.front().ratings.members(), nullptr);
  EXPECT_NEAR(figure_of(form_of(cold, "beta"), "beta").value, 3889.2, 0.1);  // ln(R10/R40) over the other rows
  const Fitting inside = fit(Chart{{0, 32550}, {10, 19870}, {20, 12490}, {30, 9600}, {40, 5330}});
  EXPECT_THAT(remarks_of(inside), Contains("-3 off-the-curve"));
}

TEST(Fit, OfFewRowsThatDisagreeMakesNoRatings) {
  for (const Chart& rows : {Chart{{0, 32550}, {20, 13600}, {40, 5330}}, Chart{{0, 32550}, {20, 11400}, {40, 5330}}}) {
    const Fitting fitting = fit(rows);
    EXPECT_THAT(remarks_of(fitting), Contains("all rows-disagree"));
    for (const FittedRatings& form : fitting.forms) EXPECT_EQ(form.ratings.members(), nullptr) << form.form;
  }
}

// Which of two neighbours is wrong, one row more does not tell; nor do rows far away tell of one that stands alone.
TEST(Fit, MakesNoRatingsWhereAWrongRowWouldNotBeSeen) {
  const Fitting rising = fit(Chart{{0, 32550}, {36, 6220}, {40, 6600}});
  EXPECT_THAT(remarks_of(rising), Contains("all rows-disagree"));
  EXPECT_EQ(rising.forms.front().ratings.members(), nullptr);
  EXPECT_THAT(remarks_of(rising), Contains("2 one-does-not-fall"));
  const Fitting alone = fit(Chart{{-18, 85770}, {0, 32540}, {4, 26620}, {23, 9570}});  // the last is 3 K off
  EXPECT_THAT(remarks_of(alone), Contains("all rests-on-itself"));
  EXPECT_EQ(alone.forms.front().ratings.members(), nullptr);
  const Fitting spread = fit(Chart{{-18, 85770}, {0, 32540}, {23, 10920}});
  EXPECT_NE(spread.forms.front().ratings.members(), nullptr);
}

// The line through the wrong two of three rows leaves out the right one: none is named then but for a slip of the pen.
TEST(Fit, CallsNoRightRowOfThreeWrong) {
  for (const Chart& rows : {Chart{{0, 32550}, {36, 6220}, {40, 8900}}, Chart{{0, 32550}, {25, 10000}, {30, 12000}}}) {
    const Fitting fitting = fit(rows);
    EXPECT_THAT(remarks_of(fitting), Contains("all rows-disagree"));
    for (const RowRemark& remark : fitting.remarks) EXPECT_FALSE(remark.left_out);
    EXPECT_EQ(fitting.forms.front().ratings.members(), nullptr);
  }
}

// Three rows of one class (beta 3977) within 4 K, each good to 0.4 K, made a beta of 4408 K, by which a good part was
// condemned in ice water.
TEST(Fit, MakesNoRatingsOfRowsTooCloseTogether) {
  const Fitting close = fit(Chart{{20, 12490}, {22, 11600}, {24, 10200}});
  EXPECT_THAT(remarks_of(close), Contains("all slope-unsure"));
  EXPECT_EQ(close.forms.front().ratings.members(), nullptr);
  EXPECT_NE(fit(Chart{{0, 32550}, {10, 19870}, {20, 12490}}).forms.front().ratings.members(), nullptr);
}

// The last of six, 6 K off, bends the curve to itself; of the next the scatter of the rest is 2.5 K; the third is right
// but for one of its two far rows, and no one knows which.
TEST(Fit, MakesNoRatingsOfManyRowsWithAWrongEnd) {
  for (const Chart& rows :
       {Chart{{-10, 55230}, {0, 32440}, {10, 20150}, {15, 15580}, {23, 10880}, {40, 4230}},
        Chart{{-18, 60580}, {0, 32600}, {4, 26800}, {5, 25290}, {22, 11310}, {30, 8090}},
        Chart{{-20, 95900}, {4, 26930}, {5, 25000}, {8, 21820}, {10, 19730}, {50, 2905}, {60, 2475}}}) {
    const Fitting fitting = fit(rows);
    EXPECT_THAT(remarks_of(fitting), Contains("all rows-disagree"));
    for (const FittedRatings& form : fitting.forms) EXPECT_EQ(form.ratings.members(), nullptr) << form.form;
  }
  const Fitting alone = fit(Chart{{0, 32550}, {1, 30940}, {2, 29420}, {3, 27980}, {4, 26620}, {35, 6520}});
  EXPECT_THAT(remarks_of(alone), Contains("all rests-on-itself")) << "5 K of rows tell 31 K away too little";
}

TEST(Fit, MakesNoRatingsOfRowsThatScatterWidely) {
  Chart rows = published_chart();
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i].first += i % 2 == 0 ? 1.5 : -1.5;
  const Fitting fitting = fit(rows);
  EXPECT_THAT(remarks_of(fitting), Contains("all scattered"));
  EXPECT_EQ(fitting.forms.front().ratings.members(), nullptr);
}

// 0.7 K off is what a half-width of 0.5 K in each of three neighbours allows.
TEST(Fit, AllowsFewRowsWhatWasStatedWithThem) {
  const Chart rows{{0.3, 32550}, {9.7, 19870}, {20.3, 12490}, {29.7, 8060}, {40.3, 5330}};
  EXPECT_EQ(fit(rows).forms.front().ratings.members(), nullptr);
  EXPECT_NE(fit(rows_of(rows, 0.5)).forms.front().ratings.members(), nullptr);
}

// Rows that lie as a tenth of a kelvin and three digits leave them are left alone.
TEST(Fit, LeavesFewRowsAloneThatAreRight) {
  for (const double wrong_kelvin : {-0.2, 0.2})
    for (std::size_t wrong = 0; wrong < 5; ++wrong) {
      Chart rows{{-20, 96400}, {0, 32600}, {10, 19900}, {25, 10000}, {40, 5330}};
      rows[wrong].first += wrong_kelvin;
      const Fitting fitting = fit(rows);
      EXPECT_NE(fitting.forms.front().ratings.members(), nullptr) << wrong;
      for (const RowRemark& remark : fitting.remarks) EXPECT_FALSE(remark.left_out) << wrong;
    }
}

TEST(Fit, SaysWhenTheRowsAreTooFew) {
  EXPECT_THAT(fit(Chart{}).forms, IsEmpty());
  EXPECT_THAT(fit(Chart{}).remarks, IsEmpty());
  const Fitting one = fit(Chart{{0, 32550}});
  EXPECT_THAT(one.forms, IsEmpty());
  EXPECT_THAT(remarks_of(one), ElementsAre("all too-few-rows"));
  EXPECT_EQ(told(one.remarks[0], "count"), 1.0);
}

TEST(Fit, OffersNoSteinhartHartThatTurnsBackOnItself) {
  BetaCurve::Figures figures = beta_3977();
  const BetaCurve curve(figures);
  Chart rows;
  for (double t = -20; t <= 40; t += 10)  // alternately up and down: c comes out on either side of 0
    rows.emplace_back(t, curve.resistance(celsius(t)).value() * (t < 0 || t > 20 ? 1.0 : 0.995));
  const Fitting fitting = fit(rows);
  EXPECT_THAT(forms_of(fitting), ElementsAre("beta", "chart"));
  EXPECT_THAT(remarks_of(fitting), ElementsAre("all turns-back"));
}

// Independent readings of ±0.5 K each: their doubt is stated, and the scatter of this smooth chart is far smaller.
TEST(Fit, TakesTheStatedDoubtsOfTheRowsWhereAllHaveOne) {
  const Fitting bare = fit(published_chart());
  const Fitting stated = fit(rows_of(published_chart(), 0.5));
  const FittedRatings& a = form_of(bare, "steinhart-hart");
  const FittedRatings& b = form_of(stated, "steinhart-hart");
  for (const char* name : {"a", "b", "c"}) {
    EXPECT_NEAR(figure_of(a, name).value, figure_of(b, name).value, 1e-9 * std::abs(figure_of(a, name).value)) << name;
    // 0.5 K rectangular against a scatter of 3.886 mK
    EXPECT_NEAR(figure_of(b, name).standard_uncertainty / figure_of(a, name).standard_uncertainty,
                0.5 / std::sqrt(3.0) / 3.8862e-3, 0.01)
        << name;
  }
  std::vector<MeasuredRow> three = rows_of({{5, 25000}, {25, 10000}, {45, 4000}}, 0.5);
  EXPECT_GT(figure_of(form_of(fit(three), "steinhart-hart"), "c").standard_uncertainty, 0.0);
  three[1].condition_half_width = 0.0;
  EXPECT_EQ(figure_of(form_of(fit(three), "steinhart-hart"), "c").standard_uncertainty, 0.0);
}

TEST(Fit, CountsTheDoubtOfTheOhmsInKelvin) {
  std::vector<MeasuredRow> rows;
  for (const auto& [t, r] : published_chart()) rows.push_back(measured(t, stated_ohms(r, 0.02 * r)));
  const FittedFigure beta = figure_of(form_of(fit(rows), "beta"), "beta");
  // u(B) of a straight line through ten rows of 2 % rectangular each: u / sqrt(Σ(x − mean)²). The bent rows scatter
  // more than that, so it is larger.
  EXPECT_GT(beta.standard_uncertainty, 0.02 / std::sqrt(3.0) / std::sqrt(10.0) / 4e-4);
  EXPECT_LT(beta.standard_uncertainty, 0.1 / std::sqrt(3.0) / std::sqrt(10.0) / 3e-4);
}

TEST(Fit, ScatterLargerThanStatedDoubtsWidensTheUncertainty) {
  Chart rows = published_chart();
  for (std::size_t i = 0; i < rows.size(); ++i) rows[i].second *= i % 2 == 0 ? 1.02 : 0.98;
  const double optimistic = figure_of(form_of(fit(rows_of(rows, 0.01)), "beta"), "beta").standard_uncertainty;
  const double honest = figure_of(form_of(fit(rows_of(rows, 1.0)), "beta"), "beta").standard_uncertainty;
  EXPECT_GT(optimistic, 0.5 * honest);
}

TEST(Fit, OfALogOfThousandsOfRowsMakesNoChartAndIsStillQuick) {
  Chart rows;
  const FourCoefficientCurve real = published_four_coefficient();
  for (int i = 0; i < 3000; ++i) {
    const double t = -20.0 + 0.02 * i;
    rows.emplace_back(t, real.resistance(celsius(t)).value());
  }
  rows[1500].second *= 10.0;
  const Fitting fitting = fit(rows);
  EXPECT_THAT(forms_of(fitting), ElementsAre("steinhart-hart", "beta"));
  EXPECT_THAT(remarks_of(fitting), ElementsAre("-1500 decimal-point-high", "all too-long-for-a-chart"));
}

/// Rows as nobody would type them, in a fixed sequence: half of them near a thermistor's, the rest anything.
std::vector<MeasuredRow> wild_rows(std::mt19937_64& random) {
  const auto share = [&random] { return static_cast<double>(random() >> 11) / 9007199254740992.0; };
  std::vector<MeasuredRow> rows;
  const FourCoefficientCurve real = published_four_coefficient();
  const auto count = static_cast<int>(30.0 * share());
  for (int i = 0; i < count; ++i) {
    const double t = std::round(-40.0 + 125.0 * share());
    const double good = real.resistance(celsius(t)).value() * (0.99 + 0.02 * share());
    const double kind = share();
    if (kind < 0.6)
      rows.push_back(measured(t, stated_ohms(good)));
    else if (kind < 0.9)
      rows.push_back(measured(-300.0 + 900.0 * share(), stated_ohms(std::pow(10.0, -20.0 + 40.0 * share()), share())));
    else
      rows.push_back(measured(t, kind < 0.95 ? Observed(OverRange{}) : Observed(ContactState::closed)));
  }
  return rows;
}

TEST(Fit, OfWildRowsStaysWhole) {
  std::mt19937_64 random(20);  // NOLINT(cert-msc51-cpp): the same rows at every run
  int fitted = 0;
  for (int round = 0; round < 300; ++round) {
    const std::vector<MeasuredRow> rows = wild_rows(random);
    const Fitting fitting = fit(rows);
    for (const RowRemark& remark : fitting.remarks) EXPECT_TRUE(remark.row < rows.size() || remark.row == all_rows);
    EXPECT_TRUE(!fitting.forms.empty() || rows.empty() || !fitting.remarks.empty()) << round;
    for (const FittedRatings& form : fitting.forms) {
      ++fitted;
      const bool is_withheld = form.ratings.members() == nullptr;
      EXPECT_TRUE(is_withheld || part_of(form)) << round;
      ASSERT_EQ(form.residuals.size(), rows.size());
      for (const AnyQuantity residual : form.residuals) EXPECT_TRUE(std::isfinite(residual.value_in_si())) << round;
      for (const FittedFigure& figure : form.figures) {
        EXPECT_TRUE(std::isfinite(figure.value) && std::isfinite(figure.standard_uncertainty)) << figure.name;
      }
    }
  }
  EXPECT_GT(fitted, 100);
}

TEST(Fit, OfAnotherQuantityIsNone) {
  const std::vector<MeasuredRow> rows = rows_of(published_chart());
  const Fitting fitting = fit_sensor({voltage, part_temperature, rows});
  EXPECT_THAT(fitting.forms, IsEmpty());
  EXPECT_THAT(remarks_of(fitting), ElementsAre("-all other-quantity"));
  EXPECT_THAT(SensorKind().fit({resistance, part_temperature, rows}).forms, ::testing::SizeIs(3));
}

}  // namespace
}  // namespace ohmwright::defrost_sensor
