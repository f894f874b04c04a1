#pragma once

#include <chrono>
#include <vector>

#include <ohmwright/instrument/readout.hpp>

namespace ohmwright::instrument {

/// When values that follow each other agree.
struct Settling {
  std::size_t agreeing = 5;  ///< values in a row
  /// Largest less smallest of them, as a share of their mean (common practice, no source: a tenth of a good meter's
  /// accuracy).
  double share = 0.001;
  std::chrono::milliseconds longest{60'000};
};

/// What an instrument shows once it no longer moves.
struct SettledReading {
  Observed observed;            ///< the last value, or over-range
  std::vector<double> repeats;  ///< the values before it that agree with it [SI]
  std::size_t passed_over = 0;  ///< values before those
};

/// Reads until `Settling::agreeing` values agree. Throws InputError when they do not within the time, telling between
/// which values they moved, when some are over-range and some are not, and what the readout throws.
SettledReading read_settled(Readout& readout, const Settling& settling = {});

}  // namespace ohmwright::instrument
