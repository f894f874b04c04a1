#include "rules/interval.hpp"

#include <limits>

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  within,
  too_often,
  too_seldom,
  unsure,
  none_came,
  may_still_come,
  too_often_by_any_count,
  clock_means_little,
  not_rated,
  wrong_count,
  not_read,
};

constexpr double infinity = std::numeric_limits<double>::infinity();

struct Span {
  double least = 0.0;
  double most = infinity;
};

Span limits_of(const ControlRatings& ratings) {
  Span limits;
  if (ratings.interval.least) limits.least = ratings.interval.least->value();
  if (ratings.interval.most) limits.most = ratings.interval.most->value();
  return limits;
}

bool is_clock(const PreparedReading& reading) { return reading.measurand == interval_by_clock; }

/// The hours that the control counts, or nothing where the reading does not say them: hours of the clock become hours
/// of the compressor by the share of the time that it ran.
std::optional<Estimate> counted(const ControlRatings& ratings, const PreparedReading& reading) {
  const bool by_clock = ratings.interval_counts == Counts::clock;
  if (by_clock == is_clock(reading)) return reading.value;
  const Estimate* share = reading.condition(run_share);
  if (share == nullptr || !(share->value() > 0.0 && share->value() <= 1.0)) return std::nullopt;
  Estimate hours;
  const double factor = by_clock ? 1.0 / share->value() : share->value();
  hours.add_scaled(reading.value, factor);
  hours.add_uncertainty(*share, (by_clock ? -1.0 : 1.0) * hours.value() / share->value());
  return hours;
}

void tell_hours(Finding& finding, const Estimate& hours, const Span& limits) {
  tell(finding, "measured", seconds(hours.value()));
  tell(finding, "lower", seconds(limits.least));
  tell(finding, "upper", seconds(limits.most < infinity ? limits.most : 0.0));
}

void judge_counted(const Scene& scene, const Estimate& hours, const Span& limits, bool none_yet) {
  const auto sources = scene.evidence.sources();
  if (none_yet) {
    const double may_wait = probability_between(hours, sources, -infinity, limits.most);
    const Outcome outcome = decide_observed(may_wait, scene.settings.confidence);
    Finding& finding =
        scene.findings.add(interval, outcome, outcome == Outcome::out_of_limits ? none_came : may_still_come);
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = may_wait;
    tell_hours(finding, hours, limits);
    return;
  }
  const Conformance p = conformance_of(hours, sources, limits.least, limits.most);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = outcome == Outcome::within_limits ? within : unsure;
  if (outcome == Outcome::out_of_limits) text = hours.value() < limits.least ? too_often : too_seldom;
  Finding& finding = scene.findings.add(interval, outcome, text);
  put_judged(finding, hours, limits.least, limits.most, Dimension::duration, p);
  tell_hours(finding, hours, limits);
}

/// Hours of the clock, and how much of them the compressor ran is not known: it ran for all of them at most.
void judge_by_clock_alone(const Scene& scene, const PreparedReading& reading, const Span& limits) {
  const double may_be = probability_between(reading.value, scene.evidence.sources(), limits.least, infinity);
  const bool too_short =
      !stood(reading) && decide_observed(may_be, scene.settings.confidence) == Outcome::out_of_limits;
  Finding& finding = scene.findings.add(interval, too_short ? Outcome::out_of_limits : Outcome::undecided,
                                        too_short ? too_often_by_any_count : clock_means_little);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = stood(reading) ? 1.0 : may_be;
  tell_hours(finding, reading.value, limits);
}

void judge_one(const Scene& scene, const PreparedReading& reading) {
  if (scene.ratings == nullptr || !scene.ratings->interval.is_stated()) {
    scene.findings.add(interval, Outcome::silent, not_rated);
    return;
  }
  const Span limits = limits_of(*scene.ratings);
  if (const std::optional<Estimate> hours = counted(*scene.ratings, reading))
    judge_counted(scene, *hours, limits, stood(reading));
  else if (is_clock(reading))
    judge_by_clock_alone(scene, reading, limits);
  else
    scene.findings.add(interval, Outcome::undecided, wrong_count);
}

}  // namespace

RuleDescriptor describe_interval() {
  return {
      "interval",
      OHMWRIGHT_TEXT("How often a defrost comes"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "US 10 CFR 430 subpart B appendix A: intervals of variable defrosts count the compressor's run time",
      {
          {"within", OHMWRIGHT_TEXT("By its own count a defrost comes every {measured}, within {lower} to {upper}.")},
          {"too-often",
           OHMWRIGHT_TEXT("By its own count a defrost comes every {measured}, more often than every {lower}: "
                          "it wastes energy and warms the food.")},
          {"too-seldom",
           OHMWRIGHT_TEXT("By its own count a defrost comes only every {measured}; a good one lets {upper} "
                          "pass at most, or the coil freezes shut.")},
          {"unsure", OHMWRIGHT_TEXT("By its own count a defrost comes every {measured}; with a good one it is every "
                                    "{lower} to {upper}: too near to an end to tell.")},
          {"none-came", OHMWRIGHT_TEXT("In {measured} by its own count no defrost came; a good one starts one within "
                                       "{upper}.")},
          {"may-still-come", OHMWRIGHT_TEXT("In {measured} by its own count no defrost came yet; a good one may let "
                                            "{upper} pass.")},
          {"too-often-by-any-count",
           OHMWRIGHT_TEXT("Defrosts came {measured} apart by the clock, and a good one lets {lower} of compressor time "
                          "pass: the compressor cannot have run longer than the clock.")},
          {"clock-means-little",
           OHMWRIGHT_TEXT("{measured} by the clock say little: it counts the hours that the compressor ran, {lower} to "
                          "{upper} of them.")},
          {"not-rated", OHMWRIGHT_TEXT("Not judged: how often its defrosts have to come is not known.")},
          {"wrong-count", OHMWRIGHT_TEXT("It counts hours of the clock, and only the compressor's run time was given: "
                                         "say how much of the time that ran (--run-share).")},
          {"not-read", OHMWRIGHT_TEXT("Not judged: the time between two defrosts was not noted.")},
      }};
}

void judge_interval(const Scene& scene) {
  bool judged = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != interval_time && reading.measurand != interval_by_clock) continue;
    if (reading.shown != Shown::value) continue;
    judge_one(scene, reading);
    judged = true;
  }
  if (!judged) scene.findings.add(interval, Outcome::silent, not_read);
}

}  // namespace ohmwright::defrost_control
