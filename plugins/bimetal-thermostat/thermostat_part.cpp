#include "thermostat_part.hpp"

#include "part/electrical_model.hpp"
#include "part/expectation.hpp"
#include "rules/advice.hpp"
#include "rules/closing_point.hpp"
#include "rules/contact_resistance.hpp"
#include "rules/differential.hpp"
#include "rules/drop_under_load.hpp"
#include "rules/in_circuit.hpp"
#include "rules/matching_class.hpp"
#include "rules/opening_point.hpp"
#include "rules/pair_suspected.hpp"
#include "rules/state_at_temperature.hpp"
#include "rules/stuck.hpp"
#include "rules/thermal_link.hpp"

namespace ohmwright::bimetal_thermostat {

void ThermostatPart::judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const {
  const Scene scene(ratings_ ? &*ratings_ : nullptr, evidence, settings, findings);
  judge_state_at_temperature(scene);
  judge_opening_point(scene);
  judge_closing_point(scene);
  judge_differential(scene);
  judge_stuck(scene);
  judge_drop_under_load(scene);
  judge_contact_resistance(scene);
  judge_in_circuit(scene);
  judge_thermal_link(scene);
  judge_pair_suspected(scene);
  judge_matching_class(scene);
  advise(scene);
}

std::optional<Expectation> ThermostatPart::expect(std::uint16_t measurand, const Situation& situation) const {
  if (!ratings_) return std::nullopt;
  return expected_reading(*ratings_, measurand, situation);
}

ModelAnswer ThermostatPart::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                             std::vector<Element>& elements) const {
  return append_model(ratings_ ? &*ratings_ : nullptr, fault_mode, situation, elements);
}

}  // namespace ohmwright::bimetal_thermostat
