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

/// Whether a condemned value lies within its limits when its decimal point or its prefix is moved: ten, a hundred or a
/// thousand times as much or as little. Then a slip of the eye is likelier than such a fault, and a second look is cheap.
/// Of the first finding to which that applies; it needs both limits.
OHMWRIGHT_CORE_API std::optional<DecimalSlip> decimal_slip(std::span<const Finding> findings);

}  // namespace ohmwright
