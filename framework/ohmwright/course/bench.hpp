#pragma once

#include <cstddef>
#include <optional>
#include <vector>

#include <ohmwright/locate/prober.hpp>

namespace ohmwright::course {

/// What a student stands before: an appliance, and where each test point is found again with its leads left in.
struct Bench {
  Appliance appliance;
  /// Test points as the file has them; those after them are the same with their leads left in.
  std::size_t test_points = 0;
  std::vector<std::optional<std::size_t>> left_in;  ///< by test point of the file: index of that second form
  bool on_the_table = false;                        ///< one part alone, connected to nothing
};

// Set-ups of every part on the table.
inline constexpr const char* ice_water = "ice-water";
inline constexpr const char* salted_ice = "salted-ice";
inline constexpr const char* warm_water = "warm-water";

/// Most values that an exercise holds: repeated readings of every combination.
inline constexpr std::size_t most_values = 5000;

/// The appliance as a bench. A connector that stays in leaves its parallel paths in the reading.
Bench bench_of(Appliance appliance);

/// One part of an appliance alone on the table, its terminals free, in the air of the room, ice water, salted ice or
/// warm water, and in each of the states that a hand can put it into and an ohmmeter tells. Ohms only.
Bench table_of(const Appliance& appliance, std::size_t part);

/// One combination of test point, leads and set-up, in the order in which files list them.
struct Combination {
  locate::Measurement measurement;  ///< of the bench's appliance
  std::size_t test_point = 0;       ///< as the file has it
  bool leads_in = false;
};

/// All that can be asked for, by set-up (as found first), then by test point. Throws InputError for an appliance of
/// more than `most_values`.
std::vector<Combination> combinations(const Bench& bench);

/// How often each combination was read beforehand: 3, fewer where that would be more than `most_values`.
std::size_t repeats_of(std::size_t combination_count);

}  // namespace ohmwright::course
