#include "formula/powers.hpp"

#include <cstdlib>
#include <string_view>

namespace ohmwright::kind_file {

namespace {

constexpr std::array<std::string_view, Powers::base_count> base_symbols{"m", "kg", "s", "A", "K", "rad"};
/// Far above what any formula of a part has; so no sum of two overflows.
constexpr int largest_power = 30;

std::optional<Powers> whole(const std::array<int, Powers::base_count>& sums) {
  Powers powers;
  for (std::size_t i = 0; i < sums.size(); ++i) {
    if (std::abs(sums[i]) > largest_power) return std::nullopt;
    powers.of[i] = static_cast<std::int8_t>(sums[i]);
  }
  return powers;
}

}  // namespace

Powers powers_of(Dimension dimension) {
  switch (dimension) {  // m, kg, s, A, K, rad
    case Dimension::resistance:
      return {{2, 1, -3, -2, 0, 0}};
    case Dimension::voltage:
      return {{2, 1, -3, -1, 0, 0}};
    case Dimension::current:
      return {{0, 0, 0, 1, 0, 0}};
    case Dimension::power:
      return {{2, 1, -3, 0, 0, 0}};
    case Dimension::energy:
      return {{2, 1, -2, 0, 0, 0}};
    case Dimension::frequency:
      return {{0, 0, -1, 0, 0, 0}};
    case Dimension::capacitance:
      return {{-2, -1, 4, 2, 0, 0}};
    case Dimension::inductance:
      return {{2, 1, -2, -2, 0, 0}};
    case Dimension::duration:
      return {{0, 0, 1, 0, 0, 0}};
    case Dimension::temperature:
      return {{0, 0, 0, 0, 1, 0}, true};
    case Dimension::temperature_difference:
      return {{0, 0, 0, 0, 1, 0}};
    case Dimension::rotational_speed:
      return {{0, 0, -1, 0, 0, 1}};
    case Dimension::mass:
      return {{0, 1, 0, 0, 0, 0}};
    case Dimension::length:
      return {{1, 0, 0, 0, 0, 0}};
    case Dimension::ratio:
      return {};
  }
  return {};
}

std::optional<Dimension> dimension_with(const Powers& powers) {
  for (std::size_t i = 0; i < dimension_count; ++i)
    if (powers_of(static_cast<Dimension>(i)) == powers) return static_cast<Dimension>(i);
  return std::nullopt;
}

std::string in_words(const Powers& powers) {
  if (const std::optional<Dimension> known = dimension_with(powers)) return std::string(phrase_of(*known));
  std::string unit;
  for (std::size_t i = 0; i < powers.of.size(); ++i) {
    if (powers.of[i] == 0) continue;
    unit += (unit.empty() ? "" : " ") + std::string(base_symbols[i]);
    if (powers.of[i] != 1) unit += "^" + std::to_string(powers.of[i]);
  }
  return "a value in " + unit;
}

std::optional<Powers> product(const Powers& a, const Powers& b, int sign) {
  std::array<int, Powers::base_count> sums{};
  for (std::size_t i = 0; i < sums.size(); ++i) sums[i] = a.of[i] + sign * b.of[i];
  return whole(sums);
}

std::optional<Powers> raised(const Powers& a, int exponent) {
  std::array<int, Powers::base_count> sums{};
  for (std::size_t i = 0; i < sums.size(); ++i) sums[i] = a.of[i] * exponent;
  return whole(sums);
}

std::optional<Powers> root(const Powers& a) {
  Powers half;
  for (std::size_t i = 0; i < a.of.size(); ++i) {
    if (a.of[i] % 2 != 0) return std::nullopt;
    half.of[i] = static_cast<std::int8_t>(a.of[i] / 2);
  }
  return half;
}

}  // namespace ohmwright::kind_file
