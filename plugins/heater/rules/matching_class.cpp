#include "rules/matching_class.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "rules/generic_classes.hpp"

namespace ohmwright::heater {

namespace {

enum Text : TextIndex { nearest, ratings_known, no_reading };

struct Match {
  const GenericClass* generic = nullptr;
  double distance = std::numeric_limits<double>::infinity();  ///< |ln(R/V²·P)|
};

using Matches = std::array<Match, 2>;

Matches nearest_classes(double read_ohms) {
  Matches matches{};
  for (const GenericClass& generic : generic_classes()) {
    Match one{&generic, std::abs(std::log(read_ohms / generic.ohms()))};
    for (Match& place : matches)
      if (one.distance < place.distance) std::swap(place, one);
  }
  return matches;
}

const PreparedReading* usable_reading(const Scene& scene) {
  for (const PreparedReading& reading : scene.evidence.readings())
    if (is_ohms(reading) && reading.shown == Shown::value && !is_live(reading) && !is_in_circuit(reading) &&
        !is_within_leads(scene.ratings, reading) && reading.value.value() > 0.0)
      return &reading;
  return nullptr;
}

}  // namespace

RuleDescriptor describe_matching_class() {
  return {
      "matching-class",
      OHMWRIGHT_TEXT("Which class it may be"),
      false,
      can_be_undecided,
      "V^2/P of generic classes; never a ground for a verdict",
      {
          {"nearest",
           OHMWRIGHT_TEXT("It reads {measured}, {power_120} at 120 V or {power_230} at 230 V. That comes nearest to "
                          "{first}, then {second}. It is what it does, not what it should do: the plate decides.")},
          {"ratings-known", OHMWRIGHT_TEXT("Not asked: the ratings of the part are known.")},
          {"no-reading", OHMWRIGHT_TEXT("Not told: this needs its ohms, read with a lead off.")},
      }};
}

void judge_matching_class(const Scene& scene) {
  const PreparedReading* reading = usable_reading(scene);
  if (scene.ratings != nullptr || reading == nullptr) {
    scene.findings.add(matching_class, Outcome::silent, scene.ratings != nullptr ? ratings_known : no_reading);
    return;
  }
  const double read_ohms = reading->value.value();
  const Matches matches = nearest_classes(read_ohms);
  Finding& finding = scene.findings.add(matching_class, Outcome::undecided, nearest);
  finding.measured = ohms(read_ohms);
  tell(finding, "measured", *finding.measured);
  tell(finding, "power_120", watts(120.0 * 120.0 / read_ohms));
  tell(finding, "power_230", watts(230.0 * 230.0 / read_ohms));
  tell(finding, "first", std::string(matches[0].generic->name));
  tell(finding, "second", std::string(matches[1].generic->name));
}

}  // namespace ohmwright::heater
