#pragma once

#include <optional>
#include <span>

#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

/// A condemned value, and the one it would be right as.
struct DecimalSlip {
  AnyQuantity shown;
  AnyQuantity right_as;
};

/// The slip told of what stood on the display (SI), where what was judged had been moved from there by a little: leads
/// taken off, brought to another temperature. The same moving of the point makes both right.
OHMWRIGHT_CORE_API DecimalSlip slip_as_displayed(const DecimalSlip& slip, double displayed);

/// The value with its decimal point or prefix moved by ten, a hundred or a thousand, where that lies within the limits.
OHMWRIGHT_CORE_API std::optional<DecimalSlip> decimal_slip(const AnyQuantity& shown, const Limits& limits);

/// Whether a condemned value lies within its limits when its decimal point or its prefix is moved: ten, a hundred or a
/// thousand times as much or as little. Then a slip of the eye is likelier than such a fault, and a second look is
/// cheap. Of the first finding to which that applies; it needs both limits. A share of a curve is no value that was
/// read. A value as far off that was not condemned for its circumstances (a lead still on) counts as well.
OHMWRIGHT_CORE_API std::optional<DecimalSlip> decimal_slip(std::span<const Finding> findings);

}  // namespace ohmwright
