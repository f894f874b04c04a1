#include "rules/windings_add_up.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/component/measured.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex {
  add_up,
  do_not_add_up,
  unsure,
  start_is_lower,
  not_all_read,
  jumping,
  no_windings,
  start_is_common,
  run_is_common
};

/// How far the sum of a good motor's two windings may be off the ends' reading (common practice, no source).
constexpr double closure_share = 0.02;

}  // namespace

RuleDescriptor describe_windings_add_up() {
  return {
      "windings-add-up",
      OHMWRIGHT_TEXT("Both windings against their ends"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "Kirchhoff: R(start-run) = R(common-run) + R(common-start); 2 %: common practice, no source",
      {
          {"add-up",
           OHMWRIGHT_TEXT("{run} and {start} make {sum}, and the ends read {ends}: they add up. The higher one is the "
                          "start winding, behind the capacitor.")},
          {"do-not-add-up", OHMWRIGHT_TEXT("{run} and {start} make {sum}, but the ends read {ends}, and with no other "
                                           "terminal as the common do the "
                                           "three add up: a winding is open or shorted in part.")},
          {"unsure",
           OHMWRIGHT_TEXT(
               "{run} and {start} make {sum}, and the ends read {ends}: with this meter too coarse to tell.")},
          {"start-is-lower",
           OHMWRIGHT_TEXT("{run} and {start} make {sum}, and the ends read {ends}, but the start winding should be the "
                          "higher one: the terminals were taken for others.")},
          {"not-all-read",
           OHMWRIGHT_TEXT("Not judged: this needs common_run, common_start and start_run, the plug off.")},
          {"jumping", OHMWRIGHT_TEXT("Not judged: repeated readings of a winding jump.")},
          {"no-windings", OHMWRIGHT_TEXT("Not judged: one of the three reads no more than the test leads, or more than "
                                         "any winding has.")},
          {"start-is-common",
           OHMWRIGHT_TEXT(
               "As they are named the three do not add up, but {run} and {start} make {sum}, and {ends} were read: "
               "they add "
               "up if the terminal that was taken for start is the common. From it the higher one, {higher}, leads to "
               "start, the other to run.")},
          {"run-is-common",
           OHMWRIGHT_TEXT(
               "As they are named the three do not add up, but {run} and {start} make {sum}, and {ends} were read: "
               "they add "
               "up if the terminal that was taken for run is the common. From it the higher one, {higher}, leads to "
               "start, the other to run.")},
      }};
}

namespace {

/// Three readings as they would close: from one terminal to the two others, and between those.
struct Closure {
  const PreparedReading* one;
  const PreparedReading* other;
  const PreparedReading* ends;

  Estimate gap() const {
    Estimate gap = ends->value;
    gap.add_scaled(one->value, -1.0);
    gap.add_scaled(other->value, -1.0);
    return gap;
  }
  double allowed() const { return closure_share * std::abs(ends->value.value()); }
};

Measured measure_gap(const Scene& scene, const Closure& closure) {
  const double allowed = closure.allowed();
  return measure(closure.gap(), -allowed, allowed, Dimension::resistance, scene.evidence, scene.settings);
}

void tell_closure(const Closure& closure, Finding& finding) {
  const double one = closure.one->value.value();
  const double other = closure.other->value.value();
  tell(finding, "run", ohms(one));
  tell(finding, "start", ohms(other));
  tell(finding, "sum", ohms(one + other));
  tell(finding, "ends", ohms(closure.ends->value.value()));
  tell(finding, "gap", ohms(closure.gap().value()));
  tell(finding, "higher", ohms(std::max(one, other)));
}

/// Which terminal is the common one finds by these very readings: where they do not close as they were named, but do
/// with another terminal as the common, that says nothing against the motor.
bool close_under_other_names(const Scene& scene, const Closure& by_start, const Closure& by_run) {
  const Measured start = measure_gap(scene, by_start);
  const Measured run = measure_gap(scene, by_run);
  if (start.outcome == Outcome::out_of_limits && run.outcome == Outcome::out_of_limits) return false;
  const bool is_start = std::abs(start.value.value()) < std::abs(run.value.value());
  Finding& finding = add_measured(scene.findings, windings_add_up, is_start ? start_is_common : run_is_common,
                                  is_start ? start : run, false);
  finding.holds_back = true;
  tell_closure(is_start ? by_start : by_run, finding);
  return true;
}

}  // namespace

void judge_windings_add_up(const Scene& scene) {
  const PreparedReading* run = last_value(scene.evidence, common_run);
  const PreparedReading* start = last_value(scene.evidence, common_start);
  const PreparedReading* ends = last_value(scene.evidence, start_run);
  if (run == nullptr || start == nullptr || ends == nullptr || is_live(*run) || is_live(*start) || is_live(*ends) ||
      is_in_circuit(*run) || is_in_circuit(*start) || is_in_circuit(*ends)) {
    scene.findings.add(windings_add_up, Outcome::silent, not_all_read);
    return;
  }
  if (scene.jumping > 0.0) {
    scene.findings.add(windings_add_up, Outcome::silent, jumping);
    return;
  }
  const auto is_no_winding = [&](const PreparedReading* r) {
    return is_within_leads(scene.ratings, *r) || is_past_any_winding(*r);
  };
  if (is_no_winding(run) || is_no_winding(start) || is_no_winding(ends)) {
    scene.findings.add(windings_add_up, Outcome::silent, no_windings);
    return;
  }
  const Closure as_named{run, start, ends};
  const Measured left = measure_gap(scene, as_named);
  if (left.outcome == Outcome::out_of_limits && close_under_other_names(scene, {start, ends, run}, {run, ends, start}))
    return;
  Text text = unsure;
  if (left.outcome == Outcome::within_limits)
    text = start->value.value() < run->value.value() ? start_is_lower : add_up;
  if (left.outcome == Outcome::out_of_limits) text = do_not_add_up;
  Finding& finding = add_measured(scene.findings, windings_add_up, text, left, text != start_is_lower);
  tell_closure(as_named, finding);
}

bool are_named_wrongly(const Scene& scene) {
  return scene.findings.has_text(windings_add_up, start_is_lower) ||
         scene.findings.has_text(windings_add_up, start_is_common) ||
         scene.findings.has_text(windings_add_up, run_is_common);
}

}  // namespace ohmwright::fan_motor
