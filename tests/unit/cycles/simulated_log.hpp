#pragma once

#include <cstdint>
#include <string>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/log_row.hpp>

namespace ohmwright::cycles::testing_support {

/// What an invented appliance and its logger are like.
struct SimulatedPlan {
  double days = 6.0;
  double spacing_second = 10.0;
  double jitter = 0.1;     ///< of the spacing
  bool averages = false;   ///< the meter writes means over its spacing, else what it sees at that instant
  double gap_share = 0.0;  ///< of rows that are missing in holes of minutes to hours
  bool has_power = true;
  bool has_coil = true;
  bool has_cabinet = false;
  double power_step_watt = 0.1;  ///< resolution
  double power_noise = 0.01;     ///< of the value
  double kelvin_noise = 0.1;

  double standby_watt = 3.0;
  double running_watt = 120.0;
  bool is_inverter = false;  ///< speed, and so power, wanders
  bool never_stops = false;
  double droop = 0.12;            ///< share by which a start draws more, over some minutes
  double lamp_watt = 15.0;
  double second_step = 1.0;       ///< share of the heater's power once it has heated for five minutes
  double pulse_second = 0.0;      ///< a heater that pauses for as long every three minutes
  double inrush_watt = 0.0;  ///< for a second or two at each start
  double heater_watt = 350.0;
  bool has_ice_maker = false;  ///< its heater draws for some minutes every hour or two
  bool has_doors = true;
  double period_second = 3000.0;  ///< of the compressor
  double duty = 0.4;
  double interval_hour = 12.0;   ///< between defrosts
  double interval_spread = 0.1;  ///< of it: 0 for a timer
  double drip_second = 420.0;
  double end_celsius = 10.0;
  double time_limit_second = 1800.0;
  double melt_second = 600.0;  ///< usual plateau
  double melt_spread = 0.35;   ///< of it
};

/// A plan drawn from a seed, as hard as open logs are said to be: defrosts of 8 to 25 minutes at 185 to 470 W every 8
/// to 54 hours, drip times of 3 to 22 minutes, rows of 1 s to 5 min.
SimulatedPlan plan_from_seed(std::uint64_t seed);

struct TrueDefrost {
  double start_second = 0.0;
  double end_second = 0.0;
  EndCause cause = EndCause::unknown;
  double plateau_second = 0.0;
  bool is_hidden = false;  ///< a gap or an end of the log takes away a part of it
};

struct SimulatedLog {
  SimulatedPlan plan;
  std::vector<LogRow> rows;
  std::vector<TrueDefrost> defrosts;
  std::vector<double> doors;
  std::uint64_t compressor_starts = 0;
};

/// The log of a plan; equal for equal seeds with every compiler.
SimulatedLog simulate(const SimulatedPlan& plan, std::uint64_t seed);

/// As a logger would write it: "2024-01-08 00:00:00;-18,5;120,5".
std::string as_text(const SimulatedLog& log);

}  // namespace ohmwright::cycles::testing_support
