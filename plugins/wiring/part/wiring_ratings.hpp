#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/value_tree.hpp>
#include <ohmwright/quantity/units.hpp>

#include "part/conductor.hpp"

namespace ohmwright::wiring {

enum class Form : std::uint8_t { lead, connector, splice };

/// What a good joint has at least; metal on metal has some milliohms (common practice, no source) [ohm].
inline constexpr double least_contact_ohms = 0.001;

/// What is known of one lead, connector or splice.
struct WiringRatings {
  Form form = Form::lead;
  std::optional<Conductor> conductor;  ///< of a connector or splice: of the tails that are measured with it
  std::optional<Length> length;
  Resistance contact_resistance = Resistance::from_value(0.0);  ///< most, of all its contacts together
  std::optional<Current> rated_current;
  EarthClass earth_class = EarthClass::unstated;
  Resistance insulation = Resistance::from_value(1e6);  ///< least to the frame and to the wire beside it
  std::optional<Temperature> temperature_rating;        ///< of its insulation

  /// Whether the most that it may have can be told: the length of a lead is known, there or here.
  bool knows_limit(bool length_given) const { return !conductor || length || length_given; }
  /// Most that the copper of a metre may have at 20 °C [ohm/m]; 0 without a conductor.
  double most_per_metre() const { return conductor ? most_ohms_per_metre(*conductor) : 0.0; }
  /// Most from end to end of so many metres [ohm].
  double most(double metres, Temperature t) const;
  /// What a good one has about, and at least [ohm].
  double least(double metres, Temperature t) const;
};

/// Reads ratings that are valid against the kind's schema. What the schema cannot say is added to `problems` with its
/// place; the result is then empty.
std::optional<WiringRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems);

}  // namespace ohmwright::wiring
