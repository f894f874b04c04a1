#pragma once

#include <span>

#include "fit/fit_row.hpp"
#include "fit/pattern.hpp"

namespace ohmwright::defrost_sensor {

/// Which rows the others do not bear out, one flag a row; none among fewer than six.
///
/// The rows that fit worst are put aside until six in ten are left, so that several wrong ones cannot hide each other;
/// then they come back, the best first, as long as Student's t of their prediction error allows it (1 % that any of
/// good rows is refused). A row less than `harmless_kelvin` off always comes back. Source: Hadi and Simonoff,
/// "Procedures for the identification of multiple outliers in linear models", J. Am. Stat. Assoc. 88 (1993) 1264–1272
/// (from memory).
std::vector<bool> not_borne_out(std::span<const FitRow> rows, const ThermistorLine& line);

/// A quarter of a room thermometer's error, 1 % of the ohms (common practice, no source) [K].
inline constexpr double harmless_kelvin = 0.25;

}  // namespace ohmwright::defrost_sensor
