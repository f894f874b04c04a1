#pragma once

#include <cstdint>

namespace ohmwright::heater {

struct Scene;

/// Which readings speak for the element where its cold ohms and what it draws were both read.
enum class Witness : std::uint8_t {
  none,
  cold,
  load,           ///< the cold ohms leave it open or were not read; what it draws holds no guess of the wire's gain
  load_over_low,  ///< cold it is lower than the usual alloys allow, but it draws what it should: the wire gains more
  contradiction,  ///< cold ohms and load cannot both be right
};

Witness witness_of(const Scene& scene);

}  // namespace ohmwright::heater
