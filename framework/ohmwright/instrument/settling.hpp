#pragma once

#include <chrono>
#include <functional>

#include <ohmwright/instrument/readout.hpp>

namespace ohmwright::instrument {

/// When values that follow each other agree. Time is part of it: a sensor that was just put into ice water moves less
/// from one value to the next the faster its instrument is, and is no nearer to its end for that.
struct Settling {
  std::size_t agreeing = 5;  ///< values, at least
  /// Largest less smallest of them, as a share of their mean (common practice, no source: a tenth of a good meter's
  /// accuracy).
  double share = 0.001;
  /// Time that they span, at least (common practice, no source).
  std::chrono::milliseconds least_span{2000};
  /// At the pace at which they move they would stay within the share for so long: a probe in stirred water follows with
  /// ten seconds or so, a sensor in its sleeve with thirty (common practice, no source).
  std::chrono::milliseconds outlook{30'000};
  std::chrono::milliseconds longest{120'000};
};

/// What an instrument shows once it no longer moves.
struct SettledReading {
  Observed observed;            ///< the last value, or over-range
  std::size_t agreeing = 0;     ///< values that agree, it among them
  std::size_t passed_over = 0;  ///< values before those
  /// Time that those which agree span. They are no readings taken again: nobody reached for the probes between them, so
  /// they vouch for nothing but themselves.
  std::chrono::milliseconds span{};
};

using Clock = std::function<std::chrono::steady_clock::time_point()>;

/// Reads until the values agree. A program that prints one value and ends says with it that it had settled. Throws
/// InputError when they do not agree within the time, telling between which values they moved and how fast, when some
/// are over-range and some are not, when a program ends before, and what the readout throws.
SettledReading read_settled(Readout& readout, const Settling& settling = {},
                            const Clock& clock = std::chrono::steady_clock::now);

}  // namespace ohmwright::instrument
