#pragma once

#include <string_view>

#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

/// How long no defrost came, against the longest that may pass between two.
struct DefrostWait {
  double waited_second = 0.0;   ///< by the count that the rating goes by
  double longest_second = 0.0;  ///< rated, else the rarest that is known
  bool is_rated = false;
  double unseen_share = 0.0;  ///< of the time, in which one may have come unseen
  double doubt_second = 0.0;  ///< of what was waited: two standard uncertainties
};

/// The wait in which no defrost was seen, whichever end of the log is open, or both.
DefrostWait wait_of(const JudgedLog& log, const OpenInterval& open);

/// P(none seen for so long | they come at least every `longest_second`): 1 up to that, beyond it the chance that each
/// one that was due came unseen. The log's beginning is no random moment: who plugs a meter in cuts the supply, and
/// many controls begin to count then.
double probability_of_wait(const DefrostWait& wait);

/// Why a defrost may have come unseen, or need not come, however long the wait: a text of "defrosts-come"; empty where
/// nothing speaks for it.
std::string_view why_unseen(const JudgedLog& log);

/// Whether rows are so far apart that they step over the shortest heating, and over the coil's rise where it is logged.
bool rows_step_over_heating(const LogAnalysis& analysis);

/// Whether an event that lasted so long [s] fills so many rows that what they do not show was not there.
bool fills_telling_rows(const LogAnalysis& analysis, double second);

/// Whether all that was told from the load may be the compressor's: it has one level above standby, and no coil tells.
bool may_be_cooling_alone(const LogAnalysis& analysis);

/// The least that a defrost heater draws, where none is rated, at the lowest line [W, A]: 90 % of the weakest class
/// that is shipped (180 W at 230 V), at 90 % of its voltage (EN 50160, from memory). A test holds them against the
/// classes.
inline constexpr double weakest_heater_watt = 180.0 * 0.9 * 0.9 * 0.9;
inline constexpr double weakest_heater_ampere = 180.0 / 230.0 * 0.9 * 0.9;

}  // namespace ohmwright::cycles
