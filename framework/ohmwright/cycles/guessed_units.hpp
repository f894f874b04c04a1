#pragma once

#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// Doubts the unit of a coil where it was guessed from the numbers (`reading`: the reader's findings): degC is
/// contradicted by defrosts that rest at 32 and none at 0, even where the log itself says degC, and unproved where the
/// coil gets hotter than a good defrost lets it and never rests at 0, since degF look so. What is in doubt is asked
/// about (`LogAnalysis::findings`), and no rule speaks on it. A heating that does not stop stays what it is: an alarm
/// waits for no unit.
void doubt_guessed_units(const std::vector<LogFinding>& reading, LogAnalysis& analysis);

}  // namespace ohmwright::cycles
