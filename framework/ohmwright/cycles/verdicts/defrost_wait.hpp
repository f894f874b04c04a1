#pragma once

#include <cstdint>
#include <optional>
#include <string_view>

#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

/// How long no defrost came, against the longest that may pass between two.
struct DefrostWait {
  double waited_second = 0.0;   ///< by the count that the rating goes by
  double longest_second = 0.0;  ///< rated, else the rarest that is known
  bool is_rated = false;
  double unseen_share = 0.0;    ///< of the time, in which one may have come unseen
  double doubt_second = 0.0;    ///< of what was waited: two standard uncertainties
  bool counts_running = false;  ///< the rating goes by the compressor's running, and so does what was waited
};

/// The wait in which no defrost was seen, whichever end of the log is open, or both.
DefrostWait wait_of(const JudgedLog& log, const OpenInterval& open);

/// The longest that controls of variable intervals wait [s], by the compressor's running, where such a one may be at
/// work and that has not yet gone by: nothing is rated, and the log shows no timer's beat.
std::optional<double> longest_running_of_slow_control(const JudgedLog& log, const OpenInterval& open);

/// P(none seen for so long | they come at least every `longest_second`): 1 up to that, beyond it the chance that each
/// one that was due came unseen. The log's beginning is no random moment: who plugs a meter in cuts the supply, and
/// many controls begin to count then.
double probability_of_wait(const DefrostWait& wait);

/// Why a defrost may have come unseen, or need not come, however long the wait.
enum class WhyUnseen : std::uint8_t {
  nothing,            ///< nothing speaks for it
  heats_on,           ///< beside a load that does not stop
  thaws_in_pauses,    ///< none need come
  rows_too_far,       ///< rows step over heatings, and over the coil's rises
  load_hides_heater,  ///< the compressor draws as much as the heater may
  load_hides_half,    ///< or as half of the heater that was seen, of which one element may have failed since
  too_short_to_show,  ///< rows stand out one by one
  cools_or_heats,     ///< the load has one level above standby
};
WhyUnseen why_unseen(const JudgedLog& log);
/// A freezer's coil that thaws again and again: no pause of the compressor does that, and hardly any of it was told as
/// defrosts. A freezer's is one beside air that stays frozen, or where no air was logged, one that is as cold itself.
bool thaws_in_a_freezer(const LogAnalysis& analysis);
/// What lies between two defrosts as a rule [s], where that is shorter than any control waits, rated or known.
std::optional<double> too_short_usual_interval(const JudgedLog& log);
/// Its text of "defrosts-come".
std::string_view text_of(WhyUnseen why);

/// Whether rows are so far apart that they step over the shortest heating, and over the coil's rise where it is logged.
bool rows_step_over_heating(const LogAnalysis& analysis);

/// Whether the load tells alone and the usual heating fills so few of its rows that others may not show.
bool heatings_fill_few_rows(const LogAnalysis& analysis);

/// Whether an event that lasted so long [s] fills so many rows that what they do not show was not there.
bool fills_telling_rows(const LogAnalysis& analysis, double second);

/// Whether all that was told from the load may be the compressor's: it has one level above standby, and no coil tells.
bool may_be_cooling_alone(const LogAnalysis& analysis);

}  // namespace ohmwright::cycles
