#include <cmath>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/cycles/search/level_scan.hpp>
#include <ohmwright/cycles/search/sampler.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright::cycles {
namespace {

using ::testing::ElementsAre;

Window window_of_steps(std::size_t count, double spacing) {
  Window window;
  window.spacing_second = spacing;
  for (std::size_t i = 0; i < count; ++i) {
    window.start.push_back(spacing * static_cast<double>(i));
    window.width.push_back(spacing);
    window.gap_after.push_back(0);
  }
  return window;
}

TEST(Sampler, TakesTogetherWhatIsCloseAndLeavesTheInrushOut) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 45; ++i) {
    LogRow row;
    row.time_second = i;
    row.value[index_of(LogQuantity::power)] = i == 3 ? 1400.0 : 100.0;
    rows.push_back(row);
  }
  LogSampler sampler;
  std::vector<LogSample> samples;
  sampler.take(std::span(rows).first(7), samples);
  sampler.take(std::span(rows).subspan(7), samples);
  sampler.finish(samples);
  ASSERT_EQ(samples.size(), 3U);
  EXPECT_EQ(samples[0].rows, 20U);
  EXPECT_FLOAT_EQ(samples[0].mean[index_of(LogQuantity::power)], 165.0F);
  EXPECT_FLOAT_EQ(samples[0].typical[index_of(LogQuantity::power)], 100.0F);
  EXPECT_EQ(samples[2].rows, 5U);
}

TEST(Opening, TakesAwayWhatIsShort) {
  const Window window = window_of_steps(12, 20.0);
  const std::vector<double> signal{0, 9, 0, 5, 5, 5, 5, 0, 7, 7, 0, 0};
  EXPECT_THAT(opened(window, signal, 60.0), ElementsAre(0, 0, 0, 5, 5, 5, 5, 0, 0, 0, 0, 0));
  EXPECT_EQ(opened(window, signal, 20.0), signal);
}

TEST(LevelScan, FindsRunsAboveEachLevel) {
  const Window window = window_of_steps(12, 20.0);
  const std::vector<double> signal{0, 9, 0, 5, 5, 5, 5, 0, 7, 7, 0, 0};
  const LevelScan scan(window, signal, {1.0, 6.0}, 10.0);
  const auto low = scan.runs_above(0, 100);
  ASSERT_EQ(low.size(), 3U);
  EXPECT_EQ(low[1].start_second, 60.0);
  EXPECT_EQ(low[1].end_second, 140.0);
  EXPECT_EQ(scan.runs_above(1, 100).size(), 2U);
  EXPECT_EQ(LevelScan(window, signal, {1.0, 6.0}, 100.0).runs_above(0, 100).size(), 1U);
}

TEST(LevelScan, AGapEndsARun) {
  Window window = window_of_steps(10, 20.0);
  for (std::size_t i = 5; i < 10; ++i) window.start[i] += 5000.0;
  window.gap_after[4] = 1;
  const std::vector<double> signal{0, 0, 5, 5, 5, 5, 5, 0, 0, 0};
  const auto runs = LevelScan(window, signal, {1.0}, 200.0).runs_above(0, 100);
  ASSERT_EQ(runs.size(), 2U);
  EXPECT_TRUE(runs[0].is_cut);
  EXPECT_TRUE(runs[1].is_cut);
}

TEST(Quantiles, CountTime) {
  const std::vector<double> values{1.0, 2.0, 3.0};
  const std::vector<double> widths{1.0, 1.0, 8.0};
  EXPECT_NEAR(time_quantile(values, widths, 0.5), 3.0, 0.01);
  EXPECT_NEAR(time_quantile(values, widths, 0.15), 2.0, 0.01);
  EXPECT_EQ(time_quantile(std::vector<double>{4.0, 4.0}, std::vector<double>{1.0, 1.0}, 0.5), 4.0);
  EXPECT_EQ(median_of({}), 0.0);
}

TEST(Noise, IsThatOfANormalErrorOnASlowWave) {
  ReproducibleStream stream(20260305);
  std::vector<double> values;
  for (int i = 0; i < 20000; ++i) values.push_back(5.0 * std::sin(0.002 * i) + 0.1 * stream.normal());
  EXPECT_NEAR(noise_of(values), 0.1, 0.005);
}

}  // namespace
}  // namespace ohmwright::cycles
