#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright::heater {

/// What the wire is made of.
enum class Alloy : std::uint8_t {
  unknown,          ///< NiCr 80/20, NiCr 60/15 or FeCrAl 25/5
  unknown_or_iron,  ///< one of those, or an alloy rich in iron
  nicr_80_20,
  nicr_60_15,
  fecral_25_5,
  nicr_35_20,
  fecr_13_4,
};

/// The alloy that ratings call so; `unknown` for an empty name.
Alloy alloy_named(std::string_view name);

/// Between which a factor lies.
struct Factor {
  double low = 1.0;
  double high = 1.0;
};

/// Resistance at `t` as a share of that at 20 °C: tables of alloy makers, interpolated (GB/T 1234 carries the same,
/// from memory); other tables differ by up to 2 %. Where the alloy is not known, between the least and the most of
/// those that it may be.
Factor resistance_factor(Alloy alloy, Temperature t);

/// The same of a heater that is heating: at the temperature of its wire, or at any up to 800 °C.
Factor hot_factor(Alloy alloy, std::optional<Temperature> wire_temperature);

}  // namespace ohmwright::heater
