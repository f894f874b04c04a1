#include "part/capacitor_discharge.hpp"

#include <cmath>
#include <numbers>

namespace ohmwright::fan_motor {

Duration discharge_time(Resistance resistor, const Capacitance& capacitor, Voltage root_mean_square,
                        Voltage touchable) {
  const double peak = std::numbers::sqrt2 * root_mean_square.value();
  if (!(peak > touchable.value())) return Duration::from_value(0.0);
  return Duration::from_value(resistor.value() * capacitor.value() * std::log(peak / touchable.value()));
}

}  // namespace ohmwright::fan_motor
