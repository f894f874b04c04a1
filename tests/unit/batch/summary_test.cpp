// Summaries add up in any grouping; places and drift against worked numbers.

#include <cmath>
#include <numeric>

#include <gtest/gtest.h>
// after gtest, as its own header asks
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <ohmwright/batch/summary.hpp>
#include <ohmwright/batch/summary_document.hpp>
#include <ohmwright/document/document.hpp>

#include "temporary_folder.hpp"

namespace ohmwright::batch {
namespace {

Population any_population() {
  Population population;
  const int parts = *rc::gen::inRange(0, 6);
  for (int i = 0; i < parts; ++i) {
    const auto outcome = *rc::gen::element(Outcome::within_limits, Outcome::out_of_limits, Outcome::undecided);
    population.verdicts.count(outcome);
    RuleSummary& rule = population.rules[*rc::gen::element<std::string>("first", "second")];
    rule.outcomes.count(outcome);
    rule.places.take(static_cast<double>(*rc::gen::inRange(-2'000'000, 2'000'000)) * 1e-4);
  }
  return population;
}

Summary any_summary() {
  Summary summary;
  summary.refused = *rc::gen::inRange<std::uint64_t>(0, 100);
  const int kinds = *rc::gen::inRange(0, 3);
  for (int i = 0; i < kinds; ++i) {
    KindSummary& kind = summary.kinds[*rc::gen::element<std::string>("heater", "sensor")];
    const Population population = any_population();
    kind.all.add(population);
    kind.lots[*rc::gen::element<std::string>("L1", "L2", "\"lot\" \u00B1\t")].add(population);
  }
  return summary;
}

Summary sum(Summary a, const Summary& b) {
  a.add(b);
  return a;
}

RC_GTEST_PROP(Summary, AddsUpInAnyGroupingAndOrder, ()) {
  const Summary a = any_summary();
  const Summary b = any_summary();
  const Summary c = any_summary();
  RC_ASSERT(sum(sum(a, b), c) == sum(a, sum(b, c)));
  RC_ASSERT(sum(a, b) == sum(b, a));
  RC_ASSERT(sum(a, Summary{}) == a);
  RC_ASSERT(summary_json(sum(sum(a, b), c)) == summary_json(sum(a, sum(b, c))));
}

RC_GTEST_PROP(Summary, ComesBackFromItsFile, ()) {
  const Summary summary = any_summary();
  const Document document = parse_document(summary_json(summary), "summary");
  RC_ASSERT(summary_of(document.root, "summary") == summary);
}

TEST(WideCount, CarriesPastSixtyFourBits) {
  WideCount wide{0, ~std::uint64_t{0}};
  wide.add({0, 2});
  EXPECT_EQ(wide, (WideCount{1, 1}));
  EXPECT_EQ(wide.text(), "00000000000000010000000000000001");  // 2^64 + 1, own arithmetic
  EXPECT_EQ(WideCount::from_text(wide.text()), wide);
  EXPECT_EQ(WideCount::from_text("1"), std::nullopt);
  EXPECT_EQ(WideCount::from_text("0000000000000001000000000000000g"), std::nullopt);
}

// Michelson's first ten speeds of light of 1879 (850, 740, … km/s above 299 000; from memory), less 700 and in
// hundreds; mean and deviation by own arithmetic.
TEST(Places, HaveTheMeanAndDeviationOfWhatWasTaken) {
  Places places;
  for (const double value : {1.5, 0.4, 2.0, 3.7, 2.3, 1.5, 2.5, 2.8, 2.8, 1.8}) places.take(value);
  EXPECT_NEAR(places.mean(), 2.13, 1e-12);                                 // 21.3 / 10
  EXPECT_NEAR(places.standard_deviation(), std::sqrt(7.441 / 9.0), 1e-9);  // sum of squares 52.81 less 45.369
}

// Welch's statistic of two samples, own arithmetic: {0, 0.2, …} and the same moved by 0.5.
TEST(Drift, IsToldWhereALotLiesElsewhere) {
  Places lot;
  Places all;
  for (int i = 0; i < 20; ++i) {
    const double place = 0.1 * (i % 3 - 1);
    lot.take(place + 0.5);
    all.take(place + 0.5);
    for (int other = 0; other < 4; ++other) all.take(place);
  }
  const std::optional<Drift> drift = drift_of(lot, all);
  ASSERT_TRUE(drift);
  EXPECT_NEAR(drift->difference, 0.5, 1e-9);
  // i % 3 - 1 is -1, 0, 1 seven, seven and six times: mean -1/20, sum of squares 13; the others four times those
  const double one = (13.0 - 20.0 * 0.05 * 0.05) / 19.0 * 0.01 / 20.0;
  const double four = (52.0 - 80.0 * 0.05 * 0.05) / 79.0 * 0.01 / 80.0;
  EXPECT_NEAR(drift->standard_error, std::sqrt(one + four), 1e-9);
  EXPECT_TRUE(drift->is_drift);
  EXPECT_FALSE(drift_of(all, all).has_value());
  Places same = all;
  same.add(all);
  EXPECT_FALSE(drift_of(all, same)->is_drift);
}

TEST(Summary, RefusesWhatIsNone) {
  const testing::TemporaryFolder folder;
  const std::string path = folder.write("s.json", R"({"judged": 1, "refused": -1, "kinds": []})");
  EXPECT_NE(testing::refusal_of([&] { read_summary(path); }).find("/refused"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright::batch
