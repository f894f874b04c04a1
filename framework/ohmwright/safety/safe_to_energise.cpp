#include <algorithm>
#include <array>

#include <ohmwright/safety/safe_to_energise.hpp>

namespace ohmwright {

bool tells_safe_to_energise(std::string_view rule) {
  constexpr std::array<std::string_view, 3> rules{"insulation", "earth-bond", "leakage-current"};
  return std::find(rules.begin(), rules.end(), rule) != rules.end();
}

}  // namespace ohmwright
