#include "sensor_part.hpp"

#include <cmath>

#include "part/electrical_model.hpp"
#include "rules/advice.hpp"
#include "rules/end_of_defrost.hpp"
#include "rules/in_circuit.hpp"
#include "rules/matching_class.hpp"
#include "rules/moisture_leakage.hpp"
#include "rules/open_sensor.hpp"
#include "rules/readings_agree.hpp"
#include "rules/resistance_at_temperature.hpp"
#include "rules/seated_on_coil.hpp"
#include "rules/short_sensor.hpp"
#include "rules/steady_readings.hpp"
#include "rules/twin_comparison.hpp"
#include "rules/two_temperatures.hpp"
#include "rules/volts_at_board.hpp"

namespace ohmwright::defrost_sensor {

void SensorPart::judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const {
  const Scene scene(ratings_ ? &*ratings_ : nullptr, evidence, settings, findings);
  judge_resistance_at_temperature(scene);
  judge_open(scene);
  judge_short(scene);
  judge_in_circuit(scene);
  judge_two_temperatures(scene);
  judge_readings_agree(scene);
  judge_steady_readings(scene);
  judge_moisture_leakage(scene);
  judge_seated_on_coil(scene);
  judge_end_of_defrost(scene);
  judge_volts_at_board(scene);
  judge_matching_class(scene);
  judge_twin_comparison(scene);
  advise(scene);
}

std::optional<Expectation> SensorPart::expect(std::uint16_t measurand, const Situation& situation) const {
  const std::optional<double> kelvin = situation.condition(part_temperature);
  if (!ratings_ || measurand != resistance || !kelvin) return std::nullopt;
  const Curve& curve = *ratings_->curve;
  const Temperature t = Temperature::from_kelvin(*kelvin);
  if (!curve.domain().contains(t)) return std::nullopt;
  const double nominal = curve.resistance(t).value();
  const LogLimits limits = ratings_->tolerance.at(curve, t);
  Expectation expected{ohms(nominal), {}, std::abs(curve.model_error(t)) / std::sqrt(3.0) * nominal};
  expected.limits.lower = ohms(nominal * std::exp(limits.lower));
  expected.limits.upper = ohms(nominal * std::exp(limits.upper));
  return expected;
}

ModelAnswer SensorPart::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                         std::vector<Element>& elements) const {
  return append_model(ratings_ ? &*ratings_ : nullptr, fault_mode, situation, elements);
}

}  // namespace ohmwright::defrost_sensor
