#pragma once

#include <ohmwright/locate/part_model.hpp>

namespace ohmwright::locate {

/// What a loose contact has beside its own ohms while it conducts badly, from the least to the most [ohm] (assumed, no
/// source).
inline constexpr double least_loose_ohm = 1.0;
inline constexpr double most_loose_ohm = 1e4;

/// Adds to a contact that comes and goes what it may show while it is bad, beside OL: corroded or loose, it conducts
/// with some ohms more than while it is good, from 1 ohm to 10 kilohms, evenly over the logarithm, another value at
/// every reading. They take three tenths of the share of OL (assumed, no source). An element that has no open choice,
/// or none that conducts, stays as it is.
void add_ohms_of_loose_contact(ElementSpread& contact);

}  // namespace ohmwright::locate
