#pragma once

#include <cmath>
#include <cstdint>
#include <cstring>
#include <optional>

#include <ohmwright/quantity/any_quantity.hpp>

namespace ohmwright {

/// Equal bit for bit: 0 and −0 differ. All not-a-numbers are one.
inline bool same_bits(double a, double b) {
  if (std::isnan(a) || std::isnan(b)) return std::isnan(a) && std::isnan(b);
  std::uint64_t bits_of_a = 0;
  std::uint64_t bits_of_b = 0;
  std::memcpy(&bits_of_a, &a, sizeof a);
  std::memcpy(&bits_of_b, &b, sizeof b);
  return bits_of_a == bits_of_b;
}
inline bool same_bits(AnyQuantity a, AnyQuantity b) {
  return a.dimension() == b.dimension() && same_bits(a.value_in_si(), b.value_in_si());
}
template <class Number>
bool same_bits(const std::optional<Number>& a, const std::optional<Number>& b) {
  return a.has_value() == b.has_value() && (!a || same_bits(*a, *b));
}

}  // namespace ohmwright
