#pragma once

#include <array>
#include <string>
#include <string_view>

namespace ohmwright::job {

namespace forms {

// What entries can be; schemas/job-entry.schema.json lists the same words.
inline constexpr std::string_view opened = "opened";
inline constexpr std::string_view phone = "phone";            ///< what was asked before anybody went there
inline constexpr std::string_view appliance = "appliance";    ///< which one it is
inline constexpr std::string_view evidence = "evidence";      ///< a sign, a cause looked at, a temperature, as words
inline constexpr std::string_view agreed = "agreed";          ///< an explicit yes to the caution of a live step
inline constexpr std::string_view reading = "reading";        ///< what an instrument showed, with its verdict
inline constexpr std::string_view replaced = "replaced";      ///< a part, with old and new ratings
inline constexpr std::string_view checked = "checked";        ///< proof after the repair
inline constexpr std::string_view stage = "stage";            ///< a step of the work that was done: panel off
inline constexpr std::string_view state = "state";            ///< open, waiting, closed
inline constexpr std::string_view visit = "visit";            ///< another one begins
inline constexpr std::string_view note = "note";              ///< in somebody's own words
inline constexpr std::string_view taken_back = "taken-back";  ///< an entry that is not to count, and why

inline constexpr std::array all_forms{opened,  phone, appliance, evidence, agreed, reading,   replaced,
                                      checked, stage, state,     visit,    note,   taken_back};

}  // namespace forms

/// What is to be written down.
struct NewEntry {
  std::string form;
  std::string content;        ///< a JSON object (`ContentWriter`)
  std::string happened = {};  ///< when it happened (`time_text`); empty: now
  std::string corrects = {};  ///< id of the entry that this one stands in for
};

/// One thing that was written down, never to be changed.
struct Entry {
  std::string id;
  std::string form;
  std::string recorded;  ///< 2026-03-01T14:30:00.000Z
  std::string happened;  ///< empty: when it was recorded
  std::string who;
  std::string tool;
  std::string corrects;  ///< empty: it stands for itself
  std::string content;

  /// When what it says was so.
  const std::string& when() const { return happened.empty() ? recorded : happened; }
  friend bool operator==(const Entry&, const Entry&) = default;
};

}  // namespace ohmwright::job
