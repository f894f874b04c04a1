#pragma once

#include <algorithm>
#include <cmath>
#include <string_view>

#include <gtest/gtest.h>

#include <ohmwright/cycles/verdicts/log_rules.hpp>
#include <ohmwright/cycles/verdicts/repair.hpp>

namespace ohmwright::cycles::testing_support {

constexpr double hour = 3600.0;

/// A whole defrost of 20 minutes that ended at 10 °C by temperature, seen in load and coil.
inline Defrost good_defrost(double start_second) {
  Defrost one;
  one.start_second = start_second;
  one.end_second = start_second + 1200.0;
  one.heater_is_seen = one.has_load = one.has_coil = one.rise_is_seen = true;
  one.heater_load = 450.0;
  one.plateau_start_second = start_second + 300.0;
  one.plateau_second = 500.0;
  one.plateau_uncertainty_second = 24.0;
  one.end_kelvin = one.peak_kelvin = one.lasting_peak_kelvin = melting_point_kelvin + 10.0;
  one.cause = EndCause::temperature;
  one.ground = EndGround::rated_temperature;
  one.drip_second = 420.0;
  one.recovery_second = 2.0 * hour;
  one.frost = FrostMass{0.4, 0.07};
  return one;
}

/// A log of load, coil and cabinet, a row a minute, with a good defrost every `interval_hour`, half of it running.
inline LogAnalysis good_log(int defrosts, double interval_hour = 10.0) {
  LogAnalysis log;
  log.has_load = log.has_coil = log.has_cabinet = true;
  log.coverage.spacing_second = 60.0;
  log.coverage.span_second = (defrosts * interval_hour + 0.5 * interval_hour) * hour;
  log.coverage.observed_second = log.coverage.span_second;
  for (const LogQuantity quantity :
       {LogQuantity::power, LogQuantity::coil_temperature, LogQuantity::cabinet_temperature})
    log.coverage.logged_second[index_of(quantity)] = log.coverage.span_second;
  log.run_share = 0.5;
  log.run_count = 100;
  log.typical_run_second = 1500.0;
  log.typical_pause_second = 1500.0;
  log.cabinet_mean_kelvin = melting_point_kelvin - 18.0;
  for (int i = 0; i < defrosts; ++i) {
    Defrost one = good_defrost((i + 0.5) * interval_hour * hour);
    if (i > 0) {
      one.interval_second = interval_hour * hour;
      one.interval_running_second = 0.5 * interval_hour * hour;
    }
    log.defrosts.push_back(one);
  }
  log.defrost_count = log.defrosts.size();
  log.running_second = 0.5 * log.coverage.span_second;
  const double open = 0.5 * interval_hour * hour;
  log.before_first = {open, 0.5 * open, 0.0};
  log.after_last = {open, 0.5 * open, 0.0};
  return log;
}

/// Ratings of that log's appliance: 450 W at 120 V, ends at 10 °C, every 4 to 16 h of running.
inline LogRatings its_ratings() {
  LogRatings ratings;
  ratings.line_volt = ratings.heater_volt = 120.0;
  ratings.line_half_width_volt = 1.0;
  ratings.heater_watt = RatedBand{450.0, 405.0, 495.0};
  ratings.end_temperature_kelvin = melting_point_kelvin + 10.0;
  ratings.interval_least_second = 4.0 * hour;
  ratings.interval_most_second = 16.0 * hour;
  ratings.interval_counts_running = true;
  return ratings;
}

/// What a rule says of it.
inline LogVerdict said(std::string_view rule, const LogAnalysis& log, const LogRatings& ratings = its_ratings()) {
  const std::vector<LogVerdict> verdicts = judge_log(log, ratings);
  const LogVerdict* verdict = find_verdict(verdicts, rule);
  return verdict == nullptr ? LogVerdict{} : *verdict;
}

inline void expect_says(std::string_view rule, const LogAnalysis& log, Outcome outcome, std::string_view text,
                        const LogRatings& ratings = its_ratings()) {
  const LogVerdict verdict = said(rule, log, ratings);
  EXPECT_EQ(verdict.outcome, outcome) << rule << " " << verdict.text << " " << verdict.probability;
  EXPECT_EQ(verdict.text, text) << rule;
  EXPECT_TRUE(outcome == Outcome::out_of_limits || verdict.symptoms.empty()) << rule;
  for (const std::string_view symptom : verdict.symptoms)
    EXPECT_NE(std::find(log_symptoms.begin(), log_symptoms.end(), symptom), log_symptoms.end()) << symptom;
}

}  // namespace ohmwright::cycles::testing_support
