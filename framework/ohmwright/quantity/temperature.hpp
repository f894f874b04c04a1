#pragma once

#include <compare>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/units.hpp>

namespace ohmwright {

/// A point on the temperature scale.
///
/// Boost.Units has absolute temperatures, but lets one be multiplied by a number (25 °C · 2 becomes 50 °C). Here only
/// what has a meaning exists: point − point gives a difference, point ± difference gives a point, points compare.
class Temperature {
 public:
  /// 0 degC in kelvin, exact by definition (SI brochure, 9th edition, 2.3.1).
  static constexpr double kelvin_at_zero_celsius = 273.15;
  /// 0 degC in degrees Fahrenheit.
  static constexpr double fahrenheit_at_zero_celsius = 32.0;

  /// The point `kelvin` [K] above absolute zero.
  static constexpr Temperature from_kelvin(double kelvin) { return Temperature(kelvin); }
  /// The point `celsius` [degC].
  static constexpr Temperature from_celsius(double celsius) { return Temperature(celsius + kelvin_at_zero_celsius); }
  /// The point `fahrenheit` [degF].
  static constexpr Temperature from_fahrenheit(double fahrenheit) {
    return Temperature((fahrenheit - fahrenheit_at_zero_celsius) * 5.0 / 9.0 + kelvin_at_zero_celsius);
  }

  /// The number in [K].
  constexpr double kelvin() const { return kelvin_; }
  /// The number in [degC].
  constexpr double celsius() const { return kelvin_ - kelvin_at_zero_celsius; }
  /// The number in [degF].
  constexpr double fahrenheit() const { return celsius() * 9.0 / 5.0 + fahrenheit_at_zero_celsius; }

  // NOLINTNEXTLINE(modernize-use-nullptr): clang-tidy 14 takes the 0 inside a defaulted <=> for a pointer
  friend constexpr auto operator<=>(Temperature, Temperature) = default;

  friend TemperatureDifference operator-(Temperature a, Temperature b) {
    return TemperatureDifference::from_value(a.kelvin_ - b.kelvin_);
  }
  friend Temperature operator+(Temperature t, const TemperatureDifference& d) {
    return Temperature(t.kelvin_ + d.value());
  }
  friend Temperature operator+(const TemperatureDifference& d, Temperature t) { return t + d; }
  friend Temperature operator-(Temperature t, const TemperatureDifference& d) {
    return Temperature(t.kelvin_ - d.value());
  }

 private:
  explicit constexpr Temperature(double kelvin) : kelvin_(kelvin) {}

  double kelvin_;
};

}  // namespace ohmwright
