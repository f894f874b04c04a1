#include "rules/advance.hpp"

#include <algorithm>
#include <array>
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
  frequency_matters,
  counts_compressor,
  defrost_came,
  interval_undecided,
  interval_tells,
  moves_unrated,
  stands_unrated,
  position_unstated,
  not_watched,
  shaft_stands,
  shaft_may_turn,
  doubt_reaches,
};

/// A cam that turns once in 16 h has turned 7° by then, which a mark shows (common practice, no source) [s].
constexpr double mark_moves_within = 20.0 * 60.0;

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

/// Whether its times go by the frequency of the line.
bool goes_by_the_line(const Scene& scene) { return scene.ratings->is_timer() && scene.ratings->frequency.has_value(); }

/// The time by its own count, were the line of that frequency: a synchronous motor turns with it.
Estimate on_line_of(const Scene& scene, const Estimate& time, double line_hertz) {
  Estimate own;
  own.add_scaled(time, 1.0 / time_factor(*scene.ratings, line_hertz));
  return own;
}

/// The time that it took as if it had run on the line it is made for; of a line that was not stated, that line.
Estimate own_time(const Scene& scene, const PreparedReading& reading) {
  const Estimate* line = reading.condition(frequency);
  if (line == nullptr || !(line->value() > 0.0) || !goes_by_the_line(scene)) return reading.value;
  Estimate own = on_line_of(scene, reading.value, line->value());
  own.add_uncertainty(*line, own.value() / line->value());
  return own;
}

/// Clock time in run, as hours of the compressor where the control counts those; nothing where its share is not known.
std::optional<Estimate> counted_time(const Scene& scene, const PreparedReading& reading) {
  const Estimate time = own_time(scene, reading);
  if (place_of(reading) != in_run || scene.ratings->interval_counts == Counts::clock) return time;
  const Estimate* share = reading.condition(run_share);
  if (share == nullptr || !(share->value() > 0.0 && share->value() <= 1.0)) return std::nullopt;
  Estimate counted;
  counted.add_scaled(time, share->value());
  counted.add_uncertainty(*share, time.value());
  return counted;
}

/// The frequency was not said, and on a line of 50 or 60 Hz the same time would not condemn it.
template <class Condemns>
bool another_line_clears(const Scene& scene, const PreparedReading& reading, const Estimate& time, Condemns condemns) {
  if (reading.condition(frequency) != nullptr || !goes_by_the_line(scene)) return false;
  constexpr std::array lines{50.0, 60.0};
  return std::any_of(lines.begin(), lines.end(),
                     [&](double hertz) { return !condemns(on_line_of(scene, time, hertz)); });
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

void judge_moved(const Scene& scene, const PreparedReading& reading, const Estimate& time, const Stay& stay) {
  const auto decided = [&](const Estimate& own) {
    return decide(conformance_of(own, scene.evidence.sources(), stay.least, stay.most), scene.settings.confidence);
  };
  const Outcome outcome = decided(time);
  if (outcome == Outcome::out_of_limits && another_line_clears(scene, reading, time, [&](const Estimate& own) {
        return decided(own) == Outcome::out_of_limits;
      })) {
    tell_times(scene.findings.add(advance, Outcome::undecided, frequency_matters), time, stay);
    return;
  }
  Text text = moved_unsure;
  if (outcome == Outcome::within_limits) text = stay.least > 0.0 ? moved_in_time : moved_within_limit;
  if (outcome == Outcome::out_of_limits) text = time.value() < stay.least ? moved_too_soon : moved_too_late;
  Finding& finding = scene.findings.add(advance, outcome, text);
  put_judged(finding, time, stay.least, stay.most, Dimension::duration,
             conformance_of(time, scene.evidence.sources(), stay.least, stay.most));
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
void judge_stood(const Scene& scene, const PreparedReading& reading, const Estimate& time, const Stay& stay) {
  const auto may_stand = [&](const Estimate& own) {
    return probability_between(own, scene.evidence.sources(), -infinity, stay.most);
  };
  const auto condemns = [&](const Estimate& own) {
    return decide_observed(may_stand(own), scene.settings.confidence) == Outcome::out_of_limits;
  };
  const bool condemned = condemns(time);
  if (!condemned && moved_elsewhere(scene)) return;
  if (condemned && another_line_clears(scene, reading, time, condemns)) {
    tell_times(scene.findings.add(advance, Outcome::undecided, frequency_matters), time, stay);
    return;
  }
  const Text open = time.value() > stay.most ? doubt_reaches : may_still_move;
  Finding& finding =
      scene.findings.add(advance, condemned ? Outcome::out_of_limits : Outcome::undecided, condemned ? stands : open);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = may_stand(time);
  tell_times(finding, time, stay);
}

/// A mark on its shaft stands where it stood. How long the cam stays in a position has no part in it.
void judge_shaft(const Scene& scene, const PreparedReading& reading, const Estimate& time) {
  const auto may_stand = [&](const Estimate& own) {
    return probability_between(own, scene.evidence.sources(), -infinity, mark_moves_within);
  };
  const bool condemned = decide_observed(may_stand(time), scene.settings.confidence) == Outcome::out_of_limits &&
                         !another_line_clears(scene, reading, time, [&](const Estimate& own) {
                           return decide_observed(may_stand(own), scene.settings.confidence) == Outcome::out_of_limits;
                         });
  if (!condemned && moved_elsewhere(scene)) return;
  Finding& finding = scene.findings.add(advance, condemned ? Outcome::out_of_limits : Outcome::undecided,
                                        condemned ? shaft_stands : shaft_may_turn);
  finding.meaning = ProbabilityMeaning::observed_if_within;
  finding.probability = may_stand(time);
  tell_times(finding, time, {0.0, mark_moves_within});
}

/// In run, and how long the compressor ran is not known: at most all of the time. Then it can only have moved too soon.
void judge_by_clock_alone(const Scene& scene, const PreparedReading& reading, const Stay& stay) {
  if (stood(reading) && moved_elsewhere(scene)) return;
  const Conformance p = conformance_of(reading.value, scene.evidence.sources(), stay.least, infinity);
  const bool too_soon = !stood(reading) && decide(p, scene.settings.confidence) == Outcome::out_of_limits;
  Finding& finding = scene.findings.add(advance, too_soon ? Outcome::out_of_limits : Outcome::undecided,
                                        too_soon ? moved_too_soon : counts_compressor);
  if (too_soon) put_judged(finding, reading.value, stay.least, infinity, Dimension::duration, p);
  tell_times(finding, reading.value, stay);
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
  const std::optional<Estimate> time = counted_time(scene, reading);
  if (shaft_stood(reading) && scene.is_timer() && time) {
    judge_shaft(scene, reading, *time);
  } else if (!stay.has_end()) {
    Finding& finding = scene.findings.add(advance, Outcome::undecided, stood(reading) ? stands_unrated : moves_unrated);
    tell(finding, "measured", seconds(reading.value.value()));
  } else if (!time) {
    judge_by_clock_alone(scene, reading, stay);
  } else if (stood(reading)) {
    judge_stood(scene, reading, *time, stay);
  } else {
    judge_moved(scene, reading, *time, stay);
  }
}

/// A defrost that came by itself shows that it moves on, too.
void judge_by_interval(const Scene& scene) {
  const auto& all = scene.findings.findings();
  const auto found = std::find_if(all.begin(), all.end(), [](const Finding& one) { return one.rule == interval; });
  if (found == all.end() || found->outcome == Outcome::silent || found->outcome == Outcome::out_of_limits) {
    const bool tells = found != all.end() && found->outcome == Outcome::out_of_limits;
    scene.findings.add(advance, Outcome::silent, tells ? interval_tells : not_watched);
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
          {"frequency-matters",
           OHMWRIGHT_TEXT("{measured} would be wrong on the line it is made for, where a good one takes {lower} to "
                          "{upper}; but its motor goes by the hertz, and on another line that may be right.")},
          {"counts-compressor",
           OHMWRIGHT_TEXT(
               "It was watched for {measured} in run, but it counts the hours that the compressor runs, {lower} "
               "to {upper} of them: the clock alone says little.")},
          {"defrost-came", OHMWRIGHT_TEXT("Its defrosts come by themselves, so it moves on.")},
          {"interval-undecided",
           OHMWRIGHT_TEXT("How often its defrosts come does not settle it; it was not watched moving on.")},
          {"interval-tells", OHMWRIGHT_TEXT("Not judged: how often its defrosts come tells more.")},
          {"moves-unrated",
           OHMWRIGHT_TEXT("It moved on after {measured}: it is not stuck. How long a good one takes is "
                          "not known.")},
          {"stands-unrated",
           OHMWRIGHT_TEXT("In {measured} it did not move on; how long a good one takes is not known.")},
          {"position-unstated",
           OHMWRIGHT_TEXT("It was watched for {measured}, but it was not said in which position: in "
                          "a defrost a good one takes minutes, in run hours.")},
          {"not-watched", OHMWRIGHT_TEXT("Not judged: nobody watched it move on.")},
          {"shaft-stands", OHMWRIGHT_TEXT("In {measured} with power not even its marked shaft turned, and that of a "
                                          "good one shows it within {upper}: it stands still.")},
          {"shaft-may-turn", OHMWRIGHT_TEXT("In {measured} with power its marked shaft did not turn, but on that of a "
                                            "good one it may take {upper} to see it: watch it longer.")},
          {"doubt-reaches",
           OHMWRIGHT_TEXT("In {measured} by its own count it did not move on, and a good one does within {upper}; but "
                          "the doubt about what it counted reaches as far: watch it longer, or say it more closely.")},
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
