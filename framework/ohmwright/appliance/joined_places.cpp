#include <algorithm>
#include <numeric>

#include <ohmwright/appliance/joined_places.hpp>
#include <ohmwright/component/role.hpp>

namespace ohmwright {

JoinedPlaces::JoinedPlaces(const Appliance& appliance) : place_(appliance.nodes.size()) {
  std::iota(place_.begin(), place_.end(), std::size_t{0});
  for (const PlacedPart& part : appliance.parts) {
    const bool joins = plays(part.kind->descriptor().roles, role::joins_parts);
    if (joins && part.nodes.size() >= 2 && part.nodes[0] && part.nodes[1]) join(*part.nodes[0], *part.nodes[1]);
  }
}

bool JoinedPlaces::are_one(const std::optional<std::size_t>& a, const std::optional<std::size_t>& b) const {
  return a && b && place_[*a] == place_[*b];
}

void JoinedPlaces::join(std::size_t a, std::size_t b) {
  // Copies: `std::replace` takes its values by reference, and would change the one it looks for on its way.
  const std::size_t from = place_[a];
  const std::size_t to = place_[b];
  std::replace(place_.begin(), place_.end(), from, to);
}

}  // namespace ohmwright
