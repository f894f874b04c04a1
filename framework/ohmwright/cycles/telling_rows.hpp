#pragma once

namespace ohmwright::cycles {

/// Rows of the coil that lie further apart show neither each of its rises nor what ended them: a quarter of the
/// shortest rise, 24 min with the drip and the cooling down behind it (common practice, no source) [s].
inline constexpr double farthest_telling_rows_second = 360.0;

/// Rows that an event fills at least, so that what they do not show was not there (common practice, no source).
inline constexpr double fewest_telling_rows = 4.0;

}  // namespace ohmwright::cycles
