#include "rules/stuck.hpp"

#include <algorithm>
#include <cmath>

#include "rules/good_part.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex {
  welded,
  stuck_open,
  still_closed,
  still_open,
  sticks_closed,
  sticks_open,
  open_whatever_it_is,
  moved_each_time,
  never_opened_unrated,
  never_opened_connection_unstated,
  one_end_only,
  never_moved_between,
  no_state,
  comes_and_goes,
};

// Past these no bimetal thermostat of a household appliance is closed, or open: common practice, no source. They stand
// for ratings that are not known; between them nothing is decided.
constexpr double hottest_opening_celsius = 150.0;
constexpr double coldest_closing_celsius = -30.0;
/// Where every defrost thermostat has opened: 21 °C and 3 K (common practice, no source). Steers a remark only.
constexpr double hottest_defrost_opening_celsius = 24.0;

/// Outside these temperatures the state of any good part is known.
struct Ends {
  TripPoint opening;
  TripPoint closing;
};

TripPoint exactly_at(double celsius) { return {Temperature::from_celsius(celsius), {}, {}, Spread::limits}; }

Ends ends_of(const Scene& scene) {
  if (scene.ratings == nullptr) return {exactly_at(hottest_opening_celsius), exactly_at(coldest_closing_celsius)};
  Ends ends{scene.ratings->opening, scene.ratings->closing};
  if (scene.ratings->promises_trip_points()) return ends;
  // A type 1 part may drift; that one moved by its whole differential and still works is not to be believed (ours).
  const TemperatureDifference reach = ends.opening.nominal - ends.closing.nominal;
  ends.opening.nominal = ends.opening.nominal + reach;
  ends.closing.nominal = ends.closing.nominal - reach;
  return ends;
}

/// How often it was seen in each state at each end.
struct Count {
  int closed_warm = 0;
  int closed_warm_alone = 0;  ///< of them surely of the contact
  int open_warm = 0;
  int closed_cold = 0;
  int open_cold = 0;
  int closed = 0;
  int open = 0;
  double coldest = 0.0;  ///< [K], of all
  double warmest = 0.0;
  double warmest_closed = 0.0;  ///< [K], less the thermometer's half-width
  double coldest_open = 0.0;    ///< [K], plus the thermometer's half-width
  double least = 1.0;           ///< smallest P(observed | good part)
};

void count_one(const Scene& scene, const Ends& ends, const PreparedReading& reading, Count& count) {
  const Estimate* temperature = reading.condition(part_temperature);
  const ContactSeen seen = contact_seen(reading);
  const bool closed = seen == ContactSeen::closed;
  if (temperature == nullptr || !is_of_contact_alone(reading) || !(closed || is_not_closed(seen))) return;
  const auto sources = scene.evidence.sources();
  const double may_be_closed = may_trip_above(ends.opening, *temperature, sources);
  const double may_be_open = may_trip_below(ends.closing, *temperature, sources);
  const bool warm = scene.sure(1.0 - may_be_closed);
  const bool cold = scene.sure(1.0 - may_be_open);
  const bool first = count.closed + count.open == 0;
  count.coldest = first ? temperature->value() : std::min(count.coldest, temperature->value());
  count.warmest = first ? temperature->value() : std::max(count.warmest, temperature->value());
  const double doubt = half_width_of_temperature(*temperature);
  if (closed)
    count.warmest_closed = std::max(count.closed == 0 ? 0.0 : count.warmest_closed, temperature->value() - doubt);
  else
    count.coldest_open =
        count.open == 0 ? temperature->value() + doubt : std::min(count.coldest_open, temperature->value() + doubt);
  ++(closed ? count.closed : count.open);
  if (warm) ++(closed ? count.closed_warm : count.open_warm);
  if (cold) ++(closed ? count.closed_cold : count.open_cold);
  if (warm && closed && scene.is_surely_of_contact(reading)) ++count.closed_warm_alone;
  count.least = std::min(count.least, closed ? may_be_closed : may_be_open);
}

bool moved_each_time_in(const Scene& scene) {
  return scene.opening.count() > 0 && scene.closing.count() > 0 && scene.opening.backwards() == 0 &&
         scene.closing.backwards() == 0;
}

/// Found closed where it must be open, warmer than where it opened at other times. One that always opens too warm does
/// not stick: it drifted, and the opening point says so.
bool sticks_closed_at_times(const Scene& scene, const Count& count) {
  return count.closed_warm > 0 && scene.opening.count() > 0 &&
         count.warmest_closed - scene.opening.largest_lag() > scene.opening.passages().to();
}

bool sticks_open_at_times(const Scene& scene, const Count& count) {
  return count.open_cold > 0 && scene.closing.count() > 0 &&
         count.coldest_open + scene.closing.largest_lag() < scene.closing.passages().from();
}

/// What the count condemns, if anything.
std::optional<Text> condemned_by(const Scene& scene, const Count& count) {
  const bool type_1 = scene.ratings != nullptr && !scene.ratings->promises_trip_points();
  if (type_1 && count.closed_warm > 0 && count.open == 0) return still_closed;
  if (type_1 && count.open_cold > 0 && count.closed == 0) return still_open;
  if (count.closed_warm > 0 && count.closed_cold > 0 && count.open == 0) return welded;
  if (count.open_cold > 0 && scene.ratings == nullptr) return open_whatever_it_is;
  if (count.open_cold > 0 && count.open_warm > 0 && count.closed == 0) return stuck_open;
  if (sticks_closed_at_times(scene, count)) return sticks_closed;
  if (sticks_open_at_times(scene, count)) return sticks_open;
  return std::nullopt;
}

/// What is to be said where nothing condemns and it was not seen to move both ways.
struct Remark {
  Outcome outcome;
  Text text;
};

Remark remark_on(const Scene& scene, const Count& count) {
  const bool span_of_any_defrost = count.warmest >= Temperature::from_celsius(hottest_defrost_opening_celsius).kelvin();
  if (count.closed + count.open == 0) return {Outcome::silent, no_state};
  if (scene.ratings == nullptr && count.open == 0 && span_of_any_defrost)
    return {Outcome::undecided, never_opened_unrated};
  const bool both_ends =
      scene.ratings != nullptr && count.open_warm + count.closed_warm > 0 && count.open_cold + count.closed_cold > 0;
  return {Outcome::silent, both_ends ? never_moved_between : one_end_only};
}

void add_finding(const Scene& scene, const Count& count, Remark remark) {
  Finding& finding = scene.findings.add(stuck, remark.outcome, remark.text);
  tell(finding, "coldest", degrees(count.coldest));
  tell(finding, "warmest", degrees(count.warmest));
  tell(finding, "any_opening", AnyQuantity(Temperature::from_celsius(hottest_defrost_opening_celsius)));
  if (remark.outcome == Outcome::out_of_limits) {
    finding.meaning = ProbabilityMeaning::observed_if_within;
    finding.probability = count.least;
  }
}

void tell_cycles(const Scene& scene) {
  const auto cycles = static_cast<double>(std::min(scene.opening.count(), scene.closing.count()));
  Finding& finding = scene.findings.add(stuck, Outcome::within_limits, moved_each_time);
  tell(finding, "opened", static_cast<double>(scene.opening.count()));
  tell(finding, "closed", static_cast<double>(scene.closing.count()));
  // A part that sticks in a share s of its cycles shows none of it in n with (1 - s)^n; s where that is 1 - c.
  tell(finding, "missed_percent", 100.0 * (1.0 - std::pow(1.0 - scene.settings.confidence, 1.0 / cycles)));
}

}  // namespace

RuleDescriptor describe_stuck() {
  return {
      "stuck",
      OHMWRIGHT_TEXT("Moves each time"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "P(state | good part), ours; no failure in n trials bounds the share by 1 - (1 - c)^(1/n) (exact binomial)",
      {
          {"welded", OHMWRIGHT_TEXT("It stayed closed from {coldest} to {warmest}: its contact is welded.")},
          {"stuck-open", OHMWRIGHT_TEXT("It stayed open from {coldest} to {warmest}: it is stuck open.")},
          {"still-closed",
           OHMWRIGHT_TEXT("Still closed at {warmest}, its whole differential past where it should open. No drift "
                          "explains that: its contact is welded.")},
          {"still-open",
           OHMWRIGHT_TEXT("Still open at {coldest}, its whole differential past where it should close. No drift "
                          "explains that: it is stuck open.")},
          {"sticks-closed",
           OHMWRIGHT_TEXT("It opens, but was also found closed far warmer than that: the contact sticks now and then. "
                          "(Readings from {coldest} to {warmest}.)")},
          {"sticks-open",
           OHMWRIGHT_TEXT("It closes, but was also found open far colder than that: it sticks now and then. "
                          "(Readings from {coldest} to {warmest}.)")},
          {"open-whatever-it-is",
           OHMWRIGHT_TEXT("Open at {coldest}. Whatever its rating, a thermostat that opens as it warms is closed that "
                          "cold: it is stuck open.")},
          {"moved-each-time",
           OHMWRIGHT_TEXT(
               "Openings seen: {opened}, closings: {closed}, and it never stuck. One that sticks in fewer than "
               "{missed_percent} % of its cycles could still have hidden it.")},
          {"never-opened-unrated",
           OHMWRIGHT_TEXT("Still closed at {warmest}. A defrost thermostat of any rating is open by {any_opening}, so "
                          "one would be welded; a high limit stays closed far above that. Say which it is.")},
          {"never-opened-connection-unstated",
           OHMWRIGHT_TEXT("It looked closed from {coldest} to {warmest}, but it was not said that a lead was off: "
                          "another path can look closed.")},
          {"one-end-only",
           OHMWRIGHT_TEXT("Not judged: it was not read at both ends, cold enough to be closed and warm enough to be "
                          "open.")},
          {"never-moved-between",
           OHMWRIGHT_TEXT("Not judged: it was right at both ends, but was not watched as it opened and closed.")},
          {"no-state", OHMWRIGHT_TEXT("Not judged: this needs readings of the contact with the temperature of each.")},
          {"comes-and-goes", OHMWRIGHT_TEXT("Not judged: the contact changed with no change of temperature.")},
      }};
}

void judge_stuck(const Scene& scene) {
  if (scene.comes_and_goes()) {
    scene.findings.add(stuck, Outcome::silent, comes_and_goes);
    return;
  }
  const Ends ends = ends_of(scene);
  Count count;
  for (const PreparedReading& reading : scene.evidence.readings()) count_one(scene, ends, reading, count);
  if (const std::optional<Text> text = condemned_by(scene, count)) {
    const bool rests_on_closed = *text == welded || *text == still_closed;
    if (rests_on_closed && count.closed_warm_alone == 0)
      add_finding(scene, count, {Outcome::undecided, never_opened_connection_unstated});
    else
      add_finding(scene, count, {Outcome::out_of_limits, *text});
  } else if (moved_each_time_in(scene)) {
    tell_cycles(scene);
  } else {
    add_finding(scene, count, remark_on(scene, count));
  }
}

}  // namespace ohmwright::bimetal_thermostat
