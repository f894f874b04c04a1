// Heat that goes on, told by the load, the coil or the air: what alarms, what is asked about, and what is neither.
#include <cmath>
#include <cstdint>
#include <optional>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/cycles/verdicts/log_verdict.hpp>

#include "analysed.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

/// The heater's relay welds with a share of the log left: 350 W, no pause, the coil at 60 °C.
SimulatedLog welded(double from_share, bool with_coil) {
  SimulatedLog log = simulate(plain_plan(), 3);
  const double from = from_share * log.rows.back().time_second;
  for (LogRow& row : log.rows) {
    double& kelvin = row.value[index_of(LogQuantity::coil_temperature)];
    if (row.time_second >= from) {
      row.value[index_of(LogQuantity::power)] = 350.0 + 2.0 * std::sin(row.time_second);
      kelvin = 333.15 + std::sin(0.01 * row.time_second);
    }
    if (!with_coil) kelvin = LogRow::none;
  }
  return log;
}

TEST(LastingHeat, IsALoadThatDoesNotStop) {
  EXPECT_FALSE(analysed(simulate(plain_plan(), 3)).lasting_heat.has_value());
  for (const double from_share : {0.4, 0.95})  // three and a half days, and seven hours
    for (const bool with_coil : {true, false}) {
      const SimulatedLog log = welded(from_share, with_coil);
      const LogAnalysis analysis = analysed(log);
      ASSERT_TRUE(analysis.lasting_heat.has_value()) << from_share << with_coil;
      EXPECT_TRUE(analysis.lasting_heat->is_sure());
      EXPECT_NEAR(analysis.lasting_heat->start_second, from_share * log.rows.back().time_second, 1800.0);
      EXPECT_NEAR(*analysis.lasting_heat->load, 350.0, 5.0);
      EXPECT_EQ(analysis.lasting_heat->kelvin.has_value(), with_coil);
      EXPECT_FALSE(analysis.standstill.has_value());
      EXPECT_LT(analysis.run_share.value_or(0.0), 0.6);  // none of it is the compressor's
    }
}

// Nobody is told to leave on what has to be unplugged: the wait for the next defrost ends where the heat begins.
TEST(LastingHeat, IsNoDefrostAndNoWaitForOne) {
  for (const bool with_coil : {true, false}) {
    const LogAnalysis analysis = analysed(welded(0.6, with_coil));
    ASSERT_TRUE(analysis.lasting_heat && analysis.lasting_heat->is_sure());
    EXPECT_GE(analysis.defrost_count, 3U);
    EXPECT_EQ(analysis.defrost_count, analysis.defrosts.size());
    for (const Defrost& one : analysis.defrosts) EXPECT_LT(one.end_second - one.start_second, 2.0 * 3600.0);
    for (const DefrostTrace& trace : analysis.traces) EXPECT_LT(trace.defrost, analysis.defrosts.size());
    const std::vector<LogVerdict> verdicts = judge_log(analysis, {});
    EXPECT_EQ(find_verdict(verdicts, "heat-stops")->outcome, Outcome::out_of_limits);
    EXPECT_EQ(find_verdict(verdicts, "defrosts-come")->text, "seen");
  }
}

TEST(LastingHeat, IsNoCompressorThatCools) {
  SimulatedLog log = welded(0.5, true);
  for (LogRow& row : log.rows)
    if (row.time_second >= 0.5 * log.rows.back().time_second)
      row.value[index_of(LogQuantity::coil_temperature)] = 245.0 + std::sin(0.01 * row.time_second);
  const std::optional<LastingHeat> heat = analysed(log).lasting_heat;
  ASSERT_TRUE(heat.has_value());  // it had always stopped before: asked about
  EXPECT_EQ(heat->ground, HeatGround::never_rests_cold);
  EXPECT_FALSE(heat->takes_over());
}

// A relay welds: the heater is on beside a compressor that wins against it, and the load is that of both.
TEST(LastingHeat, IsSureBesideAColdCoilWhereTheLoadIsOfHeaterAndCompressor) {
  SimulatedLog log = welded(0.5, true);
  for (LogRow& row : log.rows)
    if (row.time_second >= 0.5 * log.rows.back().time_second) {
      row.value[index_of(LogQuantity::coil_temperature)] = 253.0 + std::sin(0.01 * row.time_second);
      row.value[index_of(LogQuantity::power)] += 120.0;
    }
  const std::optional<LastingHeat> heat = analysed(log).lasting_heat;
  ASSERT_TRUE(heat.has_value());
  EXPECT_EQ(heat->ground, HeatGround::like_other_heatings);
}

TEST(LastingHeat, OfTheOnlyLevelIsAskedAboutUnlessItIsTheRatedHeaters) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 2 * 1440; ++i) {
    rows.push_back({});
    rows.back().time_second = 60.0 * i;
    rows.back().value[index_of(LogQuantity::power)] = 452.0 + 3.0 * std::sin(i);
  }
  const LogAnalysis analysis = of_rows(rows);
  ASSERT_TRUE(analysis.lasting_heat.has_value());
  EXPECT_FALSE(analysis.lasting_heat->is_sure());
  LogRatings rated;
  rated.heater_watt = RatedBand{450.0, 405.0, 472.5};
  rated.heater_volt = 120.0;
  rated.line_volt = 120.0;
  LogAnalyser analyser(rated);
  analyser.take(rows);
  EXPECT_TRUE(analyser.finish().lasting_heat->is_sure());
}

constexpr double hour = 3600.0;

/// What a row shows [W, degC].
struct Shown {
  double watt = 0.0;
  double coil = 0.0;
  double air = 0.0;
};

/// A freezer that runs for half of each fifty minutes.
Shown well(double second) {
  const bool runs = std::fmod(second, 3000.0) < 1500.0;
  return {runs ? 118.0 : 2.0, -25.0 + 3.0 * std::sin(second / 480.0), -18.0 + std::sin(second / 480.0)};
}

enum class Held : std::uint8_t { all, power_and_air, power, air, coil };

/// Four days of rows of a minute, `odd` where it gives something, of these columns.
template <class Odd>
LogAnalysis log_of(Held held, Odd odd) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 4 * 1440; ++i) {
    const double second = 60.0 * i;
    const Shown shown = odd(second).value_or(well(second));
    LogRow row;
    row.time_second = second;
    const bool has_load = held == Held::all || held == Held::power_and_air || held == Held::power;
    if (has_load) row.value[index_of(LogQuantity::power)] = shown.watt;
    if (held == Held::all || held == Held::coil)
      row.value[index_of(LogQuantity::coil_temperature)] = melting_point_kelvin + shown.coil;
    if (held != Held::coil && held != Held::power)
      row.value[index_of(LogQuantity::cabinet_temperature)] = melting_point_kelvin + shown.air;
    rows.push_back(row);
  }
  return of_rows(rows);
}

/// That shown before so many hours, or with a negative number in the last ones.
auto in_hours(double hours, Shown shown) {
  return [=](double second) {
    const bool is_in = hours > 0.0 ? second < hours * hour : second >= (96.0 + hours) * hour;
    return is_in ? std::optional<Shown>(shown) : std::nullopt;
  };
}

TEST(LastingHeat, IsNoneWhereALoadWasLoggedAndDidNotFlow) {
  for (const Held held : {Held::all, Held::power_and_air}) {
    EXPECT_FALSE(log_of(held, in_hours(5.0, {0.0, 50.0, 44.0})).lasting_heat.has_value());    // in the sun
    EXPECT_FALSE(log_of(held, in_hours(-12.0, {0.0, 41.5, 41.5})).lasting_heat.has_value());  // unplugged, in a garage
    EXPECT_FALSE(log_of(held, in_hours(-96.0, {0.0, 41.5, 41.5})).lasting_heat.has_value());
  }
}

TEST(LastingHeat, IsAskedAboutWhereTheLoggerMayNotHaveBeenInItYet) {
  for (const Held held : {Held::air, Held::coil}) {
    const LogAnalysis log = log_of(held, in_hours(5.0, {0.0, 50.0, 44.0}));
    ASSERT_TRUE(log.lasting_heat.has_value());
    EXPECT_EQ(log.lasting_heat->ground, HeatGround::hot_before_cold);
    EXPECT_FALSE(log.lasting_heat->is_sure());
  }
  // The freezer ran on while the loggers lay outside.
  const LogAnalysis log = log_of(Held::all, [](double second) {
    Shown shown = well(second);
    shown.coil = shown.air = 50.0;
    return second < 5.0 * hour ? std::optional<Shown>(shown) : std::nullopt;
  });
  ASSERT_TRUE(log.lasting_heat.has_value());
  EXPECT_EQ(log.lasting_heat->ground, HeatGround::hot_before_cold);
  EXPECT_GT(log.run_count, 100U);  // and is judged
  // Later, a hot probe beside a cabinet that stays frozen for hours.
  const LogAnalysis outside = log_of(Held::all, [](double second) {
    Shown shown = well(second);
    shown.coil = 47.0;
    return second > 50.0 * hour && second < 55.0 * hour ? std::optional<Shown>(shown) : std::nullopt;
  });
  ASSERT_TRUE(outside.lasting_heat.has_value());
  EXPECT_EQ(outside.lasting_heat->ground, HeatGround::hot_beside_cold_air);
}

TEST(LastingHeat, IsSureWhereItWasColdBeforeOrALoadFlows) {
  // Heater and compressor at once, by the air alone, and beside their load.
  const auto both = in_hours(-40.0, {568.0, 55.0, 42.0});
  EXPECT_EQ(log_of(Held::air, both).lasting_heat.value().ground, HeatGround::hot_air);
  EXPECT_TRUE(log_of(Held::power_and_air, both).lasting_heat.value().is_sure());
  EXPECT_TRUE(log_of(Held::all, both).lasting_heat.value().is_sure());
  EXPECT_EQ(log_of(Held::coil, both).lasting_heat.value().ground, HeatGround::hot_coil);
  // From the first row on, and ever after.
  EXPECT_EQ(log_of(Held::air, in_hours(96.0, {568.0, 55.0, 42.0})).lasting_heat.value().ground, HeatGround::hot_air);
  // A limit that opens now and then cuts the load into pieces too short for its own rule; the coil is hot all the same.
  const LogAnalysis limited = log_of(Held::all, [](double second) {
    const bool heats = std::fmod(second, 1800.0) < 1200.0;
    return second < 5.0 * hour ? std::optional<Shown>({heats ? 450.0 : 2.0, 55.0, 20.0}) : std::nullopt;
  });
  EXPECT_EQ(limited.lasting_heat.value().ground, HeatGround::hot_coil);
}

// What was unplugged while it was hot stays warm for hours without a load: the load flowed while it warmed.
TEST(LastingHeat, IsNotForgottenWhereItWasCutOff) {
  const LogAnalysis log = log_of(Held::power_and_air, [](double second) {
    const double since = second - 80.0 * hour;
    if (since < 0.0) return std::optional<Shown>();
    if (since < 1.9 * hour) return std::optional<Shown>({450.0, 60.0, -18.0 + 38.0 * since / hour});
    return std::optional<Shown>({0.0, 40.0, 54.0 - 1.0 * (since / hour - 1.9)});
  });
  ASSERT_TRUE(log.lasting_heat.has_value());
  EXPECT_TRUE(log.lasting_heat->is_sure());
}

// By the power alone: a heater is on beside a compressor that still cycles, and between its runs no standby comes any
// more. Whether it is the compressor cannot be told: it is asked about.
TEST(LastingHeat, IsAskedAboutWhereALoadThatHadRestedNeverDoesAgain) {
  const auto both = [](double from_hour, double to_hour) {
    return [=](double second) {
      Shown shown = well(second);
      shown.watt += 180.0;
      const bool is_odd = second >= from_hour * hour && second < to_hour * hour;
      return is_odd ? std::optional<Shown>(shown) : std::nullopt;
    };
  };
  const LogAnalysis log = log_of(Held::power, both(60.0, 96.0));
  ASSERT_TRUE(log.lasting_heat.has_value());
  EXPECT_NEAR(log.lasting_heat->second(), 36.0 * hour, hour);
  const std::vector<LogVerdict> verdicts = judge_log(log, {});
  EXPECT_NE(find_verdict(verdicts, "heat-stops")->outcome, Outcome::within_limits);
  EXPECT_TRUE(leaves_a_question(log, verdicts) || asks_for_a_test(verdicts));
  EXPECT_FALSE(log_of(Held::power, in_hours(1.0, {118.0, 0.0, 0.0})).lasting_heat.has_value());
}

/// A heater of so many watts is on beside the compressor from that hour on; the coil thaws where the compressor pauses,
/// or rises each eight hours as in a defrost alone.
auto heater_beside(double watt, double from_hour, bool thaws) {
  return [=](double second) {
    if (second < from_hour * hour) return std::optional<Shown>();
    Shown shown = well(second);
    const double in_cycle = std::fmod(second, 3000.0);
    const double in_defrost = std::fmod(second, 8.0 * hour) - 4.0 * hour;
    if (thaws && in_cycle >= 1500.0) shown.coil = -24.0 + 32.0 * (in_cycle - 1500.0) / 1500.0;
    if (in_defrost >= 0.0 && in_defrost < 2400.0) {
      shown.watt = 2.0;
      shown.coil = in_defrost < 1200.0 ? std::min(0.5 * std::floor(in_defrost / 60.0) - 5.0, 12.0)
                                       : 12.0 - 30.0 * (in_defrost - 1200.0) / 1200.0;
    }
    shown.watt += watt;
    return std::optional<Shown>(shown);
  };
}

// A relay welded before the logger was laid in: the load rests on the heater's watts, and no rise shows another draw.
TEST(LastingHeat, BesideACompressorFromTheFirstRowOnIsNoHeaterThatDoesNotDraw) {
  for (const Held held : {Held::all, Held::power}) {
    const LogAnalysis log = log_of(held, heater_beside(250.0, 0.0, false));
    ASSERT_TRUE(log.lasting_heat.has_value());
    const std::vector<LogVerdict> verdicts = judge_log(log, {});
    EXPECT_NE(find_verdict(verdicts, "heat-comes-from-heater")->outcome, Outcome::out_of_limits);
    EXPECT_TRUE(find_verdict(verdicts, "heat-stops")->asks);
  }
  // A freezer's coil that thaws whenever the compressor stands is heated, from the first row or from a later one on.
  for (const double from_hour : {0.0, 40.0}) {
    const LogAnalysis log = log_of(Held::all, heater_beside(150.0, from_hour, true));
    ASSERT_TRUE(log.lasting_heat.has_value()) << from_hour;
    EXPECT_EQ(log.lasting_heat->ground, HeatGround::thaws_beside_load) << from_hour;
    EXPECT_TRUE(asks_for_a_test(judge_log(log, {})));
  }
  // What draws less than any heater, as door heaters and fans do, is none.
  EXPECT_FALSE(log_of(Held::all, heater_beside(60.0, 0.0, false)).lasting_heat.has_value());
}

// 300 W of something for nine hours of the second day, and then two days as before.
TEST(LastingHeat, ThatStoppedIsToldAsPast) {
  const LogAnalysis log = log_of(Held::power, [](double second) {
    const bool is_odd = second >= 30.0 * hour && second < 39.0 * hour;
    return is_odd ? std::optional<Shown>({300.0 + std::sin(second), 0.0, 0.0}) : std::nullopt;
  });
  ASSERT_TRUE(log.lasting_heat.has_value());
  EXPECT_TRUE(log.lasting_heat->has_stopped);
  EXPECT_FALSE(log.lasting_heat->is_sure());
  const std::vector<LogVerdict> verdicts = judge_log(log, {});
  EXPECT_EQ(find_verdict(verdicts, "heat-stops")->text, "heated-and-stopped");
  EXPECT_TRUE(leaves_a_question(log, verdicts));
}

// Rows of an hour: one start of the compressor makes the level of four of them.
TEST(LastingHeat, InRowsOfAnHourIsAskedAbout) {
  std::vector<LogRow> rows;
  for (int i = 0; i < 96; ++i) {
    rows.push_back({});
    rows.back().time_second = 3600.0 * i;
    const double pulled_down[] = {763.0, 149.0, 146.0, 144.0};
    rows.back().value[index_of(LogQuantity::power)] = i < 4 ? pulled_down[i] : (i % 3 == 0 ? 75.0 : 2.0 + i % 2);
  }
  const LogAnalysis analysis = of_rows(rows);
  if (analysis.lasting_heat) {
    EXPECT_FALSE(analysis.lasting_heat->is_sure());
  }
  EXPECT_FALSE(asks_for_a_test(judge_log(analysis, {})));
}

}  // namespace
}  // namespace ohmwright::cycles
