#pragma once

#include <cstddef>
#include <map>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/job/book_words.hpp>
#include <ohmwright/job/entry.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::job {

/// Where and when something of a call was, and which entry says it.
struct Told {
  std::string entry;
  std::string when;       ///< `time_text`
  std::size_t visit = 1;  ///< on which it was so, as its time says, and not when somebody wrote it down
  std::size_t order = 0;  ///< place among the entries that count

  /// Whether it was so before the other was: by the times that were stated, and of one instant by what was entered
  /// first.
  bool happened_before(const Told& other) const { return when != other.when ? when < other.when : order < other.order; }
};

/// Whether a time is before the minute in which something began (both `time_text`): times are stated by the minute, so
/// that what was entered last decides within one.
bool is_before_minute_of(std::string_view began, std::string_view when);

/// The row that was so last, of those that count; null: none.
template <class Row>
const Row* latest(const std::vector<Row>& rows, const auto& counts) {
  const Row* last = nullptr;
  for (const Row& row : rows)
    if (counts(row) && (last == nullptr || last->happened_before(row))) last = &row;
  return last;
}

/// The same for each key that `key` gives of a row.
template <class Row>
std::map<std::string, const Row*> latest_of_each(const std::vector<Row>& rows, const auto& key, const auto& counts) {
  std::map<std::string, const Row*> last;
  for (const Row& row : rows) {
    if (!counts(row)) continue;
    const Row*& known = last[key(row)];
    if (known == nullptr || known->happened_before(row)) known = &row;
  }
  return last;
}

/// A rule that tells whether a part may be energised, and what it said of a reading.
struct SafetyFinding {
  std::string rule;
  Outcome outcome = Outcome::undecided;
  /// What it says in an appliance without a protective earth, of which more is asked (class II); empty: the same.
  std::optional<Outcome> without_earth = {};
  /// It is of a sensor's circuit, or of another at low voltage: nothing of what lies at the mains.
  bool low_voltage = false;
};

/// The rule under which the book keeps what a reading between a conductor and the protective earth says of a leak: out
/// of limits where there is one, undecided where none is seen (only an insulation tester proves that there is none).
inline constexpr std::string_view leak_rule = "leak-to-earth";

/// What an instrument showed.
struct MeasuredValue : Told {
  std::string place;               ///< id of the test point or the part
  std::string title;               ///< what people call it
  std::string point;               ///< what people call the test point; empty: it was read at none
  std::string shown;               ///< as it was typed
  std::string reads;               ///< the same for people, with its unit; empty: as it was typed
  std::string beside;              ///< earlier readings that it was judged together with, for people; empty: none
  std::string word;                ///< TESTPOINT[@SETUP]=VALUE, as fault finding takes it; empty: it takes none of this
  std::vector<std::string> zones;  ///< ZONE=TEMPERATURE, as it was stated with this reading alone
  /// Id of the part that was judged, or of its kind where it was judged alone; empty: not judged.
  std::string part;
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
  /// What it says of that of the part which opens once and for good (`RuleDescriptor::condemns_for_good`); empty:
  /// nothing.
  std::optional<Outcome> for_good;
  /// It shows a contact open at a temperature at which its kind condemns a closed one: surely where it is warm.
  bool open_where_warm = false;
  bool lacks_earth = false;  ///< the file of its appliance names no protective earth
  /// It was read through the circuit, at a point of no part alone, after a repair, and is what an appliance in order
  /// would show there.
  bool as_it_should = false;

  bool condemned_for_good() const { return for_good == Outcome::out_of_limits; }
  const std::string& for_people() const { return reads.empty() ? shown : reads; }
  /// The part that was judged, or the kind that was judged alone.
  const std::string& subject() const { return part.empty() ? kind : part; }
  /// Where the probes were: TESTPOINT[@SETUP], or the part that was read, by its id whatever it was called.
  std::string place_read() const {
    if (!word.empty()) return word.substr(0, word.find('='));
    return subject().empty() ? place : subject();
  }
};

/// What may have overheated a part that heat opens, as its appliance's file and the kinds of its parts say it: ids.
struct Overheating {
  bool is_known = false;            ///< false: the call had no appliance, and anything that was found counts
  std::vector<std::string> parts;   ///< what heats, or should have ended the heat: none that is open
  std::vector<std::string> movers;  ///< what moves air or water over it, however that fails
  std::vector<std::string> causes;  ///< outside causes
};

/// A part that was exchanged, or mended where it is: either way what was read of it before says nothing more of it.
struct ReplacedPart : Told {
  std::string part;
  std::string title;
  std::string kind;
  std::string mended;  ///< what was done to it where it is; empty: another one went in
  std::string old_ratings;
  std::string old_title;
  std::string new_ratings;
  std::string new_file;  ///< where that named a file, the file as JSON
  std::string new_title;
  Outcome equivalence = Outcome::undecided;
  std::vector<std::string> differences;
  std::string because;
  bool tells_insulation = false;  ///< its kind has a rule that tells whether it may be energised
  bool bears_test_volts = true;   ///< a tester's 500 V prove it; false for what they would destroy
  /// It has no insulation of its own to read, and parts of its appliance have: theirs is read in its stead.
  bool asks_circuit_insulation = false;
  bool has_earth = false;       ///< the appliance has a protective earth, as far as is known
  bool opens_for_good = false;  ///< it is nothing but what opens once and for good: the old one was overheated
  bool trips_by_heat = false;   ///< it opens by heat, and closes once it is cool or its button is pressed
  Overheating overheating;
  /// TESTPOINT[@SETUP] of no part alone at which what was read last spoke against the old one; empty: nowhere.
  std::string read_through;

  bool was_mended() const { return !mended.empty(); }
};

/// What is kept of an earth bond where there is no protective earth (class II).
inline constexpr std::string_view no_earth = "none";

/// What is kept of a forced defrost that heated and did not end by itself.
inline constexpr std::string_view heat_without_end = "did-not-end";

/// Proof after the repair.
struct Check : Told {
  CheckForm form = CheckForm::log;
  Outcome outcome = Outcome::undecided;
  std::string text;
  std::vector<std::string> lines;
  std::vector<std::vector<std::string>> figures;  ///< a table, its head first
  std::string file;                               ///< of a log; empty: none
  std::string drawing;                            ///< of a log, what its picture is drawn from, as JSON
  std::string result;  ///< of a forced defrost: "ended", "no-heat" or `heat_without_end`; of an earth bond: `no_earth`
};

/// A word of fault finding that somebody said: option and value, as the command line takes them.
struct EvidenceWord : Told {
  std::string option;
  std::string word;
  std::string file = {};  ///< where the word named a file, that as JSON
};

/// A step of the work that was done.
struct DoneStage : Told {
  Stage stage = Stage::looked;
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
  std::map<std::string, Told> answered;      ///< when each of them was
  std::string appliance;                     ///< shipped name; empty: none, or only `appliance_file`
  std::string appliance_file;                ///< its file as JSON, also of a shipped one: that may change or go
  std::string refrigerant;                   ///< as the appliance's file says it; empty: nobody knows
  JobState state = JobState::open;
  std::string state_reason;
  std::string state_since;
  std::size_t repairs_closed = 0;  ///< how many of `replaced` there were when it was last closed as repaired
  std::string call_back;
  std::size_t visits = 1;
  std::vector<std::string> visits_began;  ///< `time_text` of each after the first
  std::vector<EvidenceWord> evidence;
  std::vector<MeasuredValue> readings;
  std::vector<ReplacedPart> replaced;
  std::vector<Check> checks;
  std::vector<WrittenNote> notes;
  std::vector<WrittenNote> agreements;  ///< to the cautions of live steps
  std::vector<DoneStage> stages;
  std::vector<std::string> cautions;  ///< ids of all that were shown with a step, each once

  bool has_stage(Stage stage) const;
  /// Whether it was done after that.
  bool has_stage_since(Stage stage, const Told& since) const;
  bool has_appliance() const { return !appliance.empty() || !appliance_file.empty(); }
  /// Whether it has a refrigerant, and so frost and a defrost; true as long as nobody knows.
  bool cools() const { return refrigerant != "none"; }
  /// Whether a part was replaced or mended since it was last closed as repaired, if it was.
  bool has_new_repair() const;
  /// What was replaced or mended last, of all, of a part, and of a part with a new one; null: nothing.
  const ReplacedPart* last_work() const;
  const ReplacedPart* last_work_on(std::string_view part) const;
  const ReplacedPart* last_new(std::string_view part) const;
  std::map<std::string, const ReplacedPart*> last_work_on_each() const;  ///< by part
  /// The last reading at a place (`MeasuredValue::place_read`); null: none.
  const MeasuredValue* last_reading_at(std::string_view place) const;
  /// The visit of that time: of a minute in which one began, that one. What is from before the job is of the first.
  std::size_t visit_at(std::string_view when) const;
  /// Whether it was stated to be from before the job.
  bool is_from_before(const Told& told) const { return is_before_minute_of(opened_at, told.when); }
  /// Whether somebody agreed to live work on this visit.
  bool agreed_to_live_work() const;
};

/// Tells the call. One that waits for a log is open once that is there, or nobody may leave it plugged in. Entries that
/// name what is not there are passed over: books of later versions may say more.
ServiceCall told(std::span<const Entry> entries);
/// The same as it stood at that time (`time_text`), as far as it is known now.
ServiceCall told_until(std::span<const Entry> entries, const std::string& time);

/// Whether an entry no longer counts: another stands in for it, or takes it back.
bool is_corrected(std::span<const Entry> entries, const Entry& entry);

/// The last answer that may be taken back, all entries of it that were written down together: not the opening, none
/// that is taken back already, and nothing that was written with a taking back. Empty for none.
std::vector<const Entry*> last_to_take_back(std::span<const Entry> entries);

}  // namespace ohmwright::job
