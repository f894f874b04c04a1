#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

/// Nodes of an appliance that are one place, seen through every wire, plug and splice between them (kinds of the role
/// `joins-parts`), whatever is wrong with those.
class JoinedPlaces {
 public:
  explicit JoinedPlaces(const Appliance& appliance);

  /// Whether both nodes are wired, and to one place.
  bool are_one(const std::optional<std::size_t>& a, const std::optional<std::size_t>& b) const;

 private:
  void join(std::size_t a, std::size_t b);

  std::vector<std::size_t> place_;  ///< by node
};

}  // namespace ohmwright
