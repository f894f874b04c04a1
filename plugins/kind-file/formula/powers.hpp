#pragma once

#include <array>
#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>

#include <ohmwright/quantity/dimension.hpp>

namespace ohmwright::kind_file {

/// The dimension of a value at run time: the powers of its base units. What Boost.Units does where types are known.
/// Angle counts as a base, so that a rotational speed is no frequency; a temperature on its scale is a point, of which
/// only differences can be multiplied.
struct Powers {
  static constexpr std::size_t base_count = 6;
  std::array<std::int8_t, base_count> of{};  ///< metre, kilogram, second, ampere, kelvin, radian
  bool is_point = false;                     ///< a temperature, not a difference of two

  friend bool operator==(const Powers&, const Powers&) = default;
};

/// The powers of a dimension's SI unit (SI brochure, 9th edition, tables 2 to 6).
Powers powers_of(Dimension dimension);

/// The dimension with these powers, or nothing where the program has none.
std::optional<Dimension> dimension_with(const Powers& powers);

/// In a sentence: "a resistance", or "a value in m^2 kg s^-3" where no dimension has that unit.
std::string in_words(const Powers& powers);

/// a·b^sign, with sign 1 or -1; nothing where a power grows beyond all use.
std::optional<Powers> product(const Powers& a, const Powers& b, int sign);

/// a^exponent; nothing where a power grows beyond all use.
std::optional<Powers> raised(const Powers& a, int exponent);

/// The square root; nothing where a power is odd.
std::optional<Powers> root(const Powers& a);

}  // namespace ohmwright::kind_file
