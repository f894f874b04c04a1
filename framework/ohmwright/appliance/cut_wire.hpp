#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include <ohmwright/component/electrical.hpp>

namespace ohmwright {

/// A wire that a leak cuts in two at a point within its part. It is as long as it was: what lies before the point and
/// what lies behind it make up the whole, however far along the point is.
struct CutWire {
  double least_share = 0.0;  ///< of the whole, what lies before the point at the least [0…1]
  double most_share = 1.0;   ///< and at the most
};

/// Whether the elements of a fault begin with the two pieces of the good part's first element, which is a resistance
/// between two of its `terminals` terminals; a model states each piece with limits of its own, and nothing else says
/// that they belong together.
std::optional<CutWire> cut_wire(std::span<const Element> good, std::span<const Element> faulty, std::size_t terminals);

}  // namespace ohmwright
