#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_open();
void judge_open(const Scene& scene);

/// It reads open, and a protector that opened in the heat explains that as well.
bool may_be_its_protector(const Scene& scene);

}  // namespace ohmwright::fan_motor
