#include "curves/platinum_curve.hpp"

#include <array>
#include <cmath>

#include "curves/guards.hpp"
#include "curves/inversion.hpp"

namespace ohmwright::defrost_sensor {

namespace {

// IEC 60751:2022.
constexpr double coefficient_a = 3.9083e-3;
constexpr double coefficient_b = -5.775e-7;
constexpr double coefficient_c = -4.183e-12;

/// R/R0 at `t` [°C] and its slope [1/K].
ValueAndSlope ratio(double t) {
  const double below = t < 0.0 ? coefficient_c : 0.0;
  return {1.0 + t * (coefficient_a + t * (coefficient_b + below * (t - 100.0) * t)),
          coefficient_a + 2.0 * coefficient_b * t + below * t * t * (4.0 * t - 300.0)};
}

struct ClassRow {
  std::string_view name;
  PlatinumClass platinum_class;
  double constant;
  double per_kelvin;
  double from;
  double to;
};

constexpr std::array<ClassRow, 4> class_rows{{
    {"AA", PlatinumClass::aa, 0.1, 0.0017, -50.0, 250.0},
    {"A", PlatinumClass::a, 0.15, 0.002, -100.0, 450.0},
    {"B", PlatinumClass::b, 0.3, 0.005, -196.0, 600.0},
    {"C", PlatinumClass::c, 0.6, 0.01, -196.0, 600.0},
}};

const ClassRow& row_of(PlatinumClass platinum_class) { return class_rows[static_cast<std::size_t>(platinum_class)]; }

}  // namespace

std::optional<PlatinumClass> platinum_class_named(std::string_view name) {
  for (const ClassRow& row : class_rows)
    if (row.name == name) return row.platinum_class;
  return std::nullopt;
}

TemperatureDifference class_tolerance(PlatinumClass platinum_class, Temperature t) {
  const ClassRow& row = row_of(platinum_class);
  return TemperatureDifference::from_value(row.constant + row.per_kelvin * std::abs(t.celsius()));
}

TemperatureSpan class_span(PlatinumClass platinum_class) {
  const ClassRow& row = row_of(platinum_class);
  return {Temperature::from_celsius(row.from), Temperature::from_celsius(row.to)};
}

PlatinumCurve::PlatinumCurve(Resistance ice_point_resistance, PlatinumClass platinum_class)
    : log_ice_point_(std::log(ice_point_resistance.value())), class_(platinum_class) {
  require_positive(ice_point_resistance);
}

double PlatinumCurve::log_resistance(Temperature t) const {
  return log_ice_point_ + std::log(ratio(t.celsius()).value);
}

double PlatinumCurve::log_slope(Temperature t) const {
  const auto [value, slope] = ratio(t.celsius());
  return slope / value;
}

std::optional<Temperature> PlatinumCurve::temperature_at(double log_resistance) const {
  const double target = std::exp(log_resistance - log_ice_point_);
  if (target < 1.0) {
    const std::optional<double> t = invert_rising(ratio, target, domain().from.celsius(), 0.0);
    return t ? std::optional(Temperature::from_celsius(*t)) : std::nullopt;
  }
  const double discriminant = coefficient_a * coefficient_a - 4.0 * coefficient_b * (1.0 - target);
  if (!(discriminant >= 0.0)) return std::nullopt;
  // Written with the root in the denominator: near 0 °C the usual form subtracts two nearly equal numbers.
  const Temperature t = Temperature::from_celsius(2.0 * (target - 1.0) / (coefficient_a + std::sqrt(discriminant)));
  if (!domain().contains(t)) return std::nullopt;
  return t;
}

double PlatinumCurve::model_error(Temperature t) const {
  if (span().contains(t)) return 0.0;
  return class_tolerance(PlatinumClass::c, t).value() * log_slope(t);
}

}  // namespace ohmwright::defrost_sensor
