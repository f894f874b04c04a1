// Summaries add up in any grouping; places and drift against worked numbers.

#include <cmath>
#include <numeric>
#include <string>
#include <vector>

#include <gtest/gtest.h>
// after gtest, as its own header asks
#include <rapidcheck.h>
#include <rapidcheck/gtest.h>

#include <ohmwright/batch/run_part.hpp>
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
  summary.cut_short = *rc::gen::inRange<std::uint64_t>(0, 3);
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

Places places_around(double middle, int count) {
  Places places;
  for (int i = 0; i < count; ++i) places.take(middle + 0.1 * (i % 3 - 1));
  return places;
}

/// A kind whose lots are called by letters and lie around these places, each of so many parts.
KindSummary lots_around(const std::vector<double>& middles, int count = 20) {
  KindSummary kind;
  for (std::size_t i = 0; i < middles.size(); ++i) {
    Population population;
    population.rules["rule"].places = places_around(middles[i], count);
    kind.lots[std::string(1, static_cast<char>('A' + i))] = population;
    kind.all.add(population);
  }
  return kind;
}

std::string drifted(const LotComparison& comparison) {
  std::string names;
  for (const auto& [name, drift] : comparison.lots)
    if (drift.is_drift) names += name;
  return names;
}

// Welch's statistic of two samples, own arithmetic.
TEST(Drift, OfTwoLotsIsTheirDifference) {
  KindSummary kind = lots_around({0.5});
  kind.lots["B"].rules["rule"].places = places_around(0.0, 80);
  const LotComparison comparison = compare_lots(kind, "rule");
  const Drift& drift = comparison.lots.at("A");
  // i % 3 - 1 is -1, 0, 1 seven, seven and six times of 20: mean -1/20, sum of squares 13; 27, 27, 26 of 80: -1/80, 53
  EXPECT_NEAR(drift.difference, 0.5 - 0.1 / 20.0 + 0.1 / 80.0, 1e-9);
  const double one = (13.0 - 1.0 / 20.0) / 19.0 * 0.01 / 20.0;
  const double four = (53.0 - 1.0 / 80.0) / 79.0 * 0.01 / 80.0;
  EXPECT_NEAR(drift.standard_error, std::sqrt(one + four), 1e-9);
  EXPECT_TRUE(comparison.two_alone);
  EXPECT_FALSE(compare_lots(lots_around({0.0, 0.0}), "rule").two_alone);
}

// Lots that lie elsewhere by construction are named, the others are not.
TEST(Drift, NamesTheLotsThatLieElsewhereAndNoOthers) {
  std::vector<double> middles(20, 0.0);
  middles[7] = 2.4;
  EXPECT_EQ(drifted(compare_lots(lots_around(middles, 500), "rule")), "H");
  middles[12] = -0.4;
  EXPECT_EQ(drifted(compare_lots(lots_around(middles, 500), "rule")), "HM");
  middles[3] = 0.04;  // below a twentieth, however sure
  EXPECT_EQ(drifted(compare_lots(lots_around(middles, 5000), "rule")), "HM");
  EXPECT_EQ(drifted(compare_lots(lots_around({0.0, 0.5, 0.0}), "rule")), "B");
  EXPECT_EQ(drifted(compare_lots(lots_around({0.0, 0.5, 0.0, 0.0}), "rule")), "B");
  EXPECT_EQ(drifted(compare_lots(lots_around({0.0, 0.5, 0.0}, 5), "rule")), "");  // too few to tell
  EXPECT_TRUE(compare_lots(lots_around({0.0}), "rule").lots.empty());
}

RunPart shard_of(std::uint64_t index, std::uint64_t count) {
  return {{"program", {"--kind", "x"}, "input"}, {}, count, {{index, index}}};
}

RunPart part_sum(RunPart a, const RunPart& b) {
  a.add(b);
  return a;
}

TEST(RunPart, IsASetOfShards) {
  const RunPart left = part_sum(part_sum(shard_of(1, 5), shard_of(2, 5)), shard_of(4, 5));
  const RunPart right = part_sum(shard_of(1, 5), part_sum(shard_of(4, 5), shard_of(2, 5)));
  EXPECT_EQ(left.have, right.have);
  EXPECT_EQ(left.have, (std::vector<ShardRange>{{1, 2}, {4, 4}}));
  EXPECT_EQ(left.missing(), "3, 5");
  EXPECT_FALSE(left.is_whole());
  const RunPart whole = part_sum(part_sum(left, shard_of(5, 5)), shard_of(3, 5));
  EXPECT_TRUE(whole.is_whole());
  EXPECT_EQ(whole.missing(), "");
  EXPECT_EQ(shard_of(3, 9).missing(), "1 to 2, 4 to 9");
  EXPECT_NE(testing::refusal_of([&] { part_sum(left, shard_of(2, 5)); }).find("shard 2 of 5 is in two"),
            std::string::npos);
}

TEST(Summary, RefusesWhatIsNone) {
  const testing::TemporaryFolder folder;
  const std::string path = folder.write("s.json", R"({"judged": 1, "refused": -1, "cut_short": 0, "kinds": []})");
  EXPECT_NE(testing::refusal_of([&] { read_summary(path); }).find("/refused"), std::string::npos);
}

}  // namespace
}  // namespace ohmwright::batch
