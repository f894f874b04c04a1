#pragma once

#include <ohmwright/cycles/verdicts/defrost_wait.hpp>

namespace ohmwright::cycles {

/// P(no row of the coil shows a rise | defrosts came as they were due in that open interval, `wait` by its count).
/// 1 where the coil was not logged all the time, or was as warm as in a rise.
///
/// A row shows a rise where all of what it is the mean of lies within the rise's warm part: rows of half that part are
/// never without one, rows as long as it may all straddle an edge. A control that goes by the clock keeps its beat with
/// a logger that does, so that all of its rises lie alike to the rows: only one that counts the compressor's running
/// throws the dice for each.
double probability_of_missed_rises(const JudgedLog& log, const OpenInterval& open, const DefrostWait& wait);

/// Whether rows of the coil were as warm as in a rise at least half as often as defrosts were due in that open
/// interval: they come, as it seems, though no row shows one whole.
bool shows_warm_rows(const JudgedLog& log, const OpenInterval& open, const DefrostWait& wait);

}  // namespace ohmwright::cycles
