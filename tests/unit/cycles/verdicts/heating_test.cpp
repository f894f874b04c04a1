// What heats, how it ends and what it melts: from values made by hand.
#include <ohmwright/cycles/verdicts/odd_ones.hpp>

#include "made_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

// Binomial tails at 1 in 20, by hand: 1 of 1 0.05; 1 of 2 0.0975; 2 of 4 0.0140; 2 of 60 1 - 0.95^60 - 60·0.05·0.95^59.
TEST(OddOnes, AreAsManyByChance) {
  EXPECT_NEAR(probability_of_as_many({1.0, 1.0}), 0.05, 1e-12);
  EXPECT_NEAR(probability_of_as_many({2.0, 1.0}), 0.0975, 1e-12);
  EXPECT_NEAR(probability_of_as_many({4.0, 2.0}), 0.01401875, 1e-9);
  EXPECT_NEAR(probability_of_as_many({60.0, 2.0}), 1.0 - std::pow(0.95, 60.0) - 60.0 * 0.05 * std::pow(0.95, 59.0),
              1e-12);
  EXPECT_EQ(probability_of_as_many({8.0, 0.0}), 1.0);
}

LogAnalysis with_odd(int all, int odd, void (*make_odd)(Defrost&)) {
  LogAnalysis log = good_log(all);
  for (int i = 0; i < odd; ++i) make_odd(log.defrosts[static_cast<std::size_t>(all - 1 - i)]);
  return log;
}

void ends_late(Defrost& one) {
  one.cause = EndCause::time_limit;
  one.ground = EndGround::below_rated;
}
void ends_early(Defrost& one) {
  one.cause = EndCause::temperature;
  one.ground = EndGround::still_melting;
  one.plateau_second = 100.0;
}
void draws_nothing(Defrost& one) { one.heater_is_seen = false; }
void does_not_rise(Defrost& one) { one.rise_is_seen = false; }
void gets_hot(Defrost& one) { one.lasting_peak_kelvin = melting_point_kelvin + 60.0; }
void shows_a_slip(Defrost& one) { one.peak_kelvin = melting_point_kelvin + 70.0; }

TEST(DefrostEnd, CondemnsWhatChanceDoesNotExplain) {
  expect_says("defrost-end", good_log(8), Outcome::within_limits, "by-temperature");
  expect_says("defrost-end", with_odd(8, 8, ends_late), Outcome::out_of_limits, "by-time");
  expect_says("defrost-end", with_odd(8, 4, ends_late), Outcome::out_of_limits, "by-time");  // from half-way on
  expect_says("defrost-end", with_odd(60, 2, ends_late), Outcome::undecided, "some-by-time");
  expect_says("defrost-end", with_odd(8, 1, ends_late), Outcome::undecided, "some-by-time");
  expect_says("defrost-end", with_odd(8, 8, ends_early), Outcome::out_of_limits, "too-early");
  expect_says("defrost-end", with_odd(60, 2, ends_early), Outcome::undecided, "some-too-early");
}

TEST(DefrostEnd, IsNotThatOfDefrostsInWhichNothingHeated) {
  LogAnalysis log = good_log(8);
  for (Defrost& one : log.defrosts) {
    ends_late(one);
    draws_nothing(one);
  }
  expect_says("defrost-end", log, Outcome::silent, "not-shown");
  // Where the load had a hole it may have heated.
  for (Defrost& one : log.defrosts) one.has_load = false;
  expect_says("defrost-end", log, Outcome::out_of_limits, "by-time");
}

TEST(CoilHeat, IsARuleOfItsOwn) {
  expect_says("coil-heat", good_log(8), Outcome::within_limits, "cool-enough");
  LogAnalysis late_and_hot = with_odd(8, 8, ends_late);
  for (Defrost& one : late_and_hot.defrosts) gets_hot(one);
  expect_says("coil-heat", late_and_hot, Outcome::out_of_limits, "too-hot");
  expect_says("defrost-end", late_and_hot, Outcome::out_of_limits, "by-time");
}

TEST(CoilHeat, OfOneRowIsASlipAndOfOneDefrostLeftOpen) {
  expect_says("coil-heat", with_odd(40, 1, shows_a_slip), Outcome::within_limits, "cool-enough");
  expect_says("coil-heat", with_odd(40, 1, gets_hot), Outcome::undecided, "too-hot");
}

TEST(CoilHeat, WithoutRatingsHasItsOwnLimit) {
  LogAnalysis log = good_log(8);
  for (Defrost& one : log.defrosts) one.lasting_peak_kelvin = melting_point_kelvin + 44.0;
  expect_says("coil-heat", log, Outcome::within_limits, "cool-enough", {});
  for (Defrost& one : log.defrosts) one.lasting_peak_kelvin = melting_point_kelvin + 46.0;
  expect_says("coil-heat", log, Outcome::out_of_limits, "too-hot", {});
  log.has_coil = false;
  for (Defrost& one : log.defrosts) one.lasting_peak_kelvin.reset();
  expect_says("coil-heat", log, Outcome::silent, "no-coil", {});
}

TEST(HeaterWarmsCoil, OrTheSensorIsElsewhere) {
  expect_says("heater-warms-coil", good_log(8), Outcome::within_limits, "warms");
  expect_says("heater-warms-coil", with_odd(8, 8, does_not_rise), Outcome::out_of_limits, "no-rise");
  expect_says("heater-warms-coil", with_odd(8, 1, does_not_rise), Outcome::undecided, "no-rise");
  LogAnalysis hole = with_odd(8, 4, does_not_rise);
  for (Defrost& one : hole.defrosts)
    if (!one.rise_is_seen) one.has_coil = false;  // the logger's battery was empty
  expect_says("heater-warms-coil", hole, Outcome::within_limits, "warms");
}

TEST(HeatComesFromHeater, WhereTheLoadWasLogged) {
  expect_says("heat-comes-from-heater", good_log(8), Outcome::within_limits, "heater-draws");
  expect_says("heat-comes-from-heater", with_odd(8, 8, draws_nothing), Outcome::out_of_limits, "no-heater");
  expect_says("heat-comes-from-heater", with_odd(8, 1, draws_nothing), Outcome::undecided, "no-heater");
  LogAnalysis hole = with_odd(8, 4, draws_nothing);
  for (Defrost& one : hole.defrosts)
    if (!one.heater_is_seen) one.has_load = false;
  expect_says("heat-comes-from-heater", hole, Outcome::within_limits, "heater-draws");
}

// Heatings of 20 min: rows of 5 min they fill with four, of 7 min with fewer.
TEST(HeatingRules, CondemnNoHeatingThatFillsFewRows) {
  for (const double spacing_second : {300.0, 420.0}) {
    const bool tells = spacing_second <= 300.0;
    const Outcome outcome = tells ? Outcome::out_of_limits : Outcome::undecided;
    LogAnalysis cold = with_odd(8, 8, does_not_rise);
    LogAnalysis unheated = with_odd(8, 8, draws_nothing);
    cold.coverage.spacing_second = unheated.coverage.spacing_second = spacing_second;
    expect_says("heater-warms-coil", cold, outcome, tells ? "no-rise" : "rows-too-far");
    expect_says("heat-comes-from-heater", unheated, outcome, tells ? "no-heater" : "rows-too-far");
  }
  // Where each was seen whole, few rows speak for it all the same.
  LogAnalysis good = good_log(8);
  good.coverage.spacing_second = 420.0;
  expect_says("heater-warms-coil", good, Outcome::within_limits, "warms");
  expect_says("heat-comes-from-heater", good, Outcome::within_limits, "heater-draws");
}

TEST(DefrostEnd, IsNotToldByRowsTooFarApart) {
  LogAnalysis log = good_log(8);
  for (Defrost& one : log.defrosts) one.cause = EndCause::unknown;
  expect_says("defrost-end", log, Outcome::undecided, "not-told");
  log.coverage.spacing_second = 420.0;
  expect_says("defrost-end", log, Outcome::undecided, "rows-too-far");
}

TEST(HeaterPower, IsLeftOpenWhereItsHeatingsFillFewRows) {
  LogAnalysis log = good_log(8);
  const Defrost& first = log.defrosts.front();
  log.coverage.spacing_second = (first.end_second - first.start_second) / 3.0;
  EXPECT_EQ(said("heater-power", log).text, "rows-too-far");
  EXPECT_NE(said("heater-power", log).outcome, Outcome::out_of_limits);
  // A rise of the coil of an hour in rows of 12 min: the heater drew in two or three of them.
  for (Defrost& one : log.defrosts) {
    one.end_second = one.start_second + 3600.0;
    one.heater_load = 200.0;
  }
  log.has_coil = true;
  log.coverage.spacing_second = 720.0;
  expect_says("heater-power", log, Outcome::silent, "rows-too-far");
}

TEST(HeaterPower, OnBothSidesOfItsBand) {
  const auto drawing = [](double watt) {
    LogAnalysis log = good_log(8);
    for (Defrost& one : log.defrosts) one.heater_load = watt;
    return log;
  };
  expect_says("heater-power", drawing(450.0), Outcome::within_limits, "right");
  expect_says("heater-power", drawing(225.0), Outcome::out_of_limits, "too-little");
  expect_says("heater-power", drawing(600.0), Outcome::out_of_limits, "too-much");
  expect_says("heater-power", drawing(405.0), Outcome::undecided, "unsettled");
  LogRatings unknown_line = its_ratings();
  unknown_line.line_volt.reset();
  expect_says("heater-power", good_log(8), Outcome::silent, "no-line", unknown_line);
  expect_says("heater-power", good_log(8), Outcome::silent, "no-ratings", {});
}

// Adaptive: the intervals lengthen from 5 to 15 h, and an hour's frost stays what it is.
TEST(FrostLoad, IsThatOfAnHourNotOfADefrost) {
  LogAnalysis adaptive = good_log(9);
  LogAnalysis growing = good_log(9);
  const double wobble[] = {1.02, 0.99, 1.01, 0.98, 1.0, 1.02, 0.99, 1.01, 0.98};
  for (std::size_t i = 1; i < 9; ++i) {
    const double running_hour = 4.0 + 1.3 * static_cast<double>(i);
    adaptive.defrosts[i].interval_running_second = running_hour * hour;
    adaptive.defrosts[i].frost->kilogram = 0.043 * running_hour * wobble[i];
    // A control that shortens its intervals hides the mass, not the mass of an hour.
    growing.defrosts[i].interval_running_second = 40.0 / (4.0 + static_cast<double>(i)) * hour;
    growing.defrosts[i].frost->kilogram = 0.4 * wobble[i];
  }
  expect_says("frost-load", adaptive, Outcome::within_limits, "steady");
  expect_says("frost-load", growing, Outcome::out_of_limits, "grows");
}

TEST(FrostLoad, KeepsOneMeasureForAll) {
  LogAnalysis log = good_log(9);
  for (std::size_t i = 5; i < 9; ++i) log.defrosts[i].frost.reset();  // unmetered: their plateaus are no kilograms
  const LogVerdict verdict = said("frost-load", log);
  EXPECT_EQ(verdict.outcome, Outcome::within_limits);
  EXPECT_EQ(std::get<double>(verdict.arguments[0].value), 4.0);
  expect_says("frost-load", good_log(4), Outcome::silent, "too-few");  // the first has no interval
}

TEST(AirOverCoil, IsTheDifferenceInTheRunAfterADefrost) {
  const auto differing = [](float kelvin) {
    LogAnalysis log = good_log(4);
    for (std::size_t i = 0; i < log.defrosts.size(); ++i) {
      DefrostTrace trace{i, {}};
      for (int minute = 0; minute < 180; ++minute) {
        PlotPoint point{log.defrosts[i].start_second + 60.0 * minute, 60.0, {}};
        point.value.fill(static_cast<float>(LogRow::none));
        point.value[index_of(LogQuantity::cabinet_temperature)] = 255.0F;
        point.value[index_of(LogQuantity::coil_temperature)] = 255.0F - kelvin;
        trace.points.push_back(point);
      }
      log.traces.push_back(trace);
    }
    return log;
  };
  expect_says("air-over-coil", differing(8.0F), Outcome::within_limits, "air-moves");
  expect_says("air-over-coil", differing(12.0F), Outcome::undecided, "unsettled");
  expect_says("air-over-coil", differing(20.0F), Outcome::out_of_limits, "no-air");
  LogAnalysis dead_probe = differing(20.0F);  // its column stood at one value
  for (Defrost& one : dead_probe.defrosts) one.has_coil = false;
  expect_says("air-over-coil", dead_probe, Outcome::silent, "no-recovery");
  expect_says("air-over-coil", good_log(4), Outcome::silent, "no-recovery");
}

// The coil of a freezer whose door stood open warms to -19 degC once; where it should be heated and is not, each time.
TEST(HeatComesFromHeater, IsNotJudgedByASingleRiseThatMeltsNothing) {
  const auto rises_to = [](double celsius, int count = 1) {
    LogAnalysis log = good_log(count);
    for (Defrost& one : log.defrosts) {
      one.heater_is_seen = false;
      one.end_kelvin = one.peak_kelvin = melting_point_kelvin + celsius;
    }
    return log;
  };
  expect_says("heat-comes-from-heater", rises_to(4.0), Outcome::out_of_limits, "no-heater");
  EXPECT_NE(said("heat-comes-from-heater", rises_to(-19.0)).outcome, Outcome::out_of_limits);
  expect_says("heat-comes-from-heater", rises_to(-19.0, 3), Outcome::out_of_limits, "no-heater");
}

TEST(Compressor, StopsAndStarts) {
  LogAnalysis log = good_log(8);
  expect_says("compressor-stops", log, Outcome::within_limits, "stops");
  expect_says("compressor-starts", log, Outcome::within_limits, "runs-last");
  log.never_stops = true;
  expect_says("compressor-stops", log, Outcome::out_of_limits, "never-stops");
  log.short_pulses = 50;
  expect_says("compressor-starts", log, Outcome::undecided, "short-loads");
  log.short_pulses = 200;
  expect_says("compressor-starts", log, Outcome::out_of_limits, "short-loads");
  log.short_pauses = 150;  // nothing that cannot start tries again within a minute
  expect_says("compressor-starts", log, Outcome::undecided, "short-loads");
  log.load_is_modulated = true;
  expect_says("compressor-stops", log, Outcome::undecided, "slows-down");
  log.run_share.reset();
  expect_says("compressor-stops", log, Outcome::silent, "not-shown");
}

// In rows of ten minutes a peak stands in one alone.
TEST(CoilHeat, IsSeenInSingleRowsWhereTheyAreFarApart) {
  LogAnalysis log = with_odd(8, 3, [](Defrost& one) { one.peak_kelvin = melting_point_kelvin + 60.0; });
  expect_says("coil-heat", log, Outcome::within_limits, "cool-enough", {});  // a row a minute: slips
  log.coverage.spacing_second = 600.0;
  expect_says("coil-heat", log, Outcome::out_of_limits, "too-hot", {});
  log.defrosts.back().peak_kelvin = melting_point_kelvin + 12.0;
  expect_says("coil-heat", log, Outcome::within_limits, "cool-enough", {});
}

}  // namespace
}  // namespace ohmwright::cycles
