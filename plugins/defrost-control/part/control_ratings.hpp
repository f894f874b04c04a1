#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/temperature.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright::defrost_control {

/// How a control is built.
enum class ControlType : std::uint8_t { cam_timer, relay_board, thermistor_board };

/// What switches the heater.
enum class Switching : std::uint8_t { contact, solid_state };

/// What the time between two defrosts is counted in.
enum class Counts : std::uint8_t { compressor, clock };

enum class PowerSupply : std::uint8_t { unstated, transformer, electronic };

/// Between which a figure of good parts lies; a side that is not stated is empty.
template <class Quantity>
struct Between {
  std::optional<Quantity> least;
  std::optional<Quantity> most;

  bool is_stated() const { return least.has_value() || most.has_value(); }
};

/// What the control gives to a sensor: a divider of its own resistor and the sensor.
struct SensorInput {
  Voltage supply = Voltage::from_value(0.0);         ///< at the pulled connector
  double tolerance = 0.0;                            ///< share of it [0…1]
  Resistance pull_up = Resistance::from_value(0.0);  ///< its own resistor; 0 where it is not stated

  bool knows_pull_up() const { return pull_up.value() > 0.0; }
};

/// What a sheet says of one control.
struct ControlRatings {
  ControlType type = ControlType::cam_timer;
  std::optional<Voltage> voltage;
  std::optional<Frequency> frequency;  ///< that a timer's motor is made for
  Between<Resistance> motor;           ///< of the winding, at `motor_temperature`
  Temperature motor_temperature = Temperature::from_celsius(25.0);
  Switching switching = Switching::contact;
  Resistance contact_resistance = Resistance::from_value(0.2);  ///< the most of a good closed contact
  Voltage solid_state_drop = Voltage::from_value(1.5);          ///< the most of a good solid-state switch
  std::optional<Current> contact_current;                       ///< that its contacts may carry
  std::optional<bool> run_closed_at_rest;                       ///< of a board without power
  PowerSupply power_supply = PowerSupply::unstated;
  Between<Duration> defrost_time;
  Between<Duration> interval;
  Counts interval_counts = Counts::compressor;
  std::optional<SensorInput> sensor;

  bool is_timer() const { return type == ControlType::cam_timer; }
};

/// Reads ratings that are valid against the kind's schema. What the schema cannot say is added to `problems` with its
/// place; the result is then empty. A contact of which nothing is stated has 0.2 ohm at most, a solid-state switch
/// drops 1.5 V at most (common practice, no source).
std::optional<ControlRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems);

}  // namespace ohmwright::defrost_control
