#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::defrost_sensor {

/// Readings in circuit: another path can only lower a resistance, so they never clear a part, and condemn only from
/// above.
RuleDescriptor describe_in_circuit();
void judge_in_circuit(const Scene& scene);

}  // namespace ohmwright::defrost_sensor
