#pragma once

#include <algorithm>

#include <ohmwright/component/descriptor.hpp>

namespace ohmwright {

/// Whether parts of the kind open once and for good, all of them, as a thermal link does: none is ever mended.
inline bool opens_once_and_for_good(const Descriptor& descriptor) {
  return std::any_of(descriptor.rules.begin(), descriptor.rules.end(),
                     [](const RuleDescriptor& rule) { return rule.essential && rule.condemns_for_good; });
}

/// Whether parts of the kind hold something that opens once and for good: a thermostat with a link in its housing.
inline bool may_open_for_good(const Descriptor& descriptor) {
  return std::any_of(descriptor.rules.begin(), descriptor.rules.end(),
                     [](const RuleDescriptor& rule) { return rule.condemns_for_good; });
}

}  // namespace ohmwright
