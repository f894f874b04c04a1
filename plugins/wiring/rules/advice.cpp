#include "rules/advice.hpp"

#include <algorithm>

#include <ohmwright/component/in_circuit.hpp>

namespace ohmwright::wiring {

namespace {

bool is_any_ohms(const PreparedReading& r) { return r.measurand != drop; }

/// A low reading of which it was not said that an end was off.
bool low_with_ends_on(const Scene& scene) {
  return scene.ohms && !scene.ohms->stated_off && scene.ohms->outcome != Outcome::out_of_limits;
}

void advise_on_ohms(const Scene& scene) {
  const bool live_ohms = any_of(scene.evidence, [](const PreparedReading& r) { return is_any_ohms(r) && is_live(r); });
  if (live_ohms) scene.findings.advise(read_unplugged);
  const bool through_read =
      any_of(scene.evidence, [](const PreparedReading& r) { return r.measurand != insulation_resistance; });
  if (!through_read) scene.findings.advise(read_something);
  if (asks_to_prove_dead_and_swap(scene.findings, in_circuit)) scene.findings.advise(prove_dead_and_swap);
  const bool decided = scene.findings.has(end_to_end, Outcome::within_limits);
  if (!decided && (asks_to_read_alone(scene.findings, in_circuit) || low_with_ends_on(scene)))
    scene.findings.advise(lift_an_end);
  const bool by_ohms = scene.findings.has(end_to_end, Outcome::undecided) && scene.ohms && scene.knows_limit();
  if (by_ohms && scene.ohms->below_zero) scene.findings.advise(say_leads);
  if (by_ohms && scene.ohms->less_than_copper && !scene.ohms->below_zero && !scene.ohms->drowns_in_leads())
    scene.findings.advise(read_all_of_it);
  if (scene.findings.has(intermittent, Outcome::undecided)) scene.findings.advise(clip_and_move);
  if (scene.findings.has(open_lead, Outcome::undecided)) scene.findings.advise(higher_range);
}

void advise_on_limit(const Scene& scene) {
  if (scene.ratings == nullptr)
    scene.findings.advise(say_ratings);
  else if (!scene.knows_limit())
    scene.findings.advise(say_length);
}

/// What decides where ohms cannot: volts under load, or a known current.
void advise_on_drop(const Scene& scene) {
  const PreparedReading* read = last_value(scene.evidence, drop);
  if (read != nullptr && is_drop_under_load(*read)) {
    if (read->condition(load_current) == nullptr)
      scene.findings.advise(say_load);
    else if (!has_current(*read))
      scene.findings.advise(scene.findings.has(drop_under_load, Outcome::undecided) ? low_impedance : read_drop);
    else if (scene.drop && scene.drop->less_than_copper && !scene.findings.advised(read_all_of_it))
      scene.findings.advise(read_all_of_it);
    else if (scene.drop && scene.drop->outcome == Outcome::undecided)
      scene.findings.advise(known_current);
    else if (scene.findings.has(end_to_end, Outcome::undecided) && !scene.comes_and_goes())
      scene.findings.advise(read_both_again);
    return;
  }
  const bool ohms_leave_it_open = scene.findings.has(end_to_end, Outcome::undecided) && !scene.comes_and_goes();
  if (!ohms_leave_it_open && read == nullptr) return;
  scene.findings.advise(read_drop);
  scene.findings.advise(known_current);
}

void advise_on_insulation(const Scene& scene) {
  if (!scene.findings.has(insulation, Outcome::undecided)) return;
  const bool wet = any_of(scene.evidence, [](const PreparedReading& r) {
    return r.measurand == insulation_resistance && r.moisture == Moisture::wet;
  });
  scene.findings.advise(wet ? dry_and_repeat : insulation_tester);
}

void advise_on_replacement(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->conductor) {
    scene.findings.advise(replacement_by_look);
    return;
  }
  Advice& advice = scene.findings.advise(replacement);
  tell(advice, "area", scene.ratings->conductor->square_millimetres);
}

void advise_after_condemning(const Scene& scene) {
  if (scene.findings.has(insulation, Outcome::out_of_limits)) {
    scene.findings.advise(do_not_energise);
    scene.findings.advise(mend_leak);
  }
  if (scene.findings.has(open_lead, Outcome::out_of_limits)) {
    scene.findings.advise(touch_the_probes);
    scene.findings.advise(mend_open);
  }
  if (scene.findings.has(end_to_end, Outcome::out_of_limits) ||
      scene.findings.has(drop_under_load, Outcome::out_of_limits) ||
      scene.findings.has(intermittent, Outcome::out_of_limits))
    scene.findings.advise(mend_joint);
  if (scene.findings.has(in_circuit, Outcome::out_of_limits)) scene.findings.advise(lift_an_end);
  advise_on_replacement(scene);
}

}  // namespace

void advise(const Scene& scene) {
  const auto& all = scene.findings.findings();
  if (std::any_of(all.begin(), all.end(), [](const Finding& f) { return f.outcome == Outcome::out_of_limits; })) {
    advise_after_condemning(scene);
    return;
  }
  advise_on_ohms(scene);
  advise_on_limit(scene);
  advise_on_drop(scene);
  advise_on_insulation(scene);
  if (scene.findings.has(load_rating, Outcome::undecided)) scene.findings.advise(what_draws);
}

}  // namespace ohmwright::wiring
