#include "wiring_part.hpp"

#include "part/electrical_model.hpp"
#include "part/expectation.hpp"
#include "rules/advice.hpp"
#include "rules/drop_under_load.hpp"
#include "rules/end_to_end.hpp"
#include "rules/in_circuit.hpp"
#include "rules/insulation.hpp"
#include "rules/intermittent.hpp"
#include "rules/load_rating.hpp"
#include "rules/open_lead.hpp"

namespace ohmwright::wiring {

void WiringPart::judge(const Evidence& evidence, const JudgeSettings& settings, Findings& findings) const {
  const Scene scene(ratings_ ? &*ratings_ : nullptr, evidence, settings, findings);
  judge_end_to_end(scene);
  judge_open(scene);
  judge_drop_under_load(scene);
  judge_insulation(scene);
  judge_intermittent(scene);
  judge_in_circuit(scene);
  judge_load_rating(scene);
  advise(scene);
}

std::optional<Expectation> WiringPart::expect(std::uint16_t measurand, const Situation& situation) const {
  if (!ratings_) return std::nullopt;
  return expected_reading(*ratings_, measurand, situation);
}

ModelAnswer WiringPart::electrical_model(std::uint16_t fault_mode, const Situation& situation,
                                         std::vector<Element>& elements) const {
  return append_model(ratings_ ? &*ratings_ : nullptr, fault_mode, situation, elements);
}

}  // namespace ohmwright::wiring
