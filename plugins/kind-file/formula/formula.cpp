#include "formula/formula.hpp"

#include <algorithm>
#include <array>
#include <cmath>

namespace ohmwright::kind_file {

namespace {

using Does = FormulaStep::Does;

/// Rules of differentiation, one step each (product, quotient and chain rule).
ValueAndSlope of_one(const FormulaStep& step, ValueAndSlope a) {
  switch (step.does) {
    case Does::negate:
      return {-a.value, -a.slope};
    case Does::raise: {
      if (step.exponent == 0) return {1.0, 0.0};
      const double below = std::pow(a.value, step.exponent - 1);
      return {std::pow(a.value, step.exponent), step.exponent * below * a.slope};
    }
    case Does::square_root: {
      const double root = std::sqrt(a.value);
      return {root, a.slope == 0.0 ? 0.0 : 0.5 * a.slope / root};
    }
    case Does::exponential:
      return {std::exp(a.value), std::exp(a.value) * a.slope};
    case Does::logarithm:
      return {std::log(a.value), a.slope / a.value};
    default:
      return a.value < 0.0 ? ValueAndSlope{-a.value, -a.slope} : a;
  }
}

ValueAndSlope of_two(Does does, ValueAndSlope a, ValueAndSlope b) {
  switch (does) {
    case Does::add:
      return {a.value + b.value, a.slope + b.slope};
    case Does::subtract:
      return {a.value - b.value, a.slope - b.slope};
    case Does::multiply:
      return {a.value * b.value, a.slope * b.value + a.value * b.slope};
    case Does::divide:
      return {a.value / b.value, (a.slope - a.value / b.value * b.slope) / b.value};
    case Does::smaller:
      return b.value < a.value ? b : a;
    default:
      return b.value > a.value ? b : a;
  }
}

bool takes_two(Does does) {
  return (does >= Does::add && does <= Does::divide) || does == Does::smaller || does == Does::larger;
}

}  // namespace

ValueAndSlope Formula::at(std::span<const std::optional<double>> rating_values,
                          std::span<const double> condition_values, std::uint16_t along) const {
  std::array<ValueAndSlope, deepest_formula> stack;
  std::size_t height = 0;
  for (const FormulaStep& step : steps) {
    if (step.does == Does::number) {
      stack[height++] = {step.value, 0.0};
    } else if (step.does == Does::rating) {
      stack[height++] = {*rating_values[step.index], 0.0};
    } else if (step.does == Does::condition) {
      stack[height++] = {condition_values[step.index], step.index == along ? 1.0 : 0.0};
    } else if (takes_two(step.does)) {
      --height;
      stack[height - 1] = of_two(step.does, stack[height - 1], stack[height]);
    } else {
      stack[height - 1] = of_one(step, stack[height - 1]);
    }
  }
  return stack[0];
}

bool Formula::is_known(std::span<const std::optional<double>> rating_values) const {
  return std::all_of(ratings.begin(), ratings.end(), [&](std::uint16_t rating) {
    return rating < rating_values.size() && rating_values[rating].has_value();
  });
}

}  // namespace ohmwright::kind_file
