#include <algorithm>
#include <optional>

#include "rules/advice.hpp"
#include "rules/capacitor.hpp"
#include "rules/drawn_current.hpp"
#include "rules/fed_but_still.hpp"
#include "rules/in_circuit.hpp"
#include "rules/running.hpp"
#include "rules/running_texts.hpp"
#include "rules/turns_by_hand.hpp"
#include "rules/windings_add_up.hpp"

namespace ohmwright::fan_motor {

namespace {

/// It draws what a motor draws whose wheel is held, or nobody saw it turn.
bool draws_as_if_held(const Scene& scene) {
  const PreparedReading* drawn = last_value(scene.evidence, current);
  if (drawn == nullptr || !scene.findings.has(line_current, Outcome::undecided) || !may_be_held(scene)) return false;
  return !scene.turning || scene.stands_still() || drawn_current(scene, *drawn).says == Drawn::too_much_perhaps_held;
}

/// Its speed is wrong, nobody but its tachometer says so, and too few volts do not explain it.
bool runs_wrong_by_tach(const Scene& scene) {
  if (!scene.turning || scene.turning->reading->measurand != tach || scene.plug.are_low()) return false;
  const auto& all = scene.findings.findings();
  return std::any_of(all.begin(), all.end(), [&](const Finding& f) {
    return f.rule == running && f.outcome == Outcome::undecided && f.meaning == ProbabilityMeaning::within_limits &&
           f.probability <= 1.0 - scene.settings.confidence;
  });
}

/// What it draws or how fast it turns is undecided, and it gets more volts than those its limits make room for.
bool left_open_by_high_volts(const Scene& scene) {
  const bool drawn = last_value(scene.evidence, current) != nullptr;
  return scene.plug.level == VoltsLevel::high && ((drawn && scene.findings.has(line_current, Outcome::undecided)) ||
                                                  scene.findings.has_text(running, turns_fast_volts_high));
}

/// It stands still: what holds it, and whether it is fed. It is not let run: it does not.
void advise_on_standing(const Scene& scene) {
  if (!turns_freely(scene)) scene.findings.advise(spin_by_hand);
  if (scene.plug.apart) return;
  scene.findings.advise(scene.is_electronic() ? supply_then_tach : volts_while_still);
}

/// Volts at its plug, and nobody saw it turn, or it stands still.
void advise_on_volts(const Scene& scene) {
  const bool feed = scene.plug.feed();
  if (scene.stands_still() && shows_minus(scene)) scene.findings.advise(swap_the_probes);
  if (may_be_hot_while_fed(scene) && !scene.findings.advised(cool_down)) scene.findings.advise(cool_and_start);
  if (!feed) scene.findings.advise(look_upstream);
  if (!feed && scene.plug.level == VoltsLevel::low && !scene.is_electronic()) scene.findings.advise(volts_plugged_in);
  if (feed && !scene.turning) scene.findings.advise(see_it_turn);
  if ((!feed || scene.turning) && needs_a_retry(scene))
    tell(scene.findings.advise(watch_a_retry), "retry", AnyQuantity(scene.ratings->retry));
  else if (!feed && scene.is_electronic())
    scene.findings.advise(read_pulsed_supply);
  if (feed && !turns_freely(scene)) scene.findings.advise(spin_by_hand);
  if (!feed || !scene.turning || needs_a_retry(scene)) return;
  if (needs_its_signal(scene)) scene.findings.advise(read_the_signal);
  if (signal_told(scene) == signal_says_stop) scene.findings.advise(look_upstream);
}

/// It turns too fast or too slowly, and something else than the motor explains that: how to tell.
std::optional<AdviceIndex> clears_its_speed(const Scene& scene) {
  if (scene.findings.has_text(running, turns_slow_wheel_unknown)) return spin_by_hand;
  if (scene.findings.has_text(running, turns_slow_perhaps_told)) return feed_it_alone;
  if (scene.findings.has_text(running, turns_fast_perhaps_air)) return clear_its_air;
  if (scene.findings.has_text(running, turns_slow_perhaps_capacitor)) return read_its_capacitor;
  return std::nullopt;
}

/// It turns, and its speed is wrong, or too near to an end, or no speed for the volts that were read.
void advise_on_speed(const Scene& scene) {
  if (scene.turns_by_a_minus()) {
    scene.findings.advise(read_speed_again);
    return;
  }
  if (const std::optional<AdviceIndex> clears = clears_its_speed(scene)) {
    // Its capacitor is read last: how to discharge it stands before that.
    if (*clears != read_its_capacitor && !scene.findings.advised(*clears)) scene.findings.advise(*clears);
  } else if (scene.findings.has_text(running, turns_wrong_other_frequency))
    return;  // it is read at its own
  else if (speed_may_be_misread(scene))
    scene.findings.advise(read_speed_again);
  else if (scene.plug.apart)
    return;  // which of its volts hold comes first
  else if (scene.plug.reading == nullptr)
    scene.findings.advise(volts_at_plug);
  else if (scene.plug.are_low())
    scene.findings.advise(scene.is_electronic() ? read_pulsed_supply : look_upstream);
  else
    scene.findings.advise(read_speed_again);
}

/// What it draws was read: with more digits, or at its volts.
void advise_on_draw(const Scene& scene, const PreparedReading& drawn) {
  const bool judged = is_live(drawn) && scene.ratings != nullptr && scene.ratings->current;
  const Drawn says = judged ? drawn_current(scene, drawn).says : Drawn::unsure;
  if (says == Drawn::too_much_perhaps_capacitor) return;  // that is read first
  if (says == Drawn::at_other_frequency) return;          // it is read at its own
  if (says == Drawn::too_little_volts_unknown || says == Drawn::too_much_volts_unknown) {
    if (!scene.plug.apart && !scene.findings.advised(volts_at_plug)) scene.findings.advise(volts_at_plug);
  } else if (says == Drawn::too_little_perhaps_air) {
    if (!scene.findings.advised(clear_its_air)) scene.findings.advise(clear_its_air);
  } else if (says == Drawn::unsure) {
    scene.findings.advise(better_clamp);
  } else {
    if (scene.plug.are_low() && !scene.findings.advised(look_upstream)) scene.findings.advise(look_upstream);
    scene.findings.advise(clamp_it);
  }
}

}  // namespace

void advise_on_running(const Scene& scene) {
  if (scene.plug.apart) scene.findings.advise(leave_out_stale_volts);
  if (left_open_by_high_volts(scene)) {
    Advice& advice = scene.findings.advise(find_the_high_volts);
    tell(advice, "volts", volts(scene.plug.volt));
    tell(advice, "rated", AnyQuantity(*scene.ratings->voltage));
  }
  const bool runs_elsewhere =
      scene.other_frequency && (scene.turning || last_value(scene.evidence, current) != nullptr);
  if (runs_elsewhere && !scene.stands_still()) {
    Advice& advice = scene.findings.advise(at_its_frequency);
    tell(advice, "stated", AnyQuantity(*scene.other_frequency));
    tell(advice, "rated", AnyQuantity(*scene.ratings->frequency));
  }
  if (scene.tach_contradicts() || runs_wrong_by_tach(scene)) scene.findings.advise(look_at_tachometer);
  if (scene.tach_contradicts()) return;
  if (scene.findings.has(fed_but_still, Outcome::undecided)) {
    advise_on_volts(scene);
    return;
  }
  if (scene.stands_still()) {
    advise_on_standing(scene);
    return;
  }
  if (scene.tach_says == TachSays::silent) {
    scene.findings.advise(see_it_turn);
    scene.findings.advise(supply_then_tach);
    return;
  }
  const bool perhaps_held = draws_as_if_held(scene);
  if (perhaps_held && !turns_freely(scene)) scene.findings.advise(spin_by_hand);
  if (scene.findings.has_text(running, draws_right_perhaps_still)) scene.findings.advise(see_it_turn);
  const bool may_be_at_fault = scene.findings.has(open_winding, Outcome::undecided) ||
                               scene.findings.has(short_winding, Outcome::undecided) || are_named_wrongly(scene) ||
                               is_to_be_read_alone(scene) || shows_past_its_range(scene) ||
                               may_be_its_protector_in_circuit(scene);
  const bool not_run_yet =
      scene.findings.has(running, Outcome::silent) || scene.findings.has_text(running, turns_speed_not_read);
  if (not_run_yet && scene.ratings != nullptr && !may_be_at_fault)
    scene.findings.advise(scene.is_electronic() ? supply_then_tach : run_it);
  const bool held_by_hand = !turns_freely(scene).value_or(true);  // then thawing comes first
  if (scene.findings.has(running, Outcome::undecided) && scene.turning && !held_by_hand &&
      (!runs_wrong_by_tach(scene) || clears_its_speed(scene)))
    advise_on_speed(scene);
  if (!scene.findings.has(line_current, Outcome::undecided) || perhaps_held) return;
  if (const PreparedReading* drawn = last_value(scene.evidence, current))
    advise_on_draw(scene, *drawn);
  else if (!scene.other_frequency)  // there nothing is judged by it
    scene.findings.advise(clamp_it);
}

}  // namespace ohmwright::fan_motor
