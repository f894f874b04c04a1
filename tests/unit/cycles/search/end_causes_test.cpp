#include <utility>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/cycles/search/end_causes.hpp>

namespace ohmwright::cycles {
namespace {

Defrost lasting(double seconds) {
  Defrost defrost;
  defrost.end_second = seconds;
  defrost.heater_is_seen = true;
  return defrost;
}

Defrost with_coil(double seconds, double end_celsius) {
  Defrost defrost = lasting(seconds);
  defrost.has_coil = true;
  defrost.rise_is_seen = true;
  defrost.end_kelvin = melting_point_kelvin + end_celsius;
  defrost.peak_kelvin = defrost.end_kelvin;
  return defrost;
}

std::vector<Defrost> told(std::vector<Defrost> defrosts, const LogRatings& ratings = {}) {
  tell_end_causes(ratings, 10.0, defrosts);
  return defrosts;
}

/// An evenly used freezer has even frost: lengths alone show nothing, neither alike nor unlike.
TEST(EndCause, OfLengthsAloneIsNotShown) {
  for (const auto& lengths : {std::vector<double>{900, 905, 900, 900, 900}, std::vector<double>{700, 905, 820}})
    for (const Defrost& one : [&] {
           std::vector<Defrost> defrosts;
           for (const double second : lengths) defrosts.push_back(lasting(second));
           return told(defrosts);
         }())
      EXPECT_EQ(one.cause, EndCause::unknown);
}

TEST(EndCause, OfLengthsAloneIsTheTimeLimitThatWasStated) {
  LogRatings ratings;
  ratings.time_limit_second = ratings.time_limit_least_second = 900.0;
  const std::vector<Defrost> three = told({lasting(900), lasting(905), lasting(600)}, ratings);
  EXPECT_EQ(three[0].ground, EndGround::rated_time);
  EXPECT_EQ(three[1].cause, EndCause::time_limit);
  EXPECT_EQ(three[2].cause, EndCause::temperature);
}

/// 45 minutes each, as the limit that was stated, at ends that never get to the rated one.
TEST(EndCause, OfAllThatTookTheStatedLimitIsNotTheTemperature) {
  const auto all = [](const LogRatings& ratings) {
    std::vector<Defrost> defrosts;
    for (const double celsius : {9.1, 9.4, 10.2, 9.8, 9.3}) {
      defrosts.push_back(with_coil(2700.0, celsius));
      defrosts.back().plateau_start_second = 600.0;
      defrosts.back().plateau_second = 1200.0;
    }
    return told(std::move(defrosts), ratings);
  };
  LogRatings limited;
  limited.time_limit_second = limited.time_limit_least_second = 2700.0;
  for (const Defrost& one : all(limited)) EXPECT_EQ(one.cause, EndCause::time_limit);
  LogRatings rated = limited;
  rated.end_temperature_kelvin = melting_point_kelvin + 13.0;
  for (const Defrost& one : all(rated)) EXPECT_EQ(one.cause, EndCause::time_limit);
  rated.end_temperature_kelvin = melting_point_kelvin + 9.5;  // this one they get to
  for (const Defrost& one : all(rated)) EXPECT_EQ(one.ground, EndGround::rated_temperature);
}

/// 24 minutes each, and ends 7 K apart, where the coil warms by 2 K a row: no thermostat ends so.
TEST(EndCause, OfOneLengthAndEndsFurtherApartThanARowWarmsIsTheTimeLimit) {
  const auto all_of_24_min = [](const std::vector<double>& ends) {
    std::vector<Defrost> defrosts;
    for (const double celsius : ends) {
      defrosts.push_back(with_coil(1440.0, celsius));
      defrosts.back().plateau_start_second = 360.0;
      defrosts.back().plateau_second = 600.0;  // so it warms for 480 s behind the melting
    }
    tell_end_causes({}, 60.0, defrosts);
    return defrosts;
  };
  for (const Defrost& one : all_of_24_min({16.0, 14.5, 14.8, 19.9, 18.0, 13.2, 17.1}))
    EXPECT_EQ(one.cause, EndCause::time_limit);
  for (const Defrost& one : all_of_24_min({15.0, 14.5, 14.8, 15.9, 15.2, 14.2, 15.1}))
    EXPECT_EQ(one.cause, EndCause::temperature);
  for (const Defrost& one : all_of_24_min({15.0, 14.5, 14.8, 17.6, 15.2, 14.0, 15.1}))
    EXPECT_EQ(one.cause, EndCause::unknown);
}

/// A hot coil gives off what its heater gives: it warms far more slowly at the end than behind the melting.
TEST(EndCause, IsTheTimeLimitWhereTheCoilHardlyWarmedAtTheEnd) {
  const auto ends_between = [](double least, double apart, const LogRatings& ratings) {
    std::vector<Defrost> defrosts;
    for (int i = 0; i < 7; ++i) {
      defrosts.push_back(with_coil(1320.0, least + apart * (i * 3 % 7) / 6.0));
      defrosts.back().plateau_start_second = 300.0;
      defrosts.back().plateau_second = 480.0;  // so it warms for 540 s behind the melting
      defrosts.back().end_slope_kelvin_per_second = 0.6 / 60.0;
    }
    tell_end_causes(ratings, 60.0, defrosts);
    return defrosts;
  };
  for (const Defrost& one : ends_between(20.0, 6.0, {})) EXPECT_EQ(one.cause, EndCause::time_limit);
  for (const Defrost& one : ends_between(20.0, 1.0, {})) EXPECT_EQ(one.cause, EndCause::temperature);
  // No sensor or thermostat ends at 36 degC; a limit that was stated does, where they end apart.
  for (const Defrost& one : ends_between(35.0, 1.0, {})) {
    EXPECT_EQ(one.cause, EndCause::unknown);
    EXPECT_EQ(one.ground, EndGround::past_melting);
  }
}

/// A control that ends after 15 to 40 minutes did not end these after 11 by the clock.
TEST(EndCause, OfColdOnesLongBeforeTheRatedLimitIsNotTheLimit) {
  LogRatings ratings;
  ratings.end_temperature_kelvin = melting_point_kelvin + 12.0;
  ratings.time_limit_least_second = 900.0;
  ratings.time_limit_second = 2400.0;
  for (const Defrost& one : told({with_coil(660, 3.1), with_coil(600, 0.4)}, ratings))
    EXPECT_EQ(one.cause, EndCause::temperature);
  EXPECT_EQ(told({with_coil(1500, 3.1)}, ratings)[0].cause, EndCause::time_limit);
}

// Times of rises in rows of five minutes are as rough as the rows: 20 and 25 min are no time limit of 22.
TEST(EndCause, IsNoTimeLimitOfRisesInRowsFarApart) {
  std::vector<Defrost> rises;
  for (const double second : {1500.0, 1200.0, 1500.0, 1200.0, 1500.0}) {
    rises.push_back(with_coil(second, 6.0 + second / 1000.0));
    rises.back().heater_is_seen = false;
    rises.back().plateau_start_second = 300.0;
    rises.back().plateau_second = second - 600.0;
  }
  LogRatings ratings;
  ratings.end_temperature_kelvin = melting_point_kelvin + 14.0;
  ratings.time_limit_second = 1320.0;
  for (const LogRatings& known : {LogRatings{}, ratings}) {
    tell_end_causes(known, 300.0, rises);
    for (const Defrost& one : rises) EXPECT_NE(one.cause, EndCause::time_limit);
  }
}

TEST(EndCause, IsTheTimeLimitWhereIceIsLeft) {
  const std::vector<Defrost> one = told({with_coil(900, 0.3)});
  EXPECT_EQ(one[0].cause, EndCause::time_limit);
  EXPECT_EQ(one[0].ground, EndGround::still_melting);
}

/// All stop at one temperature of the coil, below freezing, after very different times: no time limit does that.
TEST(EndCause, OfColdOnesOfDifferentLengthIsTheTemperatureThatWasBelieved) {
  for (const Defrost& one :
       told({with_coil(240, -3.1), with_coil(330, -3.3), with_coil(480, -3.4), with_coil(660, -3.6)})) {
    EXPECT_EQ(one.cause, EndCause::temperature);
    EXPECT_EQ(one.ground, EndGround::still_melting);
  }
  for (const Defrost& one : told({with_coil(900, -3.1), with_coil(900, -3.3), with_coil(905, -3.4)}))
    EXPECT_EQ(one.cause, EndCause::time_limit);
}

/// A thermostat that opens at 1 °C: each melted for most of its time, and no two took equally long.
TEST(EndCause, OfOnesAtTheMeltingPointOfDifferentLengthIsTheTemperature) {
  const auto melted = [](const std::vector<double>& seconds, bool heater_is_seen = true) {
    std::vector<Defrost> defrosts;
    for (const double second : seconds) {
      defrosts.push_back(with_coil(second, 1.2));
      defrosts.back().heater_is_seen = heater_is_seen;
      defrosts.back().plateau_second = 0.6 * second;
    }
    return told(defrosts);
  };
  for (const Defrost& one : melted({490, 430, 590, 500, 486, 576, 440, 408, 564})) {
    EXPECT_EQ(one.cause, EndCause::temperature);
    EXPECT_EQ(one.ground, EndGround::still_melting);
  }
  // A time limit, with one that somebody ended by hand, one whose end was seen late, and two in rises that noise blurs.
  for (const auto& limited : {std::vector<double>{900, 905, 900, 400, 900, 902},
                              std::vector<double>{565, 555, 565, 545, 780, 560, 555, 555, 560},
                              std::vector<double>{980, 906, 966, 1058, 967, 978}})
    for (const Defrost& one : melted(limited)) EXPECT_EQ(one.cause, EndCause::time_limit) << one.end_second;
  for (const Defrost& one : melted({980, 906, 966, 1058, 967, 978}, false))
    EXPECT_EQ(one.cause, EndCause::time_limit) << one.end_second;
  // Shorter than the limits of most controls, and not of one length: a thermostat that opens early may have ended them.
  for (const Defrost& one : melted({480, 480, 270, 300, 300, 480}, false)) {
    EXPECT_EQ(one.cause, EndCause::unknown) << one.end_second;
    EXPECT_EQ(one.ground, EndGround::still_melting);
  }
}

TEST(EndCause, IsNotToldWhereTheLoadShowsNoHeater) {
  std::vector<Defrost> defrosts{with_coil(2200, -10.0), with_coil(2300, -11.0), with_coil(2200, -12.0)};
  for (Defrost& one : defrosts) {
    one.heater_is_seen = false;
    one.has_load = true;
  }
  tell_end_causes({}, 10.0, defrosts);
  for (const Defrost& one : defrosts) EXPECT_EQ(one.cause, EndCause::unknown);
}

TEST(EndCause, OfOneThatRosePastMeltingIsTheTemperature) {
  const std::vector<Defrost> one = told({with_coil(900, 8.0)});
  EXPECT_EQ(one[0].cause, EndCause::temperature);
  EXPECT_EQ(one[0].ground, EndGround::past_melting);
}

TEST(EndCause, OfALittleIceAmongMuchOfOneLengthIsTheTimeLimit) {
  const std::vector<Defrost> four =
      told({with_coil(900, 0.2), with_coil(900, 0.1), with_coil(905, 5.0), with_coil(900, 0.3)});
  EXPECT_EQ(four[2].cause, EndCause::time_limit);
  EXPECT_EQ(four[2].ground, EndGround::equal_durations);
}

TEST(EndCause, OfEqualTemperaturesIsTheTemperature) {
  for (const Defrost& one : told({with_coil(900, 9.8), with_coil(700, 10.1), with_coil(820, 10.0)})) {
    EXPECT_EQ(one.cause, EndCause::temperature);
    EXPECT_EQ(one.ground, EndGround::equal_temperatures);
  }
}

/// Rows of five minutes, each edge anywhere within one: 18 to 23 minutes until the coil is at 10 °C look alike. An ice
/// maker's load, in which the coil stays cold, says nothing of the others.
TEST(EndCause, OfRowsThatAreNotSmallAgainstTheHeatingIsNotTheTimeLimit) {
  std::vector<Defrost> defrosts{with_coil(1200, 9.6), with_coil(900, 10.1), with_coil(900, 7.5),
                                with_coil(900, 9.3),  with_coil(1200, 8.8), with_coil(600, -27.3)};
  defrosts.back().rise_is_seen = false;
  tell_end_causes({}, 300.0, defrosts);
  for (std::size_t i = 0; i < 5; ++i) EXPECT_EQ(defrosts[i].cause, EndCause::temperature) << i;
  // At temperatures far apart the log cannot show it.
  defrosts = {with_coil(900, 4.0), with_coil(900, 20.0), with_coil(900, 9.0)};
  tell_end_causes({}, 300.0, defrosts);
  EXPECT_EQ(defrosts[0].cause, EndCause::unknown);
}

TEST(EndCause, FollowsTheRatings) {
  LogRatings ratings;
  ratings.end_temperature_kelvin = melting_point_kelvin + 10.0;
  ratings.time_limit_second = 1800.0;
  EXPECT_EQ(told({with_coil(900, 9.0)}, ratings)[0].ground, EndGround::rated_temperature);
  EXPECT_EQ(told({with_coil(1800, 4.0)}, ratings)[0].ground, EndGround::below_rated);
  EXPECT_EQ(told({lasting(1800)}, ratings)[0].ground, EndGround::rated_time);
  EXPECT_EQ(told({lasting(900)}, ratings)[0].cause, EndCause::temperature);
}

/// What a rating says is held against a probe that lies elsewhere: near it nothing is condemned, far from it it is
/// asked.
TEST(EndCause, FarFromARatingIsLeftOpenAndNearItTheProbeMayLieElsewhere) {
  LogRatings ratings;
  ratings.end_temperature_kelvin = melting_point_kelvin + 14.0;
  EXPECT_EQ(told({with_coil(900, 9.4)}, ratings)[0].cause, EndCause::temperature);
  EXPECT_EQ(told({with_coil(900, 5.0)}, ratings)[0].cause, EndCause::unknown);
  EXPECT_EQ(told({with_coil(900, 5.0)}, ratings)[0].ground, EndGround::below_rated);
  ratings.time_limit_second = 1800.0;  // that none of them reached
  EXPECT_EQ(told({with_coil(900, 5.0)}, ratings)[0].ground, EndGround::below_rated);
  EXPECT_EQ(told({with_coil(900, 32.0)}, ratings)[0].cause, EndCause::unknown);
  EXPECT_EQ(told({with_coil(900, 32.0)}, ratings)[0].ground, EndGround::past_rated);
}

TEST(EndCause, OfOneThatIsCutIsUnknown) {
  Defrost cut = with_coil(900, 8.0);
  cut.is_cut = true;
  EXPECT_EQ(told({cut})[0].cause, EndCause::unknown);
}

TEST(EndCause, HasNames) {
  EXPECT_EQ(name_of(EndCause::time_limit), "time-limit");
  EXPECT_EQ(name_of(EndGround::still_melting), "still-melting");
}

}  // namespace
}  // namespace ohmwright::cycles
