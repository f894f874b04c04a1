#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/course/bench.hpp>
#include <ohmwright/course/exercise.hpp>
#include <ohmwright/course/record.hpp>
#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::course {

/// What a record comes to when it is done again.
struct Replay {
  std::optional<std::size_t> differs_at;  ///< first entry that does not come out as it stands in the record
  const Entry* answer = nullptr;          ///< of the record; null: none was given
  /// What was met, in order; a hazard that lasted counts once until the plug is touched or the supply is tested.
  std::vector<std::string> hazards;
  bool has_measured = false;  ///< whether any reading was taken or tried
  double minutes = 0.0;
};

/// Does every entry of the record again. `record` must outlive the result.
Replay replay_of(const Exercise& exercise, const Record& record);

/// What entries tell the engine: readings, and what was looked at.
struct Told {
  std::vector<locate::TakenReading> readings;
  locate::Signs looks;
};

/// Adds what an entry tells: nothing of a reading that says nothing (volts with the plug out, OL on a low range).
void add_told(const Bench& bench, const Exercise& exercise, const Entry& entry, bool live, Told& told);

/// By entry of the record: whether the appliance was plugged in.
std::vector<bool> plugged_in(const Exercise& exercise, const Record& record);

}  // namespace ohmwright::course
