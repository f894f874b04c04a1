#include "part/power_by_ohms.hpp"

namespace ohmwright::heater {

Estimate power_by_ohms(const Estimate& line, const Estimate& ohms) {
  const double watts = line.value() * line.value() / ohms.value();
  Estimate power(watts);
  power.add_uncertainty(line, 2.0 * watts / line.value());
  power.add_uncertainty(ohms, -watts / ohms.value());
  return power;
}

}  // namespace ohmwright::heater
