#include <algorithm>
#include <cmath>
#include <optional>
#include <vector>

#include <ohmwright/cycles/known_figures.hpp>
#include <ohmwright/cycles/search/defrosts_in_common.hpp>
#include <ohmwright/cycles/search/end_causes.hpp>
#include <ohmwright/cycles/telling_rows.hpp>

namespace ohmwright::cycles {

namespace {

/// Beside what one row warms: a good thermostat or sensor ends within the first, nothing that goes by temperature ends
/// beyond the second (common practice, no source).
constexpr double perhaps_apart_kelvin = 1.0;
constexpr double surely_apart_kelvin = 2.0;

/// These stopped at very different lengths, at the melting point or while the melting had hardly begun: what ends them
/// believed the coil warm.
bool ended_cold_by_belief(const InCommon& common, const Defrost& defrost) {
  if (common.cold_ones_differ()) return true;
  return common.all.count >= 3 && common.durations_differ() && common.all.few_are_longest() &&
         defrost.plateau_second < hardly_melted_share * duration_of(defrost);
}

void set(Defrost& defrost, EndCause cause, EndGround ground) {
  defrost.cause = cause;
  defrost.ground = ground;
}

/// The logger's probe lies elsewhere than the sensor, and its body lags: the coil's rated end is met within the first
/// of these, and surely passed by the second, beside what a row warms (common practice, no source).
constexpr double probe_elsewhere_kelvin = 6.0;
constexpr double surely_past_rating_kelvin = 12.0;

/// Shorter than most limits, and warm at its end: a strong heater on little frost takes so long, too, and rows of the
/// coil alone show no length to the minute. One that is longer than the others changes nothing.
bool may_be_a_quick_one(const InCommon& common) {
  constexpr double clearly_warm_kelvin = melting_point_kelvin + 5.0;
  return !common.any_heated && common.all.usual_second < quick_heating_second &&
         common.usual_end_kelvin > clearly_warm_kelvin;
}

/// As long as the rated limit, where rows are so close that it is not just any length that looks so.
bool lasted_the_time_limit(const LogRatings& ratings, double spacing_second, const Defrost& defrost) {
  if (!ratings.time_limit_second) return false;
  const double edges_second = (defrost.heater_is_seen ? 1.2 : 2.0) * spacing_second;
  constexpr double telling_share = 0.2;
  constexpr double small_share = 0.1;
  // Rows that are not small count what they begin and end in to the heating: a row less is no limit.
  const bool is_a_row_less = edges_second > small_share * *ratings.time_limit_second &&
                             duration_of(defrost) < *ratings.time_limit_second - 0.5 * spacing_second;
  return edges_second <= telling_share * *ratings.time_limit_second && !is_a_row_less &&
         std::abs(duration_of(defrost) - *ratings.time_limit_second) <=
             std::max(edges_second, 0.02 * *ratings.time_limit_second);
}

/// Sensors and thermostats end defrosts at 5 to 24 degC, and the logger's probe lies elsewhere (common practice, no
/// source).
constexpr double warmest_usual_end_kelvin = melting_point_kelvin + 24.0 + probe_elsewhere_kelvin;

/// Where the coil's temperature is known and no rating of it; no limit is stated that says otherwise.
void by_coil(const LogRatings& ratings, const InCommon& common, Defrost& defrost) {
  const auto by_equal_durations = [&] {
    const bool is_open = may_be_a_quick_one(common) && !ratings.time_limit_second;
    set(defrost, is_open ? EndCause::unknown : EndCause::time_limit, EndGround::equal_durations);
  };
  const double margin_kelvin = common.one_end_margin_kelvin();
  const double end = *defrost.end_kelvin;
  const bool is_longest = common.is_longest(defrost);
  const double colder = common.usual_end_kelvin - end;
  // In rows that are not small against the heating its end may stand in the row before or behind.
  const double warmest = common.is_fine_for_coil() ? end : std::max(end, defrost.peak_kelvin.value_or(end));
  const bool many_are_longest = common.all.longest_count * 2 >= common.all.count;
  // The others of this length were ended while ice was left: so was this one, with little ice.
  if (is_longest && common.melting * 2 >= common.all.count && many_are_longest && !common.cold_ones_lie_apart())
    return by_equal_durations();
  // As long as the longest others, and colder than those that ended sooner.
  if (common.durations_differ() && is_longest && common.warm >= 2 &&
      common.usual_end_kelvin - warmest > 2.0 + margin_kelvin)
    return by_equal_durations();
  const bool all_alike = common.all.longest_count == common.all.count;
  // A temperature ends within what one row warms; all of one length at ends further apart than that did not.
  const double apart_kelvin = common.end_spread_kelvin - (all_alike ? common.alike_end_margin_kelvin() : margin_kelvin);
  const bool end_differently = all_alike
                                   ? apart_kelvin > surely_apart_kelvin
                                   : !common.durations_differ() && common.end_spread_kelvin > 4.0 + 2.0 * margin_kelvin;
  // More frost takes longer to a temperature; these took equally long with more and with less.
  const bool melt_differently = all_alike && common.plateau_spread_second > 4.0 * common.tolerance_second;
  if (common.all.count >= 3 && (end_differently || melt_differently)) {
    if (common.is_fine_for_coil()) return by_equal_durations();
    // At one temperature, however alike coarse rows make the times look; else the log cannot show it.
    if (!common.have_one_end(margin_kelvin)) return;
    return set(defrost, EndCause::temperature, EndGround::equal_temperatures);
  }
  // Of one length, and apart by more than a good thermostat scatters: either may have ended them.
  if (common.all.count >= 3 && all_alike && apart_kelvin > perhaps_apart_kelvin) return;
  if (common.durations_differ() && common.warm >= 2 && std::abs(colder) < 2.0 + margin_kelvin)
    return set(defrost, EndCause::temperature, EndGround::equal_temperatures);
  if (end <= melting_point_kelvin + past_melting_kelvin) return;
  // Warmer than what ends defrosts: it opens late, or a limit ended them. And what took the stated limit as others did,
  // at another temperature than they, was ended by that.
  if (!ratings.end_temperature_kelvin && end > warmest_usual_end_kelvin)
    return set(defrost, EndCause::unknown, EndGround::past_melting);
  if (lasted_the_time_limit(ratings, common.spacing_second, defrost) && common.all.count >= 3 &&
      (all_alike || !common.have_one_end(margin_kelvin)))
    return;
  set(defrost, EndCause::temperature, EndGround::past_melting);
}

/// Within one step the coil may have warmed by this much past what was written.
double slope_margin_of(double spacing_second, const Defrost& defrost) {
  if (!defrost.end_kelvin) return 0.0;
  return std::max(0.0, *defrost.end_kelvin - melting_point_kelvin) / warming_after_melting_second(defrost) *
         spacing_second;
}

/// Whether rows show the coil's last warming: a heating that fills few of them ends between two.
bool shows_warmest(double spacing_second, const Defrost& defrost) {
  constexpr double rows_of_the_warming = 4.0;
  if (defrost.heater_is_seen && duration_of(defrost) >= rows_of_the_warming * spacing_second) return true;
  // Where no plateau was told apart, a part of the rise went by before the melting.
  const double warming = warming_after_melting_second(defrost) * (defrost.plateau_start_second ? 1.0 : 0.5);
  return warming >= rows_of_the_warming * spacing_second;
}

/// Whether what looks cold may have got warm between two rows, or in the coil beside the probe: a heating that fills
/// few rows, and hardly more where none of them shows the melting; or a probe that went on warming behind it and had
/// shown no melting, as one does whose body lags.
bool may_have_got_warm(double spacing_second, const Defrost& defrost) {
  constexpr double rows_of_the_melting = 2.5;
  constexpr double rows_of_an_unseen_melting = 5.0;
  constexpr double went_on_kelvin = 2.0;
  const double peak = defrost.peak_kelvin.value_or(*defrost.end_kelvin);
  const bool melting_shows = peak > melting_point_kelvin - melting_margin_kelvin;
  const double fewest_rows = melting_shows ? rows_of_the_melting : rows_of_an_unseen_melting;
  if (duration_of(defrost) < fewest_rows * spacing_second) return true;
  const bool went_on = *defrost.end_kelvin < melting_point_kelvin && peak - *defrost.end_kelvin >= went_on_kelvin;
  return defrost.heater_is_seen && defrost.plateau_second <= 0.0 && went_on && melting_shows;
}

/// Long before the earliest that the rated limit can come: it was not the limit.
bool ended_before_any_limit(const LogRatings& ratings, double spacing_second, const Defrost& defrost) {
  const std::optional<double> limit =
      ratings.time_limit_least_second ? ratings.time_limit_least_second : ratings.time_limit_second;
  constexpr double clearly_before = 0.9;
  return limit && duration_of(defrost) + 2.0 * spacing_second < clearly_before * *limit;
}

/// Further below it than the probe's place explains.
bool is_far_below_rating(const LogRatings& ratings, const Defrost& defrost) {
  return ratings.end_temperature_kelvin &&
         *ratings.end_temperature_kelvin - *defrost.end_kelvin > probe_elsewhere_kelvin;
}

bool ended_at_rated_temperature(const LogRatings& ratings, double slope_margin, const Defrost& defrost) {
  return ratings.end_temperature_kelvin && std::abs(*defrost.end_kelvin - *ratings.end_temperature_kelvin) <=
                                               ratings.end_temperature_tolerance_kelvin + slope_margin;
}

/// Rows that are not small against the heating step over the last warming: what looks cold among others that got warm
/// may have got warm, too, and so may a rise of which no heater shows the end.
bool cold_may_be_unseen(const InCommon& common, const Defrost& defrost) {
  constexpr double rows_of_the_heating = 15.0;
  const bool rows_are_far = duration_of(defrost) < rows_of_the_heating * common.spacing_second;
  return (rows_are_far || !common.any_heated) && common.melting * 2 < common.risen;
}

/// Most lie within a row, or a few parts of a hundred.
bool are_of_one_length(const InCommon& common) {
  constexpr double alike = 0.03;
  constexpr double of_a_row = 0.6;
  return common.all.apart_second <= std::max(of_a_row * common.spacing_second, alike * common.all.usual_second);
}

/// Whether a limit may have ended it, by its length: about the stated one, or no shorter than most are.
bool is_as_long_as_a_limit(const LogRatings& ratings, const InCommon& common, const Defrost& defrost) {
  constexpr double about = 0.9;
  constexpr double small_share = 0.1;  // of the limit: rows further apart show no length to it
  if (!ratings.time_limit_second) return common.all.usual_second >= quick_heating_second || are_of_one_length(common);
  const double limit = ratings.time_limit_least_second.value_or(*ratings.time_limit_second);
  return common.spacing_second <= small_share * *ratings.time_limit_second &&
         duration_of(defrost) + common.spacing_second >= about * limit;
}

/// What of cold ones is told by their lengths: a belief, or a limit; nothing where they may be of either.
EndCause cause_of_cold(const LogRatings& ratings, const InCommon& common, const Defrost& defrost) {
  if (ended_cold_by_belief(common, defrost)) return EndCause::temperature;
  if (common.cold_ones_leave_it_open() || !is_as_long_as_a_limit(ratings, common, defrost)) return EndCause::unknown;
  return EndCause::time_limit;
}

/// What was told by the coil alone does not stand where the ice was gone and the end lies far from the rated one: it is
/// asked about.
void hold_against_rating(const LogRatings& ratings, double slope_margin, Defrost& defrost) {
  if (!ratings.end_temperature_kelvin || defrost.cause == EndCause::time_limit) return;
  const double past = *defrost.end_kelvin - *ratings.end_temperature_kelvin;
  // Behind its end nothing heats any more: a row that lies there is warmer by less than a row of the heating warms.
  if (past > surely_past_rating_kelvin + 0.5 * slope_margin)
    set(defrost, EndCause::unknown, EndGround::past_rated);
  else if (-past > probe_elsewhere_kelvin)
    set(defrost, EndCause::unknown, EndGround::below_rated);
}

/// Rows too far apart for times: what the coil was seen to reach is all that they show.
void by_warmest_row(const LogRatings& ratings, Defrost& defrost) {
  if (!has_risen(defrost)) return;
  if (ended_at_rated_temperature(ratings, 0.0, defrost))
    return set(defrost, EndCause::temperature, EndGround::rated_temperature);
  // What good defrosts never reach was ended by no temperature that should end one.
  if (!ratings.end_temperature_kelvin && *defrost.end_kelvin > melting_point_kelvin + past_melting_kelvin &&
      *defrost.end_kelvin < hottest_good_end_kelvin)
    set(defrost, EndCause::temperature, EndGround::past_melting);
}

/// Ended so early that no limit did it, by what the coil was.
void by_belief_alone(const LogRatings& ratings, Defrost& defrost) {
  if (stayed_at_the_melting_point(defrost)) return set(defrost, EndCause::temperature, EndGround::still_melting);
  if (is_far_below_rating(ratings, defrost) && ended_hardly_past_melting(defrost))
    return set(defrost, EndCause::temperature, EndGround::below_rated);
  if (*defrost.end_kelvin > melting_point_kelvin + past_melting_kelvin)
    set(defrost, EndCause::temperature, EndGround::past_melting);
}

/// Where the coil rose, by its temperature at the end of heating.
void by_end_temperature(const LogRatings& ratings, const InCommon& common, Defrost& defrost) {
  const double slope_margin = slope_margin_of(common.spacing_second, defrost);
  // All took the stated limit, and none got to the rated end, were it a row later: about it is not at it.
  const bool took_the_limit = common.is_fine_for_coil() && common.all.count >= 3 &&
                              common.all.longest_count == common.all.count &&
                              lasted_the_time_limit(ratings, common.spacing_second, defrost);
  if (took_the_limit && ratings.end_temperature_kelvin &&
      common.usual_end_kelvin + common.end_spread_kelvin + slope_margin < *ratings.end_temperature_kelvin)
    return set(defrost, EndCause::time_limit, EndGround::below_rated);
  if (ended_at_rated_temperature(ratings, slope_margin, defrost))
    return set(defrost, EndCause::temperature, EndGround::rated_temperature);
  if (cold_may_be_unseen(common, defrost) && stayed_at_the_melting_point(defrost)) return;
  if (stayed_at_the_melting_point(defrost) && may_have_got_warm(common.spacing_second, defrost)) {
    if (duration_of(defrost) >= 2.0 * common.spacing_second) set(defrost, EndCause::unknown, EndGround::still_melting);
    return;
  }
  const bool is_below_rated = ratings.end_temperature_kelvin && *defrost.end_kelvin <= *ratings.end_temperature_kelvin;
  const bool is_melting = stayed_at_the_melting_point(defrost);
  if (!is_melting && is_below_rated && !shows_warmest(common.spacing_second, defrost)) return;
  // What ends it so early is no limit; where it is cold, it was taken for warm.
  if (ended_before_any_limit(ratings, common.spacing_second, defrost)) {
    by_belief_alone(ratings, defrost);
    if (!is_melting && !ended_hardly_past_melting(defrost)) hold_against_rating(ratings, slope_margin, defrost);
    return;
  }
  if (is_melting) return set(defrost, cause_of_cold(ratings, common, defrost), EndGround::still_melting);
  if (!ratings.end_temperature_kelvin) return by_coil(ratings, common, defrost);
  if (is_far_below_rating(ratings, defrost) && ended_hardly_past_melting(defrost))
    return set(defrost, cause_of_cold(ratings, common, defrost), EndGround::below_rated);
  if (is_below_rated && !lasted_the_time_limit(ratings, common.spacing_second, defrost)) {
    by_coil(ratings, common, defrost);
    return hold_against_rating(ratings, slope_margin, defrost);
  }
  if (is_below_rated) return set(defrost, EndCause::time_limit, EndGround::below_rated);
  // Past what should have ended it: where the times are equal, they ended it, unless no limit is known and the ends are
  // equal, too; else the logger's sensor is elsewhere, or what ends it is off.
  const bool are_alike =
      common.is_fine_for_coil() && common.all.count >= 3 && common.all.longest_count == common.all.count;
  if (lasted_the_time_limit(ratings, common.spacing_second, defrost))
    return set(defrost, EndCause::time_limit, EndGround::past_rated);
  if (are_alike) {
    const bool is_near = *defrost.end_kelvin - *ratings.end_temperature_kelvin <= surely_past_rating_kelvin;
    const bool is_open = !ratings.time_limit_second && (is_near || common.have_one_end(common.one_end_margin_kelvin()));
    return set(defrost, is_open ? EndCause::unknown : EndCause::time_limit, EndGround::past_rated);
  }
  by_coil(ratings, common, defrost);
  hold_against_rating(ratings, slope_margin, defrost);
}

/// Lengths alone tell only against a limit that is known: alike frost makes healthy ones alike, too.
void by_length(const LogRatings& ratings, double spacing_second, Defrost& defrost) {
  if (lasted_the_time_limit(ratings, spacing_second, defrost))
    return set(defrost, EndCause::time_limit, EndGround::rated_time);
  if (!defrost.has_coil && defrost.heater_is_seen && ended_before_any_limit(ratings, spacing_second, defrost))
    set(defrost, EndCause::temperature, EndGround::unequal_durations);
}

}  // namespace

void tell_end_causes(const LogRatings& ratings, double spacing_second, std::vector<Defrost>& defrosts) {
  const InCommon common = in_common(ratings, spacing_second, defrosts);
  for (Defrost& defrost : defrosts) {
    set(defrost, EndCause::unknown, EndGround::nothing);
    // Where nothing was seen to heat, no heating ended.
    if (defrost.is_cut || (defrost.has_load && !defrost.heater_is_seen)) continue;
    // The rise of the air is no length of a heating.
    if (!defrost.heater_is_seen && !defrost.has_load && !defrost.has_coil) continue;
    // Between rows so far apart the coil can warm and cool again, and a heater start and end.
    if (spacing_second > farthest_telling_rows_second) {
      by_warmest_row(ratings, defrost);
      continue;
    }
    if (has_risen(defrost) && !stayed_far_below_melting(defrost)) by_end_temperature(ratings, common, defrost);
    // What looks cold because its last warming lies between two rows has a length to a row alone.
    constexpr double small_share = 0.1;
    const bool rows_are_far = spacing_second > small_share * ratings.time_limit_second.value_or(0.0);
    if (defrost.ground == EndGround::still_melting && rows_are_far) continue;
    if (defrost.cause == EndCause::unknown) by_length(ratings, spacing_second, defrost);
  }
}

}  // namespace ohmwright::cycles
