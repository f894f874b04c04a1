#pragma once

#include "rules/scene.hpp"
#include "rules/trip_judgement.hpp"

namespace ohmwright::bimetal_thermostat {

/// Places in the texts of the rules on the two trip points; both have them in this order.
enum TripText : TextIndex {
  tripped_once,
  tripped_with_lag,
  tripped_often,
  tripped_scattering,
  tripped_somewhere,
  tripped_as_type_1,
  tripped_backwards,
  tripped_far_apart,
  tripped_by_itself,
  trip_without_ratings,
  trip_not_seen,
  trip_without_temperature,
  trip_only_in_circuit,
  first_text_of_its_own,
};

/// Judges the passages of one trip point against `trip`.
void judge_trip_point(const Scene& scene, RuleIndex rule, const TripSeries& series, const TripPoint& trip);

/// Adds a silent finding that says why no passage can be judged.
void stay_silent_on_trip(const Scene& scene, RuleIndex rule);

/// Adds an undecided finding where passages went the wrong way, or all were between readings too far apart, and a
/// silent one where the contact changed with no change of temperature, which the rule on its state tells; false if
/// there is something to judge, or nothing at all.
bool refuse_passages(const Scene& scene, RuleIndex rule, const TripSeries& series);

/// Whether a link with leads of its own, which the ratings name, was never read as it should be.
bool link_is_unread(const Scene& scene);

}  // namespace ohmwright::bimetal_thermostat
