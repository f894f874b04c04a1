#pragma once

#include <cstddef>
#include <cstdint>

#include "model/definition.hpp"
#include "part/part_of_file.hpp"
#include "part/sameness.hpp"

namespace ohmwright::kind_file {

/// What a figure of the ratings is to the contacts of the kind: nothing, a point of switching, or the one at which a
/// contact protects; where that resets it only switches.
enum class TripPoint : std::uint8_t { none, switches, protects };

TripPoint trip_point_of(const Definition& definition, std::size_t rating);

/// Slack of a figure that is such a point [SI]: one that protects may never act later, not even by a kelvin.
Slack slack_of_trip_point(TripPoint trip, Dimension dimension, double original);

/// How the ends of the candidate's contact lie to those of the original's.
enum class EndsCompared : std::uint8_t {
  alike,
  wider,      ///< it may switch where no original does
  elsewhere,  ///< it may not, and yet it switches at another place
};

/// Compares the ends of a contact rule that both parts know alike, each by itself: neither further out nor further in,
/// but that one further in is the same where both state the trip point behind it and that is the same.
EndsCompared compare_ends(const Definition& definition, std::size_t rule, const PartOfFile& original,
                          const PartOfFile& candidate);

}  // namespace ohmwright::kind_file
