#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/units.hpp>

#include "part/alloy.hpp"

namespace ohmwright::heater {

/// As a share of the rated volts: farther from them the wire is at another temperature, and P = Pr·(V/Vr)² no longer
/// holds to a percent.
inline constexpr double widest_step_from_rated = 0.25;

enum class Construction : std::uint8_t { unstated, glass_tube, metal_sheath, foil, bare_wire };

/// How far the power of a good heater may lie off its rating, as shares of it.
struct PowerTolerance {
  double below = 0.0;
  double above = 0.0;
};

/// IEC 60335-1, clause 10 (from memory), for the input of new heating appliances: up to 25 W +20 %, up to 200 W ±10 %,
/// above −10 % and +5 % or 20 W, whichever is more. Taken where the ratings state nothing: it binds a whole appliance,
/// not a spare element. Below, 25 W parts have no limit there; 20 % is taken.
PowerTolerance usual_tolerance(Power rated);

/// A resistance with the least and the most that a good part has [ohm].
struct RatedResistance {
  double lower = 0.0;
  double nominal = 0.0;
  double upper = 0.0;
};

/// What is known of one heater.
struct HeaterRatings {
  std::optional<Voltage> voltage;
  std::optional<Power> power;
  PowerTolerance tolerance;
  std::optional<Resistance> resistance;  ///< cold, at 20 °C; stated instead of computed
  double resistance_tolerance = 0.0;
  Alloy alloy = Alloy::unknown;
  std::optional<Temperature> wire_temperature;  ///< when it heats
  int elements = 1;                             ///< equal ones in parallel
  EarthClass earth_class = EarthClass::unstated;
  Resistance insulation = Resistance::from_value(1e6);  ///< least to the frame
  Construction construction = Construction::unstated;
  std::optional<Length> length;

  bool knows_power() const { return voltage && power; }
  /// At 20 °C. From volts and watts: V²/(P·Ct), where Ct is what the wire gains when hot; where that is not known only
  /// the lower limit makes room for it, and the nominal is V²/P.
  RatedResistance cold() const;
  /// At `t`.
  RatedResistance cold_at(Temperature t) const;
};

/// Reads ratings that are valid against the kind's schema. What the schema cannot say is added to `problems` with its
/// place; the result is then empty.
std::optional<HeaterRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems);

}  // namespace ohmwright::heater
