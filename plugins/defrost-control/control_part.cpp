#include "control_part.hpp"

#include "part/electrical_model.hpp"
#include "part/expectation.hpp"
#include "rules/advance.hpp"
#include "rules/advice.hpp"
#include "rules/contact_drop.hpp"
#include "rules/contacts.hpp"
#include "rules/in_circuit.hpp"
#include "rules/interval.hpp"
#include "rules/motor_winding.hpp"
#include "rules/output.hpp"
#include "rules/sensor_supply.hpp"

namespace ohmwright::defrost_control {

void ControlPart::judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const {
  const Scene scene(ratings_ ? &*ratings_ : nullptr, evidence, settings, findings);
  judge_contacts(scene);
  judge_interval(scene);
  judge_advance(scene);
  judge_motor(scene);
  judge_drop(scene);
  judge_output(scene);
  judge_sensor_supply(scene);
  judge_in_circuit(scene);
  advise(scene);
}

std::optional<Expectation> ControlPart::expect(std::uint16_t measurand, const Situation& situation) const {
  if (!ratings_) return std::nullopt;
  return expected_reading(*ratings_, measurand, situation);
}

ModelAnswer ControlPart::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                          std::vector<Element>& elements) const {
  return append_model(ratings_ ? &*ratings_ : nullptr, fault_mode, situation, elements);
}

}  // namespace ohmwright::defrost_control
