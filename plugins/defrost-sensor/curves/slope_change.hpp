#pragma once

#include "curves/curve.hpp"

namespace ohmwright::defrost_sensor {

// A thermistor's local slope B(T) = −T²·d ln R/dT rises slowly with temperature. A formula that does not know how fast
// is wrong by what the bound below allows.

/// Largest relative change of the local slope a kelvin [1/K].
///
/// Own bound. A published four-coefficient set of a 10 kΩ, B25/85 = 3977 K material changes by 0.087 % a kelvin at 25
/// °C, 0.14 % at −20 °C and 0.16 % at −35 °C; pairs of B25/50 and B25/100 of other materials give 0.08…0.09 %. Five
/// published charts from −40 to 120 °C use between none and 67 % of what it allows a two-point beta
/// (tests/outside/defrost_sensor/real_charts_test.cpp).
inline constexpr double slope_change_per_kelvin = 0.002;

/// Largest |d²(ln R)/d(1/T)²| = |dB/d(1/T)| [K²]: how far ln R over 1/T is from a straight line.
///
/// Own bound. The published set has at most 3.3·10⁵ K² from −40 to 85 °C; the five charts have up to 5.7·10⁵ K².
inline constexpr double largest_bend_kelvin_squared = 6e5;

/// Whether it is known that the slope grows with temperature, or stays: so in all these charts up to 90 °C. Above, that
/// of one falls again.
bool bend_has_known_sense(Temperature t);

/// Error in ln R at `t` of a curve that is exact at `a` and `b` and straight in (1/T, ln R) between and beyond, with
/// the local slope `beta_kelvin` [K]: positive between the two, negative outside. Half-width, rectangular.
///
/// For B(T) = B + g·(T − Tm):  ∫(B(T) − B) d(1/T) = g·[ln(x/xa) − (x − xa)·ln(xb/xa)/(xb − xa)],  x = 1/T.
double error_of_straight_line(Temperature t, Temperature a, Temperature b, double beta_kelvin);

/// Error in ln R at `t`, between two rows of a chart that is exact in them and straight in (1/T, ln R) from one to the
/// other: ½·bend·(x − x_hot)·(x_cold − x), at most bend·h²/8 in the middle of h = x_cold − x_hot; 0 in the rows.
/// Half-width, rectangular.
/// Source: remainder of linear interpolation, any text on numerical analysis.
double error_between_rows(Temperature t, Temperature cold, Temperature hot);

/// Error in ln R at `t` of a curve that is right up to `edge`, slope included, and goes on past it:
/// g·[ln(x/xe) − (x − xe)/xe] ≤ 0. Half-width, rectangular.
double error_past_edge(Temperature t, Temperature edge, double beta_kelvin);

/// `error_past_edge` of a curve that vouches for its span, from the nearer end; 0 inside.
double error_outside_span(const Curve& curve, Temperature t);

/// Local slope B(T) = −T²·d ln R/dT [K].
double local_beta(const Curve& curve, Temperature t);

}  // namespace ohmwright::defrost_sensor
