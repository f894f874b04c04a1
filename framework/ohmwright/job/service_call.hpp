#pragma once

#include <array>
#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/job/entry.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::job {

// States of a job, as files say them.
inline constexpr std::string_view is_open = "open";
inline constexpr std::string_view is_declined = "declined";
inline constexpr std::string_view waits_for_part = "waiting-for-part";
inline constexpr std::string_view waits_for_log = "waiting-for-log";
inline constexpr std::string_view is_repaired = "repaired";
inline constexpr std::string_view is_stopped = "stopped-for-licensed-work";
inline constexpr std::array all_states{is_open, is_declined, waits_for_part, waits_for_log, is_repaired, is_stopped};

/// Whether nothing more is to be done in it.
bool is_closed(std::string_view state);

/// Where and when something of a call was, and which entry says it.
struct Told {
  std::string entry;
  std::string when;  ///< `time_text`
  std::size_t visit = 1;
  std::size_t order = 0;  ///< place among the entries that count: what comes after what
};

/// A rule that tells whether a part may be energised, and what it said of a reading.
struct SafetyFinding {
  std::string rule;
  Outcome outcome = Outcome::undecided;
};

/// What an instrument showed.
struct MeasuredValue : Told {
  std::string place;  ///< id of the test point or the part
  std::string title;  ///< what people call it
  std::string shown;  ///< as it was typed
  std::string word;   ///< TESTPOINT[@SETUP]=VALUE, as fault finding takes it; empty: it takes none of this
  std::string part;   ///< id of the part that was judged; empty: it was judged alone or not at all
  std::string kind;
  std::string ratings;
  std::string records;             ///< the readings (document/reading_record.hpp); empty: judged by no kind
  std::string verdict;             ///< the verdict (document/verdict_record.hpp)
  std::optional<Outcome> outcome;  ///< empty: not judged by itself
  std::optional<double> probability;
  std::string headline;
  std::vector<std::string> reasons;
  std::vector<std::string> doubt;  ///< where it comes from, largest first
  std::string meter;
  std::vector<SafetyFinding> safety;
  std::vector<std::string> cautions;  ///< ids that its step carried
  bool agreed_live = false;
};

/// A part that was exchanged.
struct ReplacedPart : Told {
  std::string part;
  std::string title;
  std::string kind;
  std::string old_ratings;
  std::string old_title;
  std::string new_ratings;
  std::string new_title;
  Outcome equivalence = Outcome::undecided;
  std::vector<std::string> differences;
  std::string because;
  bool tells_insulation = false;  ///< its kind has a rule that tells whether it may be energised
  bool has_earth = false;         ///< the appliance has a protective earth, as far as is known
};

/// Proof after the repair.
struct Check : Told {
  std::string what;  ///< "earth-bond", "forced-defrost", "log"
  Outcome outcome = Outcome::undecided;
  std::string text;
  std::vector<std::string> lines;
  std::vector<std::vector<std::string>> figures;  ///< a table, its head first
  std::string file;                               ///< of a log; empty: none
};

/// A word of fault finding that somebody said: option and value, as the command line takes them.
struct EvidenceWord : Told {
  std::string option;
  std::string word;
};

/// A line that somebody wrote.
struct WrittenNote : Told {
  std::string text;
};

/// A whole call, told from its entries: what was taken back is not in it, what was corrected is as it was corrected.
struct ServiceCall {
  std::string title;
  std::string complaint;
  std::string who;  ///< of the last entry
  std::string opened_at;
  std::map<std::string, std::string> phone;  ///< question and answer
  std::string appliance;                     ///< shipped name; empty: none, or `appliance_file`
  std::string appliance_file;                ///< its file as JSON
  std::string state = std::string(is_open);
  std::string state_reason;
  std::string state_since;
  std::string call_back;
  std::size_t visits = 1;
  std::vector<EvidenceWord> evidence;
  std::vector<MeasuredValue> readings;
  std::vector<ReplacedPart> replaced;
  std::vector<Check> checks;
  std::vector<WrittenNote> notes;
  std::vector<WrittenNote> agreements;  ///< to the cautions of live steps
  std::vector<std::string> stages;      ///< steps of the work that are done
  std::vector<std::string> cautions;    ///< ids of all that were shown with a step, each once

  bool has_stage(std::string_view stage) const;
  bool has_appliance() const { return !appliance.empty() || !appliance_file.empty(); }
  /// Whether somebody agreed to live work on this job.
  bool agreed_to_live_work() const { return !agreements.empty(); }
};

/// Tells the call. Entries that name what is not there are passed over: books of later versions may say more.
ServiceCall told(std::span<const Entry> entries);

/// The last entry that may be taken back: not the opening, and none that is taken back already. Null for none.
const Entry* last_to_take_back(std::span<const Entry> entries);

}  // namespace ohmwright::job
