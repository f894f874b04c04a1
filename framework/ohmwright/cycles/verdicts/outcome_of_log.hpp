#pragma once

#include <vector>

#include <ohmwright/cycles/verdicts/log_verdict.hpp>

namespace ohmwright::cycles {

/// What a log from after a repair proves by itself: within limits where defrosts came and ended well and nothing asks
/// for a test, out of limits where something does, else undecided. A log in which none was judged proves nothing.
Outcome outcome_of_log(const std::vector<LogVerdict>& verdicts);

}  // namespace ohmwright::cycles
