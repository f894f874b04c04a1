#pragma once

#include <cstdint>
#include <vector>

#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/thermal/appliance_model.hpp>
#include <ohmwright/thermal/simulated_fault.hpp>

namespace ohmwright::thermal {

/// A simulated appliance with its control, and the logger on it.
struct AppliancePlan {
  ApplianceLumps lumps;
  double line_volt = 120.0;
  double heater_watt = 400.0;  ///< at that voltage
  double compressor_watt = 115.0;
  double fan_watt = 8.0;
  double standby_watt = 2.0;
  double inrush_watt = 600.0;             ///< of the compressor, for two seconds
  double interval_second = 8.0 * 3600.0;  ///< between defrosts
  bool interval_counts_running = true;
  double end_kelvin = 283.15;
  double time_limit_second = 1800.0;
  double drip_second = 420.0;
  double fan_delay_second = 180.0;  ///< after the compressor's start
  double air_low_kelvin = 252.65;   ///< at which the compressor stops
  double air_high_kelvin = 257.15;
  double doors_a_day = 20.0;
  double moisture_kilogram_per_day = 0.35;  ///< past the gasket, beside the doors
  SimulatedFault fault = SimulatedFault::none;

  double days = 4.0;
  double spacing_second = 30.0;  ///< between rows, above 0
  double power_noise = 0.01;     ///< of the value, one standard deviation
  double kelvin_noise = 0.05;
};

/// A defrost as the control ran it, times [s] since the first row.
struct RunDefrost {
  double start_second = 0.0;
  double end_second = 0.0;
  bool ended_by_time = false;
  double frost_before_kilogram = 0.0;
};

/// What a run gave.
struct ApplianceLog {
  std::vector<cycles::LogRow> rows;  ///< coil, cabinet and power
  std::vector<RunDefrost> defrosts;
  double energy_residual_ratio = 0.0;  ///< |residual| over all heat that came in
};

/// Runs the appliance for its days, from a seed: the same rows with every compiler.
ApplianceLog run_appliance(const AppliancePlan& plan, std::uint64_t seed);

}  // namespace ohmwright::thermal
