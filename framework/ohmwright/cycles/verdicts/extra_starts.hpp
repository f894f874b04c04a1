#pragma once

#include <vector>

#include <ohmwright/cycles/verdicts/counted_interval.hpp>

namespace ohmwright::cycles {

/// Whether intervals by the clock keep one beat beside what somebody started between two of it: most are the beat, and
/// each short one and those behind it fill one beat up. `edge_second`: standard uncertainty of one of them.
bool keep_a_beat_beside_extra_starts(const std::vector<BothCounts>& intervals, double edge_second);

}  // namespace ohmwright::cycles
