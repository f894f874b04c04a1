#pragma once

#include <span>
#include <string_view>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// Whether a rule of this id tells if a part may be energised: `insulation`, `earth-bond`, `leakage-current`, whatever
/// the kind. While such a rule is undecided, a part in spec is not yet proved safe, and the verdict says so in its
/// first lines.
bool tells_safe_to_energise(std::string_view rule);

/// The rules of the kind that tell so and that have not passed, in the kind's order: not read, undecided, or failed.
std::vector<const RuleDescriptor*> not_yet_proved_safe(const Descriptor& descriptor, std::span<const Finding> findings);

}  // namespace ohmwright
