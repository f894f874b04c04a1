#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright {

// What parts conduct in their places.

/// Two points of a part, by index as in `Element`.
struct PartPoints {
  std::uint16_t from = 0;
  std::uint16_t to = 0;

  friend bool operator==(const PartPoints&, const PartPoints&) = default;
};

/// A part with one of its fault modes, or `not_found` for healthy, after a set-up or as found.
struct Conduction {
  bool can_be = true;                  ///< false: this part cannot fail in that way
  std::vector<PartPoints> conducting;  ///< what may conduct then
  std::vector<Element> elements;       ///< empty where it is not known what it is
};

/// Asks a part's kind at the temperature of its zone and in its states, as found or after the set-up.
Conduction conduction_of(const Appliance& appliance, std::size_t part, std::uint16_t fault,
                         std::optional<std::size_t> set_up, Excitation excitation);

/// Points between which the fault changes what the healthy part is.
std::vector<PartPoints> changed_points(const Conduction& healthy, const Conduction& faulty);

}  // namespace ohmwright
