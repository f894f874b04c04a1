#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/temperature.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright::fan_motor {

enum class Construction : std::uint8_t { shaded_pole, capacitor_run, electronically_commutated };
enum class Rotation : std::uint8_t { unstated, clockwise, counter_clockwise };

/// Temperatures of extrapolated zero resistance with the sign reversed: 234.5 for copper, 225 for aluminium as product
/// standards have it (IEC 60034-1 has 235 for copper; from memory).
inline constexpr double constant_of_copper = 234.5;
inline constexpr double constant_of_aluminium = 225.0;

/// R2/R1 of a winding at `to` and `from`: (k + t2)/(k + t1), t in degC (IEC 60034-1).
double winding_factor(double conductor_constant, Temperature from, Temperature to);

/// 120·f/p in rpm, here as an angular velocity.
RotationalSpeed synchronous_speed(Frequency frequency, int poles);

/// Between which a good part lies.
struct Span {
  double lower = 0.0;
  double upper = 0.0;
};

/// What is known of one fan motor.
struct FanMotorRatings {
  Construction construction = Construction::shaded_pole;
  std::optional<Voltage> voltage;
  std::optional<Frequency> frequency;
  std::optional<int> poles;
  std::optional<Resistance> winding;  ///< at `reference_temperature`
  double winding_tolerance = 0.0;
  Temperature reference_temperature = Temperature::from_celsius(25.0);
  double conductor_constant = constant_of_copper;
  std::optional<Current> current;
  double current_tolerance = 0.15;
  std::optional<RotationalSpeed> speed;
  double speed_tolerance = 0.1;
  std::optional<int> pulses_per_turn;
  std::optional<int> wires;                      ///< of an electronic one: from four on one is its control signal
  Duration retry = Duration::from_value(180.0);  ///< after which a control tries again to start it
  std::optional<Capacitance> capacitance;
  double capacitance_tolerance = 0.06;
  EarthClass earth_class = EarthClass::unstated;
  Resistance insulation = Resistance::from_value(1e6);  ///< least to the frame
  Rotation rotation = Rotation::unstated;
  std::optional<Length> size;

  /// Whether it may stand still while it is fed because its control signal tells it to: with two wires, or a third for
  /// its tachometer, it has none (common practice, no source).
  bool may_have_a_signal() const { return is_electronic() && wires.value_or(4) >= 4; }
  bool is_electronic() const { return construction == Construction::electronically_commutated; }
  std::optional<RotationalSpeed> synchronous() const;
  /// Speeds of a good motor under its fan [rad/s]: of the rated speed and its tolerance, else from the most slip of its
  /// construction (shaded pole 20 %, capacitor run 10 %: common practice, no source) to the synchronous speed.
  std::optional<Span> speed_limits() const;
  /// Ohms of a good winding at the reference temperature.
  std::optional<Span> winding_limits() const;
};

/// Reads ratings that are valid against the kind's schema. What the schema cannot say is added to `problems` with its
/// place; the result is then empty.
std::optional<FanMotorRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems);

}  // namespace ohmwright::fan_motor
