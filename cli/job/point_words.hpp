#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>

namespace ohmwright::cli {

/// Whether a word may stand beside readings at test points, whose leads and supply the appliance's file states already:
/// "--lead-off", "--in-circuit", "--proved-dead", "--unplugged", "--live".
bool is_stated_by_points(const std::string& word);

/// The words beside "--at TEMPERATURE" (or "--at=TEMPERATURE"), and that temperature. Throws InputError where it is
/// missing.
struct PointWords {
  std::vector<std::string> words;
  std::optional<std::string> at;
};
PointWords words_of_points(const std::vector<std::string>& typed);

/// The temperature of the part that is read at the test point, as ZONE=TEMPERATURE of its place. Throws InputError for
/// a point that reads no part alone, or one of no zone.
std::string zone_word_at(const std::string& at, const TestPoint& point, std::optional<std::size_t> part,
                         const Appliance& appliance);

/// Refuses what contradicts the test point; what it says itself may be said again.
void refuse_what_the_point_contradicts(std::string_view option, const TestPoint& point, bool live);

}  // namespace ohmwright::cli
