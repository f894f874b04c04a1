#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::wiring {

RuleDescriptor describe_load_rating();
void judge_load_rating(const Scene& scene);

}  // namespace ohmwright::wiring
