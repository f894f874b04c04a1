#pragma once

#include <cstdint>
#include <random>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/error_source.hpp>

namespace ohmwright {

/// Random numbers that are the same for the same seed with every compiler.
///
/// The generator is std::mt19937_64, whose every output ISO C++ fixes; the standard's distributions are not fixed, so
/// the transforms are our own and use nothing but arithmetic, square root, logarithm and power. Two streams of one seed
/// that are asked the same questions in the same order answer alike. In an expression the order of two draws is the
/// compiler's choice: draw once a statement.
class OHMWRIGHT_CORE_API ReproducibleStream {
 public:
  /// Name of generator and transforms, to be printed with the seed. A change of either changes the name.
  static constexpr const char* name = "mt19937_64/ohmwright-1";

  explicit ReproducibleStream(std::uint64_t seed) : seed_(seed), generator_(seed) {}

  std::uint64_t seed() const { return seed_; }

  /// 64 random bits.
  std::uint64_t bits() { return generator_(); }
  /// Uniform on [0, 1), a multiple of 2⁻⁵³.
  double uniform();
  /// Uniform among 0 … count − 1, without bias. Throws `Error` (internal) for count 0.
  std::uint64_t below(std::uint64_t count);
  /// Standard normal, Marsaglia's polar method (the second number of a pair is dropped: no hidden state).
  double normal();
  /// Student's t, Bailey's polar method (Math. Comp. 62 (1994) 779–781). Throws `Error` (internal) for ν ≤ 0.
  double student_t(double degrees_of_freedom);
  /// Error of standard uncertainty 1 of the shape (for Student's t: of scale 1, as GUM 4.2 states s/√n).
  double error_of(Shape shape, double degrees_of_freedom);

 private:
  std::uint64_t seed_;
  std::mt19937_64 generator_;
};

}  // namespace ohmwright
