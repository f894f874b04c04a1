#include "part/sameness.hpp"

#include <cmath>

namespace ohmwright::kind_file {

Slack slack_of(Dimension dimension, double original) {
  // Common practice, no source.
  constexpr double share_that_is_the_same = 0.05;
  constexpr double kelvin_that_are_the_same = 2.0;
  const double both =
      dimension == Dimension::temperature ? kelvin_that_are_the_same : share_that_is_the_same * std::abs(original);
  return {both, both};
}

bool is_same(double original, double candidate, Slack slack) {
  const double rounding = rounding_share * std::abs(original);
  const double moved = candidate - original;
  return moved >= -slack.below - rounding && moved <= slack.above + rounding;
}

}  // namespace ohmwright::kind_file
