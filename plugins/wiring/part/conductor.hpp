#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright::wiring {

enum class Metal : std::uint8_t { plain_copper, tinned_copper };

/// How a conductor is made up: classes 1, 2 and 5 of IEC 60228.
enum class Stranding : std::uint8_t { solid, stranded, flexible };

/// A copper conductor.
struct Conductor {
  double square_millimetres = 0.0;  ///< nominal cross-section, one of those of `cross_section_named`
  Metal metal = Metal::tinned_copper;
  Stranding stranding = Stranding::flexible;
};

/// The nominal cross-section that files call so ("0.75") [mm²]; nothing for another.
std::optional<double> cross_section_named(std::string_view name);

/// Most that a conductor may have at 20 °C [ohm/m].
/// Source: IEC 60228, maximum resistance of conductors at 20 °C, classes 1, 2 and 5, plain and metal-coated, as cable
/// makers' tables give it.
double most_ohms_per_metre(const Conductor& conductor);

/// What annealed copper of that cross-section has at 20 °C [ohm/m]: a conductor has about this, thicker ones less.
/// Source: IEC 60028, 1/58 ohm mm²/m.
double copper_ohms_per_metre(const Conductor& conductor);

/// Share by which copper gains in a kelvin, referred to 20 °C. Source: IEC 60028, 0.00393 /K.
inline constexpr double copper_gain_per_kelvin = 0.00393;

/// Resistance of copper at `t` as a share of that at 20 °C.
double copper_factor(Temperature t);

}  // namespace ohmwright::wiring
