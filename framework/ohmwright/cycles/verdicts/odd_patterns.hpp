#pragma once

#include <cstddef>
#include <optional>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// Defrosts that are missing from an otherwise even beat.
struct MissedBeats {
  double beat_second = 0.0;  ///< the usual interval, by the clock
  double missed = 0.0;       ///< how many did not come, or did not heat
  double all = 0.0;          ///< how many were due, these among them
};

/// Where every interval that no gap cuts is the usual one, or a whole multiple of it after which the beat goes on;
/// nothing where one is neither: a control that varies its interval skips none.
std::optional<MissedBeats> missed_beats(const LogAnalysis& analysis);

/// How many heatings at the log's end are of one length, longer than all before them, which were of several, or
/// of less than half of it: a limit that began to act. Nothing where it is not so.
std::optional<std::size_t> step_to_one_length(const LogAnalysis& analysis);

}  // namespace ohmwright::cycles
