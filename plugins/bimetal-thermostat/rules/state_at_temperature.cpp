#include "rules/state_at_temperature.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/component/repeated_readings.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "rules/good_part.hpp"
#include "rules/state_at_temperature_texts.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

using Text = StateText;

/// What single readings showed, the most telling one first.
struct Seen {
  std::optional<StateSeen> state;
  std::optional<StateSeen> closed_cold;  ///< as it should be
  std::optional<StateSeen> open_warm;    ///< likewise
  std::optional<StateSeen> closed_warm;  ///< where a good one is open
  std::optional<StateSeen> open_cold;    ///< where a good one is closed
  const PreparedReading* poor = nullptr;
  const PreparedReading* jumping = nullptr;  ///< its repeats
  const PreparedReading* refused = nullptr;  ///< on a range that tells no contact
  bool live = false;
  bool in_the_circuit = false;
  bool alone = false;
  bool explained = false;
};

/// It was seen to open warmer than this, or to close colder: the rules on the trip points say what that is worth.
bool is_explained_by_trips(const Scene& scene, const StateSeen& state) {
  const TripSeries& trip = state.closed ? scene.opening : scene.closing;
  if (trip.count() == 0) return false;
  if (state.closed) return state.temperature <= trip.passages().to() + trip.largest_lag();
  return state.temperature >= trip.passages().from() - trip.largest_lag();
}

Seen look(const Scene& scene) {
  Seen seen;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != contact_state) continue;
    if (is_live(reading)) {
      seen.live = true;
    } else if (is_in_circuit(reading)) {
      seen.in_the_circuit = true;
    } else if (repeats_jump_past_digits(scene.evidence, reading)) {
      seen.jumping = &reading;
    } else if (contact_seen(reading) == ContactSeen::poor) {
      seen.poor = &reading;
    } else if (contact_seen(reading) == ContactSeen::nothing) {
      seen.refused = &reading;
    } else {
      seen.alone = true;
      const std::optional<StateSeen> state = state_seen(scene, reading);
      if (state && is_explained_by_trips(scene, *state)) {
        seen.explained = true;
        continue;
      }
      // The least likely of a good part; among equals the latest.
      if (state && state->as_it_should_be(scene.settings.confidence))
        (state->closed ? seen.closed_cold : seen.open_warm) = state;
      if (state && decide_observed(state->probability(), scene.settings.confidence) == Outcome::out_of_limits)
        (state->closed ? seen.closed_warm : seen.open_cold) = state;
      if (state && (!seen.state || state->probability() <= seen.state->probability())) seen.state = state;
    }
  }
  return seen;
}

Text why_not_judged(const Scene& scene, const Seen& seen) {
  if (seen.explained) return trip_points_tell_more;
  if (seen.alone) return scene.ratings == nullptr ? unrated : no_temperature;
  if (seen.in_the_circuit) return only_in_circuit;
  return seen.live ? only_live : no_state;
}

Text text_of_condemned(const Scene& scene, const StateSeen& state) {
  // Only the way that its temperature went condemns it.
  if (decide_observed(state.whichever_way, scene.settings.confidence) != Outcome::out_of_limits)
    return state.closed ? closed_though_cooled : open_though_warmed;
  if (state.closed) return closed_too_warm;
  if (scene.ratings->is_two_wire_pair()) return open_too_cold_pair;
  const bool may_be_driven =
      state.reading->connection == Connection::unstated && state.reading->supply != Supply::proved_dead;
  return may_be_driven ? open_too_cold_connection_unstated : open_too_cold;
}

Text text_of_consistent(const StateSeen& state, double confidence) {
  const bool leaks = contact_seen(*state.reading) == ContactSeen::leaking;
  if (!state.closed && leaks) return leaks_where_open;
  if (state.came != history_unknown && state.as_it_should_be(confidence))
    return state.closed ? closed_as_this_way : open_as_this_way;
  if (state.came != history_unknown) return state.closed ? closed_and_good_this_way : open_and_good_this_way;
  if (state.as_it_should_be(confidence)) return state.closed ? closed_as_it_should : open_as_it_should;
  return state.closed ? closed_and_either_is_good : open_and_either_is_good;
}

void tell_state(const Scene& scene, const StateSeen& state, Finding& finding) {
  const TripPoint& opens = scene.ratings->opening;
  const TripPoint& closes = scene.ratings->closing;
  const Temperature t = Temperature::from_kelvin(state.temperature);
  finding.measured = degrees(state.temperature);
  if (state.closed)
    finding.limits.upper = AnyQuantity(state.open_from);
  else
    finding.limits.lower = AnyQuantity(state.closed_from);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = state.probability();
  tell(finding, "temperature", *finding.measured);
  tell(finding, "opens_by", AnyQuantity(state.open_from));
  tell(finding, "closes_by", AnyQuantity(state.closed_from));
  tell(finding, "chance_percent", 100.0 * state.probability());
  tell(finding, "from_cold_chance_percent", 100.0 * opens.share_above(t));
  tell(finding, "from_warm_chance_percent", 100.0 * closes.share_above(t));
  if (state.reading->shown == Shown::value) tell(finding, "ohms", ohms(state.reading->value.value()));
}

void tell_both_ends(const Scene& scene, const Seen& seen) {
  const Text text = scene.ratings->promises_trip_points() ? right_at_both_ends : right_at_both_ends_as_type_1;
  Finding& finding = scene.findings.add(state_at_temperature, Outcome::undecided, text);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = seen.state->probability();
  tell(finding, "cold", degrees(seen.closed_cold->temperature));
  tell(finding, "warm", degrees(seen.open_warm->temperature));
}

/// One misread state makes two changes, one slip of a probe as well (common practice, no source).
constexpr std::size_t changes_that_condemn = 4;

bool all_are_surely_of_contact(const Scene& scene) {
  const auto readings = scene.evidence.readings();
  return std::all_of(readings.begin(), readings.end(), [&](const PreparedReading& reading) {
    return !is_of_contact_alone(reading) || scene.is_surely_of_contact(reading);
  });
}

/// One and the same temperature: neither state is the right one there, whichever a good part would have.
void tell_change_by_itself(const Scene& scene) {
  const bool opened = scene.opening.by_itself() > 0;
  const Passage& passage = opened ? scene.opening.last_by_itself() : scene.closing.last_by_itself();
  const std::size_t count = scene.opening.by_itself() + scene.closing.by_itself();
  const bool surely = count >= changes_that_condemn && all_are_surely_of_contact(scene);
  Finding& finding = scene.findings.add(state_at_temperature, surely ? Outcome::out_of_limits : Outcome::undecided,
                                        surely ? comes_and_goes_surely : comes_and_goes);
  finding.holds_back = !surely;
  if (surely) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = 0.0;
  }
  tell(finding, "count", static_cast<double>(count));
  tell(finding, "closed_at", degrees(opened ? passage.before.kelvin : passage.after.kelvin));
  tell(finding, "open_at", degrees(opened ? passage.after.kelvin : passage.before.kelvin));
}

/// Both ends the wrong way round: two faults at once are less likely than a mix-up, or another kind of switch.
void tell_reversed(const Scene& scene, const Seen& seen) {
  Finding& finding = scene.findings.add(state_at_temperature, Outcome::undecided, reversed);
  finding.holds_back = true;
  tell(finding, "warm", degrees(seen.closed_warm->temperature));
  tell(finding, "cold", degrees(seen.open_cold->temperature));
}

/// Their mean is neither of the two that were seen.
void tell_jumping(const Scene& scene, const PreparedReading& reading) {
  Finding& finding = scene.findings.add(state_at_temperature, Outcome::undecided, ohms_jump);
  finding.holds_back = true;
  tell(finding, "scatter_percent", std::round(100.0 * relative_scatter(scene.evidence, reading)));
}

/// It was read, on a range on which closed and not closed look alike.
void tell_range(const Scene& scene, const PreparedReading& reading) {
  const bool coarse = reading.shown == Shown::value;
  Finding& finding =
      scene.findings.add(state_at_temperature, Outcome::undecided, coarse ? range_too_coarse : range_too_low);
  tell(finding, "range", ohms(reading.range_full_scale));
  tell(finding, "doubt", ohms(reading.meter_half_width));
  tell(finding, "closed", ohms(closed_up_to_ohms));
  tell(finding, "open", ohms(poor_up_to_ohms));
}

void judge_state(const Scene& scene, const Seen& seen) {
  const StateSeen& state = *seen.state;
  Outcome outcome = decide_observed(state.probability(), scene.settings.confidence);
  Text text = text_of_consistent(state, scene.settings.confidence);
  const bool was_seen_to_move = scene.opening.count() + scene.closing.count() > 0;
  const bool can_condemn_it = scene.ratings->promises_trip_points();
  if (was_seen_to_move && text != leaks_where_open && outcome != Outcome::out_of_limits) {
    scene.findings.add(state_at_temperature, Outcome::silent, trip_points_tell_more);
    return;
  }
  if (outcome != Outcome::out_of_limits && text != leaks_where_open && seen.closed_cold && seen.open_warm) {
    tell_both_ends(scene, seen);
    return;
  }
  if (outcome == Outcome::out_of_limits) {
    text = text_of_condemned(scene, state);
    if (state.closed && !scene.is_surely_of_contact(*state.reading)) text = closed_too_warm_connection_unstated;
    if (!can_condemn_it) text = state.closed ? closed_as_type_1 : open_as_type_1;
    if (text == closed_too_warm_connection_unstated || !can_condemn_it) outcome = Outcome::undecided;
  }
  tell_state(scene, state, scene.findings.add(state_at_temperature, outcome, text));
}

}  // namespace

std::optional<StateSeen> state_seen(const Scene& scene, const PreparedReading& reading) {
  const Estimate* temperature = reading.condition(part_temperature);
  const ContactSeen seen = contact_seen(reading);
  const bool tells = seen == ContactSeen::closed || is_not_closed(seen);
  if (scene.ratings == nullptr || temperature == nullptr || !is_of_contact_alone(reading) || !tells)
    return std::nullopt;
  StateSeen state;
  state.reading = &reading;
  state.closed = seen == ContactSeen::closed;
  state.temperature = temperature->value();
  const TripPoint& opening = scene.ratings->opening;
  const TripPoint& closing = scene.ratings->closing;
  state.came = reading.state(history).value_or(history_unknown);
  const TripPoint& ends_closed = state.came == cooling ? closing : opening;
  const TripPoint& begins_open = state.came == warming ? opening : closing;
  const auto sources = scene.evidence.sources();
  state.may_be_closed = may_trip_above(ends_closed, *temperature, sources);
  state.may_be_open = may_trip_below(begins_open, *temperature, sources);
  state.whichever_way =
      state.closed ? may_trip_above(opening, *temperature, sources) : may_trip_below(closing, *temperature, sources);
  state.open_from = ends_closed.highest();
  state.closed_from = begins_open.lowest();
  return state;
}

namespace {

bool says(const Scene& scene, Text text) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [text](const Finding& finding) {
    return finding.rule == state_at_temperature && finding.text == text;
  });
}

}  // namespace

bool seen_to_come_and_go(const Scene& scene) { return says(scene, comes_and_goes) || says(scene, ohms_jump); }

bool read_on_wrong_range(const Scene& scene) { return says(scene, range_too_coarse) || says(scene, range_too_low); }

bool seen_reversed(const Scene& scene) { return says(scene, reversed); }

bool seen_right_at_both_ends(const Scene& scene) {
  return says(scene, right_at_both_ends) || says(scene, right_at_both_ends_as_type_1);
}

void judge_state_at_temperature(const Scene& scene) {
  const Seen seen = look(scene);
  if (scene.comes_and_goes()) {
    tell_change_by_itself(scene);
  } else if (seen.jumping != nullptr) {
    tell_jumping(scene, *seen.jumping);
  } else if (seen.closed_warm && seen.open_cold) {
    tell_reversed(scene, seen);
  } else if (seen.state) {
    judge_state(scene, seen);
  } else if (seen.poor != nullptr) {
    Finding& finding = scene.findings.add(state_at_temperature, Outcome::undecided, poor_contact);
    tell(finding, "ohms", ohms(seen.poor->value.value()));
  } else if (seen.refused != nullptr && !seen.alone) {
    tell_range(scene, *seen.refused);
  } else {
    const Outcome outcome = seen.alone && !seen.explained ? Outcome::undecided : Outcome::silent;
    scene.findings.add(state_at_temperature, outcome, why_not_judged(scene, seen));
  }
}

}  // namespace ohmwright::bimetal_thermostat
