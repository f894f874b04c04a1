#include <algorithm>
#include <array>

#include <ohmwright/safety/safe_to_energise.hpp>

namespace ohmwright {

bool tells_safe_to_energise(std::string_view rule) {
  constexpr std::array<std::string_view, 3> rules{"insulation", "earth-bond", "leakage-current"};
  return std::find(rules.begin(), rules.end(), rule) != rules.end();
}

std::vector<const RuleDescriptor*> not_yet_proved_safe(const Descriptor& descriptor,
                                                       std::span<const Finding> findings) {
  std::vector<const RuleDescriptor*> rules;
  for (std::size_t i = 0; i < descriptor.rules.size(); ++i) {
    if (!tells_safe_to_energise(descriptor.rules[i].id)) continue;
    bool passed = false;
    bool doubted = false;
    for (const Finding& finding : findings) {
      if (finding.rule != i) continue;
      (finding.outcome == Outcome::within_limits ? passed : doubted) = true;
    }
    if (!passed || doubted) rules.push_back(&descriptor.rules[i]);
  }
  return rules;
}

}  // namespace ohmwright
