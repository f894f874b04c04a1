#include "heater_part.hpp"

#include "part/electrical_model.hpp"
#include "part/expectation.hpp"
#include "rules/advice.hpp"
#include "rules/element_resistance.hpp"
#include "rules/in_circuit.hpp"
#include "rules/insulation.hpp"
#include "rules/matching_class.hpp"
#include "rules/open_element.hpp"
#include "rules/power_under_load.hpp"
#include "rules/short_element.hpp"
#include "rules/supply_without_current.hpp"

namespace ohmwright::heater {

void HeaterPart::judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const {
  const Scene scene(ratings_ ? &*ratings_ : nullptr, evidence, settings, findings);
  judge_element_resistance(scene);
  judge_open(scene);
  judge_short(scene);
  judge_in_circuit(scene);
  judge_power_under_load(scene);
  judge_supply_without_current(scene);
  judge_insulation(scene);  // asks whether the element passed
  judge_matching_class(scene);
  advise(scene);  // asks all of them
}

std::optional<Expectation> HeaterPart::expect(std::uint16_t measurand, const Situation& situation) const {
  if (!ratings_) return std::nullopt;
  return expected_reading(*ratings_, measurand, situation);
}

ModelAnswer HeaterPart::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                         std::vector<Element>& elements) const {
  return append_model(ratings_ ? &*ratings_ : nullptr, fault_mode, situation, elements);
}

}  // namespace ohmwright::heater
