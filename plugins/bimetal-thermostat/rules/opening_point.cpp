#include "rules/opening_point.hpp"

#include "rules/trip_rule.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum OwnText : TextIndex { link_not_read = first_text_of_its_own };

/// A part is not within its limits while the link in its housing may be open.
void wait_for_link(const Scene& scene) {
  Finding& finding = scene.findings.findings().back();
  if (finding.outcome != Outcome::within_limits || !link_is_unread(scene)) return;
  finding.outcome = Outcome::undecided;
  finding.text = link_not_read;
  finding.judged.reset();
}

}  // namespace

RuleDescriptor describe_opening_point() {  // texts in the order of TripText, then of OwnText
  return {
      "opening-point",
      OHMWRIGHT_TEXT("Opening temperature"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "GUM 4.3.7 (a value between two limits); JCGM 106:2012 (conformance probability); IEC 60730-1 (type 1 and 2)",
      {
          {"opened-once",
           OHMWRIGHT_TEXT("It opened between {before} and {after} as it warmed, at about {trip}. A good one opens "
                          "between {lower} and {upper}.")},
          {"opened-with-lag",
           OHMWRIGHT_TEXT("It opened between {before} and {after} as it warmed; with the lag of {lag} taken off, at "
                          "about {trip}. A good one opens between {lower} and {upper}.")},
          {"opened-often",
           OHMWRIGHT_TEXT("It opened {count} times, and one temperature fits them all: between {from} and {to}, about "
                          "{trip} (they average {mean} and scatter by {deviation}). A good one opens between {lower} "
                          "and {upper}.")},
          {"opened-scattering",
           OHMWRIGHT_TEXT(
               "It opened {count} times, and no one temperature fits them all: it opens anywhere from {from} "
               "to {to} (average {mean}, scatter {deviation}). Either the contact sticks, or the "
               "thermometer lagged more one time than the other. A good one opens between {lower} and "
               "{upper}.")},
          {"opened-somewhere",
           OHMWRIGHT_TEXT("It opened somewhere between {from} and {to}. A good one opens between {lower} and {upper}: "
                          "the two readings are too far apart to tell.")},
          {"opened-as-type-1",
           OHMWRIGHT_TEXT("It opened at about {trip}, outside {lower} to {upper}. It is a type 1 part, for which no "
                          "trip value is promised: that it moved is a fact, not a breach. If the defrost is wrong for "
                          "it, replace it for that.")},
          {"opened-backwards",
           OHMWRIGHT_TEXT(
               "It opened while the thermometer went from {before} down to {after}. The readings are not in "
               "the order of time, part and thermometer were far apart, or it is a switch that closes as it warms: the "
               "reverse of a defrost thermostat.")},
          {"opened-far-apart",
           OHMWRIGHT_TEXT(
               "It was closed at {before} and open at {after}. That is too far apart to say where it opened, "
               "or which way its temperature went between; or its thermometer lagged by more than 5 K: go slower.")},
          {"opened-by-itself",
           OHMWRIGHT_TEXT("Not judged: it changed between {before} and {after} with nothing to warm it, which is no "
                          "opening temperature.")},
          {"no-ratings", OHMWRIGHT_TEXT("Not judged: it is not known at which temperature this part should open.")},
          {"not-seen",
           OHMWRIGHT_TEXT("Not judged: it was not seen to open. That takes a closed and then an open reading while it "
                          "warms.")},
          {"no-temperature", OHMWRIGHT_TEXT("Not judged: the temperature of the part was not given.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: it was read in circuit only, where other paths lie beside it.")},
          {"link-not-read",
           OHMWRIGHT_TEXT("It opened at about {trip}, within {lower} to {upper}. The thermal link in its housing has "
                          "not been found closed across its own leads yet.")},
      }};
}

void judge_opening_point(const Scene& scene) {
  if (scene.ratings == nullptr) {
    stay_silent_on_trip(scene, opening_point);
  } else if (!refuse_passages(scene, opening_point, scene.opening)) {
    if (scene.opening.count() > 0) {
      judge_trip_point(scene, opening_point, scene.opening, scene.ratings->opening);
      wait_for_link(scene);
    } else {
      stay_silent_on_trip(scene, opening_point);
    }
  }
}

}  // namespace ohmwright::bimetal_thermostat
