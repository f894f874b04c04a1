#include "rules/matching_class.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <limits>

#include "rules/fusion.hpp"
#include "rules/generic_classes.hpp"

namespace ohmwright::defrost_sensor {

namespace {

enum Text : TextIndex {
  none_near,
  one_near,
  two_near,
  three_near,
  ratings_known,
  no_reading,
  none_near_throughout,
  one_near_throughout,
  two_near_throughout,
  three_near_throughout,
};

/// As far off as its limits and twice the doubt together: a class that the reading may well be of.
constexpr double near = 1.0;

struct Match {
  const GenericClass* generic = nullptr;
  double distance = std::numeric_limits<double>::infinity();  ///< in half-widths of its limits and its doubt together
  double kelvin = 0.0;
};

using Matches = std::array<Match, 3>;

double distance_of(const Deviation& deviation) {
  const double width = 0.5 * (deviation.limits.upper - deviation.limits.lower);
  const double reach = std::hypot(width, 2.0 * deviation.log.standard_uncertainty());
  return std::abs(deviation.log.value()) / reach;
}

std::optional<Match> match(const GenericClass& generic, const PreparedReading& reading) {
  const std::optional<Deviation> deviation = deviation_of(generic.ratings, reading);
  if (!deviation) return std::nullopt;
  return Match{&generic, distance_of(*deviation), deviation->kelvin(*generic.ratings.curve).value()};
}

void insert(Matches& nearest, Match one) {
  for (Match& place : nearest)
    if (one.distance < place.distance) std::swap(place, one);
}

bool is_comparable(const PreparedReading& reading) {
  return is_ohms(reading) && reading.shown == Shown::value && reading.condition(part_temperature) != nullptr &&
         !is_live(reading) && !is_in_circuit(reading) && !is_wet(reading) && !is_within_leads(reading);
}

/// How near a class comes to all readings of the part alone: as near as to the one that fits it worst.
std::optional<Match> match_throughout(const GenericClass& generic, const Evidence& evidence) {
  std::optional<Match> worst;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_comparable(reading)) continue;
    const std::optional<Match> one = match(generic, reading);
    if (one && (!worst || one->distance > worst->distance)) worst = one;
  }
  return worst;
}

Matches nearest_classes(const Scene& scene) {
  Matches nearest{};
  for (const GenericClass& generic : generic_classes())
    if (const std::optional<Match> one = match_throughout(generic, scene.evidence)) insert(nearest, *one);
  return nearest;
}

}  // namespace

std::string_view class_that_fits(const Scene& scene) {
  const auto fits_all = [&scene](const GenericClass& generic) {
    return std::all_of(scene.usable.begin(), scene.usable.end(), [&generic](const Deviation& deviation) {
      const std::optional<Deviation> from_class = deviation_of(generic.ratings, *deviation.reading);
      return from_class && distance_of(*from_class) <= near;
    });
  };
  for (const GenericClass& generic : generic_classes())
    if (fits_all(generic)) return generic.name;
  return {};
}

bool read_at_several_temperatures(const Scene& scene) {
  double coldest = std::numeric_limits<double>::infinity();
  double warmest = -coldest;
  for (const PreparedReading& reading : scene.evidence.readings()) {
    if (!is_comparable(reading)) continue;
    const double kelvin = reading.condition(part_temperature)->value();
    coldest = std::min(coldest, kelvin);
    warmest = std::max(warmest, kelvin);
  }
  return warmest - coldest >= least_kelvin_apart;
}

RuleDescriptor describe_matching_class() {
  return {"matching-class",
          OHMWRIGHT_TEXT("Which class it may be"),
          false,
          can_be_undecided,
          "common practice, no source: classes seen in appliances; never a ground for a verdict",
          {
              {"none-near", OHMWRIGHT_TEXT("None of the shipped classes reads so at "
                                           "that temperature; nearest is {first}, {first_off} off.")},
              {"one-near", OHMWRIGHT_TEXT("It reads as the class {first} does ({first_off} "
                                          "off), which is no proof of what it is.")},
              {"two-near",
               OHMWRIGHT_TEXT(
                   "It reads as the classes {first} ({first_off} off) or "
                   "{second} ({second_off} off) do. Classes can meet at one temperature: this is no proof of what "
                   "it is.")},
              {"three-near",
               OHMWRIGHT_TEXT("It reads as the classes {first} ({first_off} off), "
                              "{second} ({second_off} off) or {third} ({third_off} off) do. Classes can meet at one "
                              "temperature: this is no proof of what it is.")},
              {"ratings-known", OHMWRIGHT_TEXT("Not asked: the ratings of the part are known.")},
              {"no-reading",
               OHMWRIGHT_TEXT("Not told: this needs a dry reading of the part alone at a known temperature.")},
              {"none-near-throughout", OHMWRIGHT_TEXT("None of the shipped classes reads so at these temperatures; "
                                                      "nearest is {first}, up to {first_off} off.")},
              {"one-near-throughout",
               OHMWRIGHT_TEXT("At all its temperatures it reads as the class {first} does (up to {first_off} off).")},
              {"two-near-throughout",
               OHMWRIGHT_TEXT("At all its temperatures it reads as the classes {first} (up to {first_off} off) or "
                              "{second} (up to {second_off} off) do.")},
              {"three-near-throughout",
               OHMWRIGHT_TEXT("At all its temperatures it reads as the classes {first} (up to {first_off} off), "
                              "{second} (up to {second_off} off) or {third} (up to {third_off} off) do.")},
          }};
}

void judge_matching_class(const Scene& scene) {
  if (scene.ratings != nullptr) {
    scene.findings.add(matching_class, Outcome::silent, ratings_known);
    return;
  }
  const Matches nearest = nearest_classes(scene);
  if (nearest.front().generic == nullptr) {
    scene.findings.add(matching_class, Outcome::silent, no_reading);
    return;
  }
  std::size_t near_ones = 0;
  while (near_ones < nearest.size() && nearest[near_ones].distance <= near) ++near_ones;
  const TextIndex base = read_at_several_temperatures(scene) ? none_near_throughout : none_near;
  Finding& finding = scene.findings.add(matching_class, Outcome::undecided, static_cast<TextIndex>(base + near_ones));
  constexpr std::array names{"first", "second", "third"};
  constexpr std::array differences{"first_off", "second_off", "third_off"};
  for (std::size_t i = 0; i < std::max<std::size_t>(1, near_ones); ++i) {
    tell(finding, names[i], std::string(nearest[i].generic->name));
    tell(finding, differences[i], kelvins(std::abs(nearest[i].kelvin)));
  }
}

}  // namespace ohmwright::defrost_sensor
