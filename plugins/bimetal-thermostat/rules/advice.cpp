#include "rules/advice.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/component/in_circuit.hpp>
#include <ohmwright/component/shared_thresholds.hpp>

#include "rules/contact_resistance.hpp"
#include "rules/good_part.hpp"
#include "rules/state_at_temperature.hpp"
#include "rules/trip_rule.hpp"
#include "rules/unit_slip.hpp"
#include "rules/what_decides.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

/// Less of the doubt than this is not worth a better instrument.
constexpr double least_share = 0.25;
/// How far a slow series starts and ends outside of where good parts trip [K].
constexpr double run_up_kelvin = 1.0;

template <class Predicate>
bool any_finding(const Scene& scene, Predicate predicate) {
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), predicate);
}

/// A rule would condemn, had the circumstances of the reading allowed it.
bool would_condemn(const Scene& scene, RuleIndex rule) {
  return any_finding(scene, [&](const Finding& f) {
    return f.rule == rule && f.outcome == Outcome::undecided && f.meaning == ProbabilityMeaning::observed_if_within &&
           f.probability <= 1.0 - scene.settings.confidence;
  });
}

template <class Predicate>
const PreparedReading* last_reading(const Scene& scene, Predicate predicate) {
  const PreparedReading* last = nullptr;
  for (const PreparedReading& reading : scene.evidence.readings())
    if (predicate(reading)) last = &reading;
  return last;
}

bool is_contact_or_link(const PreparedReading& r) { return r.measurand == contact_state || r.measurand == link_state; }

bool needs_a_lead_lifted(const Scene& scene) {
  const bool link_closed_unproved = last_reading(scene, [](const PreparedReading& r) {
    return r.measurand == link_state && !is_live(r) && !is_lead_off(r) && contact_seen(r) == ContactSeen::closed;
  });
  const bool state_unproved = would_condemn(scene, state_at_temperature) && scene.ratings->promises_trip_points();
  const bool resistance_unproved = any_finding(scene, [&](const Finding& f) {
    return f.rule == contact_resistance && f.outcome == Outcome::undecided && scene.sure(f.probability);
  });
  const bool no_current = any_finding(scene, [](const Finding& f) {
    return f.rule == drop_under_load && f.outcome == Outcome::undecided && f.meaning == ProbabilityMeaning::none;
  });
  const bool welded_unproved = scene.findings.has(stuck, Outcome::undecided) && scene.ratings != nullptr;
  return asks_to_read_alone(scene.findings, in_circuit) || link_closed_unproved || state_unproved ||
         resistance_unproved || no_current || welded_unproved;
}

/// Ohms between closed and open: before they make sense, no other temperature tells more.
bool has_poor_contact(const Scene& scene) {
  return last_reading(scene, [](const PreparedReading& r) {
           return is_contact_or_link(r) && !is_live(r) && !is_in_circuit(r) && contact_seen(r) == ContactSeen::poor;
         }) != nullptr;
}

/// What the circumstances of the readings lack.
void advise_on_circumstances(const Scene& scene) {
  const auto is_live_ohms = [](const PreparedReading& r) { return r.measurand != voltage_drop && is_live(r); };
  const auto lacks_temperature = [](const PreparedReading& r) {
    return is_of_contact_alone(r) && r.condition(part_temperature) == nullptr;
  };
  if (last_reading(scene, is_live_ohms) != nullptr) scene.findings.advise(read_unplugged);
  if (scene.ratings != nullptr && last_reading(scene, lacks_temperature) != nullptr)
    scene.findings.advise(state_temperature_too);
  if (needs_a_lead_lifted(scene)) scene.findings.advise(lift_a_lead);
  if (asks_to_prove_dead_and_swap(scene.findings, in_circuit)) scene.findings.advise(prove_dead_and_swap);
  const auto is = [](ContactSeen wanted) {
    return [wanted](const PreparedReading& r) {
      return is_contact_or_link(r) && !is_live(r) && !is_in_circuit(r) && contact_seen(r) == wanted;
    };
  };
  if (last_reading(scene, is(ContactSeen::leaking)) != nullptr) scene.findings.advise(dry_it);
  if (has_poor_contact(scene)) scene.findings.advise(clean_and_read_again);
}

/// Half-width of the thermometer that is at hand [K]. A temperature that was said with more doubt than any thermometer
/// has was not measured, which says nothing of what it will be chilled or warmed beside.
double thermometer_at_hand(const Scene& scene) {
  constexpr double room_thermometer = 1.0;
  constexpr double worst_thermometer = 5.0;  // an infrared one on bare metal (common practice, no source)
  const PreparedReading* reading =
      last_reading(scene, [](const PreparedReading& r) { return r.condition(part_temperature) != nullptr; });
  if (reading == nullptr) return room_thermometer;
  const double half_width = half_width_of_temperature(*reading->condition(part_temperature));
  return half_width > worst_thermometer ? room_thermometer : half_width;
}

void advise_to_chill(const Scene& scene) {
  constexpr double ice_water = 0.2;
  constexpr double salted_ice = -18.0;  // the eutectic of salt and ice is -21.1 °C; a bag of it stays warmer
  const Temperature target =
      surely_below(scene.ratings->closing, thermometer_at_hand(scene), scene.settings.confidence);
  AdviceIndex index = chill_in_freezer;
  if (target.celsius() >= salted_ice) index = chill_in_salted_ice;
  if (target.celsius() >= ice_water) index = chill_in_ice_water;
  Advice& advice = scene.findings.advise(index);
  tell(advice, "target", AnyQuantity(target));
  tell(advice, "salted", AnyQuantity(Temperature::from_celsius(salted_ice)));
}

void advise_to_warm(const Scene& scene) {
  constexpr double warm_cloth = 40.0;
  constexpr double hot_water = 90.0;
  const Temperature target =
      surely_above(scene.ratings->opening, thermometer_at_hand(scene), scene.settings.confidence);
  AdviceIndex index = warm_on_bench;
  if (target.celsius() <= hot_water) index = warm_in_water;
  if (target.celsius() <= warm_cloth) index = warm_by_hand;
  tell(scene.findings.advise(index), "target", AnyQuantity(target));
}

/// With no trip seen yet: the end that was not looked at.
void advise_on_other_end(const Scene& scene) {
  const PreparedReading* last = last_reading(scene, [](const PreparedReading& r) {
    return is_of_contact_alone(r) && contact_seen(r) != ContactSeen::nothing &&
           r.condition(part_temperature) != nullptr;
  });
  if (last != nullptr && contact_seen(*last) == ContactSeen::closed)
    advise_to_warm(scene);
  else
    advise_to_chill(scene);
}

/// What one rule on a trip point asks for.
struct TripAdvice {
  RuleIndex rule;
  const TripSeries& series;
  const TripPoint& trip;
  AdviceIndex watch;
  AdviceIndex narrow;
  bool downwards;
};

/// Whole cases of a hundred; never all of them, which nobody can promise.
double cases_of_hundred(double chance) { return std::min(99.0, std::round(100.0 * chance)); }

void tell_step(Advice& advice) { tell(advice, "step", kelvins(fine_step_kelvin)); }

void tell_span(Advice& advice, double from, double to, bool downwards) {
  tell_step(advice);
  tell(advice, "from", degrees(downwards ? to : from));
  tell(advice, "to", degrees(downwards ? from : to));
}

void advise_with_chance(const Scene& scene, AdviceIndex index, double chance, double share) {
  if (chance < least_chance_worth_naming) return;
  Advice& advice = scene.findings.advise(index);
  advice.probability_decided = chance;
  tell(advice, "chance_percent", cases_of_hundred(chance));
  tell(advice, "share_percent", 100.0 * share);
  tell(advice, "doubt", kelvins(good_thermometer_kelvin));
}

void advise_on_trip(const Scene& scene, const TripAdvice& of) {
  if (of.series.backwards() > 0) return;
  const double lower = of.trip.lowest().kelvin();
  const double upper = of.trip.highest().kelvin();
  if (of.series.count() == 0) {
    tell_span(scene.findings.advise(of.watch), lower - run_up_kelvin, upper + run_up_kelvin, of.downwards);
    return;
  }
  if (!scene.findings.has(of.rule, Outcome::undecided)) return;
  const Bracketed seen = of.series.bracketed();
  if (seen.scatters) {
    scene.findings.advise(more_cycles);
    return;
  }
  const double share = share_of_gap(seen);
  const double fine = chance_of_fine_steps(scene, seen, lower, upper);
  if (seen.width() > fine_step_kelvin && share >= least_share && fine >= least_chance_worth_naming) {
    Advice& advice = scene.findings.advise(of.narrow);
    advice.probability_decided = fine;
    tell_span(advice, seen.from, seen.to, of.downwards);
    tell(advice, "chance_percent", cases_of_hundred(fine));
  }
  if (1.0 - share >= least_share)
    advise_with_chance(scene, better_thermometer, chance_of_better_thermometer(scene, seen, lower, upper), 1.0 - share);
}

/// Its closed contact is bad, or may be: it is not left in.
bool contact_holds_back(const Scene& scene) {
  return any_finding(scene, [](const Finding& f) { return f.rule == contact_resistance && f.holds_back; });
}

void advise_on_trip_points(const Scene& scene) {
  if (seen_to_come_and_go(scene)) {
    scene.findings.advise(hold_and_tap);
    return;
  }
  if (read_on_wrong_range(scene)) {
    scene.findings.advise(right_range);
    return;
  }
  if (seen_reversed(scene)) {
    scene.findings.advise(note_each_state);
    return;
  }
  if (scene.opening.backwards() + scene.closing.backwards() > 0) tell_step(scene.findings.advise(order_of_readings));
  if (would_condemn(scene, state_at_temperature)) {
    if (scene.ratings->promises_trip_points()) return;  // a lead to lift decides that
    const PreparedReading* last = last_reading(scene, is_of_contact_alone);
    const TemperatureDifference reach = scene.ratings->opening.nominal - scene.ratings->closing.nominal;
    const bool closed = contact_seen(*last) == ContactSeen::closed;
    tell(scene.findings.advise(warm_well_past), "target",
         closed ? AnyQuantity(scene.ratings->opening.highest() + reach)
                : AnyQuantity(scene.ratings->closing.lowest() - reach));
    return;
  }
  const auto is_in_the_circuit = [](const PreparedReading& r) {
    return r.measurand == contact_state && is_in_circuit(r);
  };
  const bool alone = last_reading(scene, is_of_contact_alone) != nullptr;
  if (!alone && last_reading(scene, is_in_the_circuit) != nullptr) return;  // a lead to lift comes first
  if (seen_right_at_both_ends(scene)) {
    if (!contact_holds_back(scene)) scene.findings.advise(it_switches);
    if (!scene.ratings->promises_trip_points()) return;
  }
  if (scene.opening.nothing_seen() && scene.closing.nothing_seen()) {
    if (has_poor_contact(scene)) return;
    advise_on_other_end(scene);
    return;
  }
  const ThermostatRatings& r = *scene.ratings;
  if (!r.promises_trip_points() && (scene.findings.has(opening_point, Outcome::undecided) ||
                                    scene.findings.has(closing_point, Outcome::undecided))) {
    scene.findings.advise(watch_a_defrost);
    return;
  }
  advise_on_trip(scene, {opening_point, scene.opening, r.opening, watch_it_open, narrow_opening, false});
  advise_on_trip(scene, {closing_point, scene.closing, r.closing, watch_it_close, narrow_closing, true});
}

/// Where every good one is open, nothing that was read is a closed contact, and no load flows through it.
bool belongs_open(const Scene& scene) {
  const PreparedReading* last = last_reading(scene, [](const PreparedReading& r) {
    return r.measurand == contact_state && contact_seen(r) == ContactSeen::poor &&
           r.condition(part_temperature) != nullptr;
  });
  return last != nullptr && last->condition(part_temperature)->value() > scene.ratings->opening.highest().kelvin();
}

bool burns_under_load(const Scene& scene) {
  return any_finding(scene, [](const Finding& f) {
    return f.rule == contact_resistance && f.outcome == Outcome::undecided && f.measured &&
           f.measured->value_in_si() - 2.0 * f.measured_uncertainty.value_or(0.0) > most_ohms_under_load;
  });
}

void advise_on_contact(const Scene& scene) {
  const bool drop_decided = scene.findings.has(drop_under_load, Outcome::within_limits) ||
                            scene.findings.has(drop_under_load, Outcome::out_of_limits);
  const bool drop_open = any_finding(scene, [](const Finding& f) {
    return f.rule == drop_under_load && f.outcome == Outcome::undecided && f.judged.has_value();
  });
  const bool ohms_open = any_finding(scene, [&](const Finding& f) {
    return f.rule == contact_resistance && f.outcome == Outcome::undecided && !scene.sure(f.probability);
  });
  const bool contradicts = any_finding(scene, [](const Finding& f) {
    return f.rule == drop_under_load && f.outcome == Outcome::undecided && !f.judged && f.measured.has_value();
  });
  if (contradicts) scene.findings.advise(read_both_at_once);
  const bool ohms_ask = ohms_open && !drop_decided && !contradicts && !belongs_open(scene);
  if (ohms_ask && burns_under_load(scene))
    tell(scene.findings.advise(no_load_test), "limit", ohms(most_ohms_under_load));
  else if (ohms_ask || drop_open)
    tell(scene.findings.advise(measure_drop), "per_ampere",
         AnyQuantity(Dimension::voltage, scene.ratings->contact_resistance->value()));
  const auto lacks_current = [](const PreparedReading& r) {
    return r.measurand == voltage_drop && is_live(r) && r.condition(load_current) == nullptr;
  };
  if (last_reading(scene, lacks_current) != nullptr) scene.findings.advise(clamp_current);
}

void advise_on_replacement(const Scene& scene) {
  if (scene.ratings == nullptr) return;
  const ThermostatRatings& r = *scene.ratings;
  // Where its trip points may even overlap, the ratings stand for many parts and are none to buy by.
  if (!(r.closing.nominal + r.closing.tolerance < r.opening.nominal - r.opening.tolerance)) {
    scene.findings.advise(replacement_by_stamp);
  } else {
    Advice& advice = scene.findings.advise(r.rated_current ? replacement_with_current : replacement);
    tell(advice, "opening", AnyQuantity(r.opening.nominal));
    tell(advice, "closing", AnyQuantity(r.closing.nominal));
    if (r.rated_current) tell(advice, "current", AnyQuantity(*r.rated_current));
  }
  if (r.link) tell(scene.findings.advise(replacement_link), "functioning", AnyQuantity(r.link->functioning));
}

/// Everything that was read dead showed OL, or gave no beep: so does a broken test lead.
void advise_on_probes(const Scene& scene) {
  const auto seen = [&](bool open) {
    return last_reading(scene, [open](const PreparedReading& r) {
             return is_contact_or_link(r) && !is_live(r) && shows_more_than_range(r) == open;
           }) != nullptr;
  };
  if (seen(true) && !seen(false)) scene.findings.advise(touch_the_probes);
}

void advise_after_condemning(const Scene& scene) {
  advise_on_probes(scene);
  if (scene.findings.has(thermal_link, Outcome::out_of_limits)) scene.findings.advise(find_cause_of_link);
  if (scene.findings.has(pair_suspected, Outcome::undecided)) scene.findings.advise(check_both_of_pair);
  const bool by_trip = any_finding(scene, [](const Finding& f) {
    return f.outcome == Outcome::out_of_limits && f.rule != thermal_link && f.rule != in_circuit &&
           f.rule != drop_under_load;
  });
  if (scene.findings.has(in_circuit, Outcome::out_of_limits)) scene.findings.advise(lift_a_lead);
  const bool closed_too_warm = any_finding(scene, [](const Finding& f) {
    return f.outcome == Outcome::out_of_limits && f.rule == state_at_temperature && f.limits.upper;
  });
  if (by_trip) scene.findings.advise(closed_too_warm ? before_buying_welded : before_buying);
  if (scene.findings.has(drop_under_load, Outcome::out_of_limits)) scene.findings.advise(before_buying_contact);
  advise_on_replacement(scene);
}

}  // namespace

void advise(const Scene& scene) {
  if (const std::optional<UnitSlip> slip = unit_slip(scene))
    tell(scene.findings.advise(slip->fahrenheit ? unit_was_fahrenheit : unit_was_celsius), "degrees", slip->degrees);
  if (any_finding(scene, [](const Finding& f) { return f.outcome == Outcome::out_of_limits; })) {
    advise_after_condemning(scene);
    return;
  }
  advise_on_probes(scene);
  advise_on_circumstances(scene);
  if (scene.ratings == nullptr) {
    if (seen_to_come_and_go(scene)) scene.findings.advise(hold_and_tap);
    if (read_on_wrong_range(scene)) scene.findings.advise(right_range);
    scene.findings.advise(say_ratings);
    return;
  }
  advise_on_trip_points(scene);
  advise_on_contact(scene);
  const auto is_of_link = [](const PreparedReading& r) { return r.measurand == link_state; };
  if (link_is_unread(scene) && last_reading(scene, is_of_link) == nullptr) scene.findings.advise(read_link);
  if (scene.findings.advice().empty()) scene.findings.advise(leave_it_in);
}

}  // namespace ohmwright::bimetal_thermostat
