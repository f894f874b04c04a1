#pragma once

#include <ohmwright/quantity/any_quantity.hpp>

namespace ohmwright::kind_file {

/// Share of a figure that arithmetic may lose.
inline constexpr double rounding_share = 1e-9;

/// How far a figure of another part may lie below and above the original's and be called the same [SI].
struct Slack {
  double below = 0.0;
  double above = 0.0;
};

/// 2 K of a temperature, 5 % of anything else (both common practice, no source).
Slack slack_of(Dimension dimension, double original);

/// Whether the two are the same within that slack and rounding.
bool is_same(double original, double candidate, Slack slack);

}  // namespace ohmwright::kind_file
