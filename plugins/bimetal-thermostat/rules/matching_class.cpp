#include "rules/matching_class.hpp"

#include <array>
#include <cmath>
#include <limits>
#include <string>
#include <utility>

#include "rules/generic_classes.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex { nearest_by_opening, nearest_by_both, too_wide, ratings_known, not_seen };

struct Match {
  const GenericClass* generic = nullptr;
  double distance = std::numeric_limits<double>::infinity();  ///< in half-widths of the class's tolerance
};

using Matches = std::array<Match, 2>;

double distance_to(const TripPoint& trip, const Bracketed& seen) {
  return std::abs(seen.judged.value() - trip.nominal.kelvin()) / trip.tolerance.value();
}

Matches nearest_classes(const Bracketed& opening, const std::optional<Bracketed>& closing) {
  Matches nearest{};
  for (const GenericClass& generic : generic_classes()) {
    const double by_closing = closing ? distance_to(generic.closing, *closing) : 0.0;
    Match one{&generic, std::hypot(distance_to(generic.opening, opening), by_closing)};
    for (Match& place : nearest)
      if (one.distance < place.distance) std::swap(place, one);
  }
  return nearest;
}

}  // namespace

RuleDescriptor describe_matching_class() {
  return {
      "matching-class",
      OHMWRIGHT_TEXT("Which class it may be"),
      false,
      can_be_undecided,
      "common practice, no source: classes seen in appliances; never a ground for a verdict",
      {
          {"nearest-by-opening",
           OHMWRIGHT_TEXT("It opened at about {opened}, which comes nearest to {first}, then {second}. That is what it "
                          "does, not what it should do: a part that drifted looks like another class.")},
          {"nearest-by-both",
           OHMWRIGHT_TEXT("It opened at about {opened} and closed at about {closed}, which comes nearest to {first}, "
                          "then {second}. That is what it does, not what it should do: a part that drifted looks like "
                          "another class.")},
          {"too-wide", OHMWRIGHT_TEXT("It was closed at {before} and open at {after}: that fits several classes.")},
          {"ratings-known", OHMWRIGHT_TEXT("Not asked: the ratings of the part are known.")},
          {"not-seen",
           OHMWRIGHT_TEXT("Not told: this needs a closed and then an open reading as it warms, with the temperature of "
                          "each.")},
      }};
}

void judge_matching_class(const Scene& scene) {
  const bool seen = scene.opening.count() + scene.opening.far_apart() > 0 && scene.opening.backwards() == 0;
  if (scene.ratings != nullptr || !seen) {
    scene.findings.add(matching_class, Outcome::silent, scene.ratings != nullptr ? ratings_known : not_seen);
    return;
  }
  if (scene.opening.count() == 0) {
    Finding& finding = scene.findings.add(matching_class, Outcome::undecided, too_wide);
    tell(finding, "before", degrees(scene.opening.last_far_apart().before.kelvin));
    tell(finding, "after", degrees(scene.opening.last_far_apart().after.kelvin));
    return;
  }
  const Bracketed opening = scene.opening.bracketed();
  std::optional<Bracketed> closing;
  if (scene.closing.count() > 0 && scene.closing.backwards() == 0) closing = scene.closing.bracketed();
  const Matches nearest = nearest_classes(opening, closing);
  Finding& finding =
      scene.findings.add(matching_class, Outcome::undecided, closing ? nearest_by_both : nearest_by_opening);
  finding.measured = degrees(opening.judged.value());
  tell(finding, "opened", *finding.measured);
  if (closing) tell(finding, "closed", degrees(closing->judged.value()));
  tell(finding, "first", std::string(nearest[0].generic->name));
  tell(finding, "second", std::string(nearest[1].generic->name));
}

}  // namespace ohmwright::bimetal_thermostat
