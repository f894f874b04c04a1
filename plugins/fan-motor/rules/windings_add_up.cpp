#include "rules/windings_add_up.hpp"

#include <cmath>

#include <ohmwright/component/measured.hpp>

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex { add_up, do_not_add_up, unsure, start_is_lower, not_all_read, jumping, no_windings };

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
          {"do-not-add-up",
           OHMWRIGHT_TEXT(
               "{run} and {start} make {sum}, but the ends read {ends}: a winding is open or shorted in part, "
               "or the terminals were taken for others.")},
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
      }};
}

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
  Estimate gap = ends->value;
  gap.add_scaled(run->value, -1.0);
  gap.add_scaled(start->value, -1.0);
  const double allowed = closure_share * std::abs(ends->value.value());
  const Measured left = measure(gap, -allowed, allowed, Dimension::resistance, scene.evidence, scene.settings);
  Text text = unsure;
  if (left.outcome == Outcome::within_limits)
    text = start->value.value() < run->value.value() ? start_is_lower : add_up;
  if (left.outcome == Outcome::out_of_limits) text = do_not_add_up;
  Finding& finding = add_measured(scene.findings, windings_add_up, text, left, text != start_is_lower);
  tell(finding, "run", ohms(run->value.value()));
  tell(finding, "start", ohms(start->value.value()));
  tell(finding, "sum", ohms(run->value.value() + start->value.value()));
  tell(finding, "ends", ohms(ends->value.value()));
  tell(finding, "gap", ohms(gap.value()));
}

}  // namespace ohmwright::fan_motor
