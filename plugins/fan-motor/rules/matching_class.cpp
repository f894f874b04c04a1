#include "rules/matching_class.hpp"

namespace ohmwright::fan_motor {

namespace {

enum Text : TextIndex { alternating_at_60, alternating_at_50, like_no_line_motor, ratings_known, not_running };

/// Slips that fans of the trade have: the least of a capacitor run, the most of a shaded pole (common practice, no
/// source).
constexpr double least_slip = 0.03;
constexpr double most_slip = 0.20;

/// Pole pairs times two whose synchronous speed the fan runs below by a slip of the trade; 0 for none.
int poles_at(double radians_per_second, double hertz) {
  for (const int poles : {2, 4, 6, 8}) {
    const double slip = 1.0 - radians_per_second / synchronous_speed(Frequency::from_value(hertz), poles).value();
    if (slip >= least_slip && slip <= most_slip) return poles;
  }
  return 0;
}

}  // namespace

RuleDescriptor describe_matching_class() {
  return {"matching-class",
          OHMWRIGHT_TEXT("What it may be"),
          false,
          can_be_undecided,
          "n = 120 f/p*(1 - s), slips of the trade (common practice, no source); never a ground for a verdict",
          {
              {"alternating-at-60",
               OHMWRIGHT_TEXT(
                   "{measured} is what a motor of {poles} poles turns at on 60 Hz, with a slip of {slip_percent} "
                   "%.")},
              {"alternating-at-50",
               OHMWRIGHT_TEXT(
                   "{measured} is what a motor of {poles} poles turns at on 50 Hz, with a slip of {slip_percent} "
                   "%.")},
              {"like-no-line-motor",
               OHMWRIGHT_TEXT(
                   "{measured} is no speed of a motor on the line: it is electronically commutated, or something "
                   "holds it back.")},
              {"ratings-known", OHMWRIGHT_TEXT("Not asked: the ratings of the part are known.")},
              {"not-running", OHMWRIGHT_TEXT("Not told: this needs its speed.")},
          }};
}

void judge_matching_class(const Scene& scene) {
  const bool turns_now = scene.turning && !scene.stands_still() && !scene.turns_by_a_minus();
  if (scene.ratings != nullptr || !turns_now) {
    scene.findings.add(matching_class, Outcome::silent, scene.ratings != nullptr ? ratings_known : not_running);
    return;
  }
  const double seen = scene.turning->speed.value();
  const int at_60 = poles_at(seen, 60.0);
  const int at_50 = at_60 == 0 ? poles_at(seen, 50.0) : 0;
  const int poles = at_60 + at_50;
  const Text text = at_60 != 0 ? alternating_at_60 : at_50 != 0 ? alternating_at_50 : like_no_line_motor;
  Finding& finding = scene.findings.add(matching_class, Outcome::undecided, text);
  finding.measured = turns(seen);
  tell(finding, "measured", *finding.measured);
  if (poles == 0) return;
  const double hertz = at_60 != 0 ? 60.0 : 50.0;
  const double synchronous = synchronous_speed(Frequency::from_value(hertz), poles).value();
  tell(finding, "poles", static_cast<double>(poles));
  tell(finding, "slip_percent", 100.0 * (1.0 - seen / synchronous));
}

}  // namespace ohmwright::fan_motor
