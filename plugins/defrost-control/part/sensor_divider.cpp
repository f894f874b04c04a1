#include "part/sensor_divider.hpp"

namespace ohmwright::defrost_control {

namespace {

double beside_voltmeter(double resistor_ohms) { return 1.0 / (1.0 / resistor_ohms + 1.0 / voltmeter_ohms); }

}  // namespace

double volts_at_connector(const SensorInput& input, std::optional<double> resistor_ohms) {
  if (!input.knows_pull_up()) return input.supply.value();
  const double across = resistor_ohms ? beside_voltmeter(*resistor_ohms) : voltmeter_ohms;
  return input.supply.value() * across / (across + input.pull_up.value());
}

double pull_up_part(const SensorInput& input, double resistor_ohms) {
  if (!input.knows_pull_up()) return 0.0;
  const double across = beside_voltmeter(resistor_ohms);
  return input.pull_up.value() / (across + input.pull_up.value()) * across / resistor_ohms;
}

}  // namespace ohmwright::defrost_control
