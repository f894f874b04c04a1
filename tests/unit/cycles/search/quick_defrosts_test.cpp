// What ended defrosts that look alike: a sharp thermostat with a strong heater on little frost makes equal lengths,
// too.
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/cycles/search/defrosts_in_common.hpp>
#include <ohmwright/cycles/search/end_causes.hpp>

namespace ohmwright::cycles {
namespace {

struct SeenEnd {
  double second = 0.0;
  double end_celsius = 0.0;
  double plateau_second = 0.0;
};

/// Defrosts of which the heater was seen, or else only the coil's rise.
std::vector<Defrost> ended(bool heater_is_seen, const std::vector<SeenEnd>& ends) {
  std::vector<Defrost> defrosts;
  for (const SeenEnd& end : ends) {
    Defrost one;
    one.end_second = end.second;
    one.has_coil = one.rise_is_seen = true;
    one.heater_is_seen = one.has_load = heater_is_seen;
    one.end_kelvin = one.peak_kelvin = melting_point_kelvin + end.end_celsius;
    one.plateau_second = end.plateau_second;
    if (end.plateau_second > 0.0) one.plateau_start_second = 0.4 * end.second;
    defrosts.push_back(one);
  }
  return defrosts;
}

void expect_no_time_limit(std::vector<Defrost> defrosts, double spacing_second, const LogRatings& ratings = {}) {
  tell_end_causes(ratings, spacing_second, defrosts);
  for (const Defrost& one : defrosts) EXPECT_NE(one.cause, EndCause::time_limit) << one.end_second;
}

LogRatings limited_to(double second) {
  LogRatings ratings;
  ratings.time_limit_second = second;
  return ratings;
}

const std::vector<SeenEnd> of_600_watt{{625, 12.6},      {742, 12.3}, {680, 7.7, 106},  {738, 10.3}, {682, 9.9},
                                       {740, 10.9, 105}, {676, 10.6}, {737, 11.9, 107}, {678, 12.0}, {743, 11.4, 106}};

TEST(QuickDefrosts, OfTheCoilAloneAreNotOfATimeLimit) {
  expect_no_time_limit(ended(false, of_600_watt), 60.0);
  expect_no_time_limit(ended(false, of_600_watt), 60.0, limited_to(2700.0));
}

// 24 and 28 minutes in rows of four: each length holds rows in which the coil warms by many kelvins.
TEST(QuickDefrosts, InRowsThatStepOverTheWarmingAreNotOfATimeLimit) {
  expect_no_time_limit(ended(true, {{1440, 8.9},
                                    {1440, 4.8},
                                    {1680, 9.2, 433},
                                    {1680, 9.6},
                                    {1680, 9.8},
                                    {1680, 7.9},
                                    {1440, 6.7},
                                    {1680, 7.8},
                                    {1680, 7.9},
                                    {1440, 9.0}}),
                       240.0);
}

// Ten minutes of 700 W in rows of five, to some of which the drip was counted: cold at that end, and warm a row before.
TEST(QuickDefrosts, WhoseEndStandsInAnotherRowAreNotOfATimeLimit) {
  std::vector<Defrost> blurred;
  for (int i = 0; i < 11; ++i) {
    blurred.push_back(ended(true, {i % 2 == 1 ? SeenEnd{600, 13.0} : SeenEnd{1800, -2.0}})[0]);
    blurred.back().peak_kelvin = melting_point_kelvin + 11.5 + 0.3 * i;
  }
  expect_no_time_limit(blurred, 300.0);
}

// Five minutes of 700 W in rows of five: no row shows the melting, and the coil may have been warm between two.
TEST(QuickDefrosts, WhoseMeltingNoRowShowsLeaveItOpen) {
  std::vector<Defrost> three = ended(false, {{900, -4.3}, {900, -6.2}, {900, -2.3}});
  tell_end_causes({}, 300.0, three);
  for (const Defrost& one : three) {
    EXPECT_EQ(one.cause, EndCause::unknown);
    EXPECT_EQ(one.ground, EndGround::still_melting);
  }
}

// A probe that warmed on by 4 K when the heater was off, and showed no melting before: its body lags behind the coil.
TEST(QuickDefrosts, OfAProbeThatWarmsOnBehindThemLeaveItOpen) {
  std::vector<Defrost> lagging = ended(true, {{300, -3.8}, {320, -4.1}, {240, -4.5}, {340, -3.9}});
  for (Defrost& one : lagging) one.peak_kelvin = *one.end_kelvin + 4.5;
  tell_end_causes({}, 10.0, lagging);
  for (const Defrost& one : lagging) EXPECT_EQ(one.cause, EndCause::unknown);
  for (Defrost& one : lagging) one.peak_kelvin = *one.end_kelvin + 0.5;
  tell_end_causes({}, 10.0, lagging);
  for (const Defrost& one : lagging) EXPECT_EQ(one.cause, EndCause::temperature);
}

// 23 minutes in rows of five are written as 25; of a limit of 30 they would be written as 30 or 35.
TEST(QuickDefrosts, OfARowLessThanTheStatedLimitAreNotOfIt) {
  expect_no_time_limit(ended(true, {{1500, 3.5, 600}, {1500, 5.0, 600}, {1500, 3.0, 600}}), 300.0, limited_to(1800.0));
}

TEST(QuickDefrosts, LongBeforeTheStatedLimitAreNotOfIt) {
  std::vector<SeenEnd> alike;
  for (const double celsius : {16.0, 14.5, 14.8, 19.9, 18.0, 13.2, 17.1}) alike.push_back({1440, celsius, 600});
  std::vector<Defrost> unstated = ended(true, alike);
  tell_end_causes({}, 60.0, unstated);
  EXPECT_EQ(unstated.front().cause, EndCause::time_limit);
  expect_no_time_limit(ended(true, alike), 60.0, limited_to(2700.0));
}

TEST(QuickDefrosts, OfOneLengthAndFarApartLeaveItOpenUntilALimitIsStated) {
  std::vector<SeenEnd> alike;
  for (const double celsius : {6.0, 22.0, 12.0, 18.0, 8.0}) alike.push_back({600, celsius, 200});
  std::vector<Defrost> rises = ended(false, alike);
  tell_end_causes({}, 10.0, rises);
  EXPECT_EQ(rises[0].cause, EndCause::unknown);
  EXPECT_EQ(rises[0].ground, EndGround::equal_durations);
  tell_end_causes(limited_to(610.0), 10.0, rises);
  EXPECT_EQ(rises[0].cause, EndCause::time_limit);
}

// Opens at 2 and at 3.5 degC, where it should at 12: lengths of several rows are not those of a limit.
TEST(QuickDefrosts, ThatEndedBelowTheRatedEndAtSeveralLengthsAreNotOfATimeLimit) {
  LogRatings ratings;
  ratings.end_temperature_kelvin = melting_point_kelvin + 12.0;
  for (const std::vector<double>& lengths :
       {std::vector<double>{540, 600, 660, 720, 720, 720, 720, 720, 720, 720, 720, 780},
        std::vector<double>{660, 720, 780, 780, 780, 840, 780, 720, 840, 720, 780, 780}}) {
    std::vector<SeenEnd> ends;
    for (const double second : lengths) ends.push_back({second, 2.6, 160});
    expect_no_time_limit(ended(true, ends), 60.0, ratings);
  }
  std::vector<SeenEnd> alike(6, SeenEnd{720, 2.6, 160});
  alike.back().second = 660;
  std::vector<Defrost> limited = ended(true, alike);
  tell_end_causes(ratings, 60.0, limited);
  EXPECT_EQ(limited.front().cause, EndCause::time_limit);
}

// Warmed past the rated end at one temperature and one length: the probe beside the heater, or a sensor that is off.
TEST(QuickDefrosts, PastTheRatedEndAtOneTemperatureLeaveItOpen) {
  LogRatings ratings;
  ratings.end_temperature_kelvin = melting_point_kelvin + 12.0;
  std::vector<Defrost> late = ended(true, {{960, 37.0, 200}, {960, 37.4, 200}, {1000, 36.8, 200}, {960, 37.1, 200}});
  tell_end_causes(ratings, 60.0, late);
  for (const Defrost& one : late) EXPECT_EQ(one.cause, EndCause::unknown);
  EXPECT_EQ(late[0].ground, EndGround::past_rated);
}

// Twenty minutes to 32 degC in rows of five, where 12 should end them: more than a row warms.
TEST(QuickDefrosts, FarPastTheRatedEndInRowsOfMinutesLeaveItOpen) {
  LogRatings ratings;
  ratings.end_temperature_kelvin = melting_point_kelvin + 12.0;
  std::vector<Defrost> late = ended(true, {{1200, 31.7}, {1200, 31.9}, {1200, 31.2}, {1200, 31.7}});
  tell_end_causes(ratings, 300.0, late);
  for (const Defrost& one : late) EXPECT_EQ(one.ground, EndGround::past_rated);
}

TEST(QuickDefrosts, BesideAProbeThatStaysFarBelowMeltingAreNotJudgedByIt) {
  std::vector<Defrost> off = ended(true, {{780, -15.3}, {720, -15.9}, {840, -15.1}, {780, -16.0}});
  tell_end_causes({}, 60.0, off);
  for (const Defrost& one : off) {
    EXPECT_TRUE(stayed_far_below_melting(one));
    EXPECT_EQ(one.cause, EndCause::unknown);
  }
  EXPECT_FALSE(stayed_far_below_melting(ended(true, {{240, -15.3}})[0]));
}

}  // namespace
}  // namespace ohmwright::cycles
