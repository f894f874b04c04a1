#include <cmath>
#include <limits>
#include <numbers>
#include <string>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright {

namespace {

/// A point of the unit disc without its centre, uniformly.
struct DiscPoint {
  double x = 0.0;
  double y = 0.0;
  double square = 0.0;
};

DiscPoint point_in_disc(ReproducibleStream& stream) {
  DiscPoint point;
  do {
    const double first = stream.uniform();
    const double second = stream.uniform();
    point.x = 2.0 * first - 1.0;
    point.y = 2.0 * second - 1.0;
    point.square = point.x * point.x + point.y * point.y;
  } while (point.square >= 1.0 || point.square == 0.0);
  return point;
}

}  // namespace

double ReproducibleStream::uniform() { return static_cast<double>(bits() >> 11U) * 0x1p-53; }

std::uint64_t ReproducibleStream::below(std::uint64_t count) {
  if (count == 0) throw Error(ErrorCategory::internal, "a random choice among nothing was asked for");
  const std::uint64_t usable =
      std::numeric_limits<std::uint64_t>::max() - std::numeric_limits<std::uint64_t>::max() % count;
  std::uint64_t drawn = bits();
  while (drawn >= usable) drawn = bits();
  return drawn % count;
}

double ReproducibleStream::normal() {
  const DiscPoint point = point_in_disc(*this);
  return point.x * std::sqrt(-2.0 * std::log(point.square) / point.square);
}

double ReproducibleStream::student_t(double degrees_of_freedom) {
  if (!(degrees_of_freedom > 0.0)) {
    throw Error(ErrorCategory::internal,
                "degrees of freedom are " + std::to_string(degrees_of_freedom) + "; they must be above 0");
  }
  if (std::isinf(degrees_of_freedom)) return normal();
  const DiscPoint point = point_in_disc(*this);
  // ν·(s^(−2/ν) − 1)/s without loss where ν is large.
  const double spread = std::expm1(-2.0 / degrees_of_freedom * std::log(point.square));
  return point.x * std::sqrt(degrees_of_freedom * spread / point.square);
}

double ReproducibleStream::error_of(Shape shape, double degrees_of_freedom) {
  switch (shape) {
    case Shape::normal:
      return normal();
    case Shape::rectangular:
      return std::numbers::sqrt3 * (2.0 * uniform() - 1.0);
    case Shape::triangular: {
      const double first = uniform();
      const double second = uniform();
      return std::numbers::sqrt2 * std::numbers::sqrt3 * (first + second - 1.0);
    }
    case Shape::arcsine: {
      const DiscPoint point = point_in_disc(*this);  // cos 2φ of its angle φ is the cycle
      return std::numbers::sqrt2 * (point.x * point.x - point.y * point.y) / point.square;
    }
    case Shape::student_t:
      return student_t(degrees_of_freedom);
  }
  throw Error(ErrorCategory::internal, "an error of unknown shape was asked for");
}

}  // namespace ohmwright
