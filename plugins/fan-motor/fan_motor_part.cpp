#include "fan_motor_part.hpp"

#include "part/electrical_model.hpp"
#include "part/expectation.hpp"
#include "rules/advice.hpp"
#include "rules/capacitor.hpp"
#include "rules/fed_but_still.hpp"
#include "rules/in_circuit.hpp"
#include "rules/insulation.hpp"
#include "rules/line_current.hpp"
#include "rules/matching_class.hpp"
#include "rules/not_by_ohms.hpp"
#include "rules/open_winding.hpp"
#include "rules/running.hpp"
#include "rules/short_winding.hpp"
#include "rules/supply_volts.hpp"
#include "rules/turns_by_hand.hpp"
#include "rules/winding_resistance.hpp"
#include "rules/windings_add_up.hpp"

namespace ohmwright::fan_motor {

void FanMotorPart::judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const {
  const Scene scene(ratings_ ? &*ratings_ : nullptr, evidence, settings, findings);
  judge_supply_volts(scene);  // first: too many volts are the first thing to be read
  judge_running(scene);
  judge_winding_resistance(scene);
  judge_open(scene);
  judge_short(scene);
  judge_in_circuit(scene);
  judge_windings_add_up(scene);
  judge_not_by_ohms(scene);
  judge_line_current(scene);  // asks what running said
  judge_fed_but_still(scene);
  judge_turns_by_hand(scene);
  judge_capacitor(scene);
  judge_insulation(scene);  // asks whether running, ohms or capacitor passed
  judge_matching_class(scene);
  advise(scene);  // asks all of them
}

std::optional<Expectation> FanMotorPart::expect(std::uint16_t measurand, const Situation& situation) const {
  if (!ratings_) return std::nullopt;
  return expected_reading(*ratings_, measurand, situation);
}

ModelAnswer FanMotorPart::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                           std::vector<Element>& elements) const {
  return append_model(ratings_ ? &*ratings_ : nullptr, fault_mode, situation, elements);
}

}  // namespace ohmwright::fan_motor
