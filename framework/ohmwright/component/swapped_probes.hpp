#pragma once

#include <cstdint>
#include <span>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/evidence.hpp>

namespace ohmwright {

/// Two readings that contradict each other, as indices into the readings: `swapped` was read with the probes the other
/// way round.
struct SwappedPair {
  std::uint16_t plain = 0;
  std::uint16_t swapped = 0;
};

/// The measurand that this one is with the probes swapped: `X` for `X_swapped`; `not_found` for all others.
OHMWRIGHT_CORE_API std::uint16_t unswapped(const Descriptor& descriptor, std::uint16_t measurand);

/// Whether no rule sees the reading, since it contradicts another one.
inline bool is_set_aside(const PreparedReading& reading) { return reading.measurand == not_found; }

/// The pairs of readings that contradict each other: one and the same thing, read dead and not in circuit under the
/// same circumstances, once as it is and once with the probes swapped, and farther apart than their doubt, 2 % and 1
/// ohm (common practice, no source). No part by itself reads otherwise when its probes are swapped. A measurand
/// `X_swapped` is `X` with the probes the other way round. Where one reading of `X` agrees, nothing contradicts.
OHMWRIGHT_CORE_API std::vector<SwappedPair> swapped_that_contradict(const Descriptor& descriptor,
                                                                    std::span<const PreparedReading> readings);

}  // namespace ohmwright
