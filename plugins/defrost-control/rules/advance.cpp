#include "rules/advance.hpp"

#include <algorithm>
#include <limits>

#include "part/cam_time.hpp"

namespace ohmwright::defrost_control {

namespace {

enum Text : TextIndex {
  moved_in_time,
  moved_within_limit,
  moved_too_soon,
  moved_too_late,
  moved_unsure,
  stands,
  may_still_move,
  defrost_came,
  interval_undecided,
  moves_unrated,
  stands_unrated,
  position_unstated,
  not_watched,
};

constexpr double infinity = std::numeric_limits<double>::infinity();

/// How long a good control stays in that position, by its own hours [s]; without limits, anything.
struct Stay {
  double least = 0.0;
  double most = infinity;

  bool has_end() const { return most < infinity; }
};

Stay stay_in(const ControlRatings& ratings, PlaceIndex place) {
  const Between<Duration>& rated = place == in_run ? ratings.interval : ratings.defrost_time;
  Stay stay;
  if (rated.least) stay.least = rated.least->value();
  if (rated.most) stay.most = rated.most->value();
  return stay;
}

/// The time it took, as if it had run on the line it is made for.
Estimate at_rated_frequency(const Scene& scene, const PreparedReading& reading) {
  Estimate time;
  const Estimate* line = reading.condition(frequency);
  if (line == nullptr || !(line->value() > 0.0)) {
    time.add_scaled(reading.value, 1.0);
    return time;
  }
  const double factor = time_factor(*scene.ratings, line->value());
  time.add_scaled(reading.value, 1.0 / factor);
  if (factor != 1.0 || scene.ratings->is_timer()) time.add_uncertainty(*line, time.value() / line->value());
  return time;
}

void tell_times(Finding& finding, const Estimate& time, const Stay& stay) {
  finding.measured = seconds(time.value());
  finding.measured_uncertainty = time.standard_uncertainty();
  tell(finding, "measured", seconds(time.value()));
  tell(finding, "lower", seconds(stay.least));
  tell(finding, "upper", seconds(stay.has_end() ? stay.most : 0.0));
  if (stay.least > 0.0) finding.limits.lower = seconds(stay.least);
  if (stay.has_end()) finding.limits.upper = seconds(stay.most);
}

void judge_moved(const Scene& scene, const Estimate& time, const Stay& stay) {
  const Conformance p = conformance_of(time, scene.evidence.sources(), stay.least, stay.most);
  const Outcome outcome = decide(p, scene.settings.confidence);
  Text text = moved_unsure;
  if (outcome == Outcome::within_limits) text = stay.least > 0.0 ? moved_in_time : moved_within_limit;
  if (outcome == Outcome::out_of_limits) text = time.value() < stay.least ? moved_too_soon : moved_too_late;
  Finding& finding = scene.findings.add(advance, outcome, text);
  put_judged(finding, time, stay.least, stay.most, Dimension::duration, p);
  tell_times(finding, time, stay);
}

/// Whether another reading saw it move: then standing for a while elsewhere needs no explanation.
bool moved_elsewhere(const Scene& scene) {
  const auto readings = scene.evidence.readings();
  return std::any_of(readings.begin(), readings.end(), [](const PreparedReading& reading) {
    return reading.measurand == advance_time && reading.shown == Shown::value && !stood(reading);
  });
}

/// It stood for all the time it was watched. A good one may do so as long as its stay has not surely ended.
void judge_stood(const Scene& scene, const Estimate& time, const Stay& stay) {
  const double may_stand = probability_between(time, scene.evidence.sources(), -infinity, stay.most);
  const Outcome outcome = decide_observed(may_stand, scene.settings.confidence);
  if (outcome != Outcome::out_of_limits && moved_elsewhere(scene)) return;
  Finding& finding = scene.findings.add(advance, outcome, outcome == Outcome::out_of_limits ? stands : may_still_move);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = may_stand;
  tell_times(finding, time, stay);
}

void judge_watched(const Scene& scene, const PreparedReading& reading) {
  const PlaceIndex place = place_of(reading);
  if (scene.ratings == nullptr || place == anywhere) {
    const Text text = place == anywhere ? position_unstated : stood(reading) ? stands_unrated : moves_unrated;
    Finding& finding = scene.findings.add(advance, Outcome::undecided, text);
    tell(finding, "measured", seconds(reading.value.value()));
    return;
  }
  const Stay stay = stay_in(*scene.ratings, place);
  const Estimate time = at_rated_frequency(scene, reading);
  if (!stay.has_end()) {
    Finding& finding = scene.findings.add(advance, Outcome::undecided, stood(reading) ? stands_unrated : moves_unrated);
    tell(finding, "measured", seconds(reading.value.value()));
  } else if (stood(reading)) {
    judge_stood(scene, time, stay);
  } else {
    judge_moved(scene, time, stay);
  }
}

/// A defrost that came by itself shows that it moves on, too.
void judge_by_interval(const Scene& scene) {
  const auto& all = scene.findings.findings();
  const auto found = std::find_if(all.begin(), all.end(), [](const Finding& one) { return one.rule == interval; });
  if (found == all.end() || found->outcome == Outcome::silent) {
    scene.findings.add(advance, Outcome::silent, not_watched);
    return;
  }
  const bool came = found->outcome == Outcome::within_limits;
  scene.findings.add(advance, came ? Outcome::within_limits : Outcome::undecided,
                     came ? defrost_came : interval_undecided);
}

}  // namespace

RuleDescriptor describe_advance() {
  return {
      "advance",
      OHMWRIGHT_TEXT("It moves on by itself"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "JCGM 106:2012 (conformance probability); synchronous motors turn with the line's frequency, n = 120 f/p",
      {
          {"moved-in-time", OHMWRIGHT_TEXT("It moved on after {measured}, within {lower} to {upper}.")},
          {"moved-within-limit", OHMWRIGHT_TEXT("It moved on after {measured}, within {upper}.")},
          {"moved-too-soon", OHMWRIGHT_TEXT("It moved on after {measured}, before the {lower} of a good one.")},
          {"moved-too-late", OHMWRIGHT_TEXT("It moved on after {measured} only; a good one takes {upper} at most.")},
          {"moved-unsure", OHMWRIGHT_TEXT("It moved on after {measured}; a good one takes {lower} to {upper}: too near "
                                          "to an end to tell.")},
          {"stands", OHMWRIGHT_TEXT("In {measured} it did not move on, and a good one does within {upper}: it stands "
                                    "still.")},
          {"may-still-move",
           OHMWRIGHT_TEXT("In {measured} it did not move on, but a good one may take up to {upper}: watch it longer.")},
          {"defrost-came", OHMWRIGHT_TEXT("Its defrosts come by themselves, so it moves on.")},
          {"interval-undecided",
           OHMWRIGHT_TEXT("How often its defrosts come does not settle it; it was not watched moving on.")},
          {"moves-unrated",
           OHMWRIGHT_TEXT("It moved on after {measured}: it is not stuck. How long a good one takes is "
                          "not known.")},
          {"stands-unrated",
           OHMWRIGHT_TEXT("In {measured} it did not move on; how long a good one takes is not known.")},
          {"position-unstated",
           OHMWRIGHT_TEXT("It was watched for {measured}, but it was not said in which position: in "
                          "a defrost a good one takes minutes, in run hours.")},
          {"not-watched", OHMWRIGHT_TEXT("Not judged: nobody watched it move on.")},
      }};
}

void judge_advance(const Scene& scene) {
  bool watched = false;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (reading.measurand != advance_time || reading.shown != Shown::value) continue;
    judge_watched(scene, reading);
    watched = true;
  }
  if (!watched) judge_by_interval(scene);
}

}  // namespace ohmwright::defrost_control
