#pragma once

#include <cstdint>
#include <optional>
#include <span>
#include <string_view>

namespace ohmwright::job {

// The words of a book, each listed once: here as values, in book_words.cpp as files say them, and in
// schemas/job-entry.schema.json. A book of a later version may hold words that are not among them.

/// What an entry can be.
enum class EntryForm : std::uint8_t {
  opened,
  phone,       ///< what was asked before anybody went there
  appliance,   ///< which one it is
  evidence,    ///< a sign, a cause looked at, a temperature, as words
  agreed,      ///< an explicit yes to the caution of a live step
  reading,     ///< what an instrument showed, with its verdict
  replaced,    ///< a part, with old and new ratings
  mended,      ///< a part or joint, where it is, and what was done
  checked,     ///< proof after the repair
  stage,       ///< a step of the work that was done
  state,       ///< open, waiting, closed
  visit,       ///< another one begins
  note,        ///< in somebody's own words
  taken_back,  ///< an entry that is not to count, and why
};
std::string_view name_of(EntryForm form);
std::optional<EntryForm> entry_form_named(std::string_view name);

enum class JobState : std::uint8_t { open, declined, waits_for_part, waits_for_log, repaired, stopped };
std::string_view name_of(JobState state);
std::optional<JobState> job_state_named(std::string_view name);
/// All of them, in the order in which they are listed.
std::span<const JobState> all_job_states();
/// Whether nothing more is to be done in it.
bool is_closed(JobState state);

/// What is checked after a repair.
enum class CheckForm : std::uint8_t { earth_bond, forced_defrost, log };
std::string_view name_of(CheckForm form);
std::optional<CheckForm> check_form_named(std::string_view name);

/// A step of the work that leaves no reading.
enum class Stage : std::uint8_t {
  generic_appliance,  ///< no shipped one is it: a generic one is built from six answers
  looked,             ///< what is to be seen was said
  ice_cleared,        ///< the panel is off and the ice melted, so that the old part comes out
  refitted,
  new_part_unread,  ///< it cannot be read
  panel_on,
  no_forced_defrost,
  no_log,
};
std::string_view name_of(Stage stage);
std::optional<Stage> stage_named(std::string_view name);

}  // namespace ohmwright::job
