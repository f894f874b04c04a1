#include "rules/closing_point.hpp"

#include "rules/trip_rule.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum OwnText : TextIndex {
  closed_below_opening = first_text_of_its_own,
  somewhere_below_opening,
  not_below_as_type_1,
  opening_not_seen,
};

void judge_below_opening(const Scene& scene) {
  if (scene.opening.count() == 0 || scene.opening.backwards() + scene.opening.by_itself() > 0) {
    scene.findings.add(closing_point, Outcome::silent, opening_not_seen);
    return;
  }
  const Differential& stated = *scene.ratings->differential;
  TripJudgement judgement = judge_bracketed(scene, difference_of(scene.opening.bracketed(), scene.closing.bracketed()),
                                            stated.lowest(), stated.highest());
  TextIndex text = closed_below_opening;
  if (judgement.coarse && judgement.outcome == Outcome::undecided) text = somewhere_below_opening;
  if (!scene.ratings->promises_trip_points() && judgement.outcome != Outcome::within_limits) {
    if (judgement.outcome == Outcome::out_of_limits) text = not_below_as_type_1;
    judgement.outcome = Outcome::undecided;
    judgement.may_be_joined = false;
  }
  Finding& finding = scene.findings.add(closing_point, judgement.outcome, text);
  fill_finding(finding, judgement, stated.lowest(), stated.highest(), kelvins);
  const Bracketed closing = scene.closing.bracketed();
  tell(finding, "from", degrees(closing.from));
  tell(finding, "to", degrees(closing.to));
  tell(finding, "difference", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
}

}  // namespace

RuleDescriptor describe_closing_point() {  // texts in the order of TripText, then of OwnText
  return {
      "closing-point",
      OHMWRIGHT_TEXT("Closing temperature"),
      true,
      can_pass | can_condemn | can_be_undecided,
      "GUM 4.3.7 (a value between two limits); JCGM 106:2012 (conformance probability); IEC 60730-1 (type 1 and 2)",
      {
          {"closed-once",
           OHMWRIGHT_TEXT("It closed between {before} and {after} as it cooled, at about {trip}. A good one closes "
                          "between {lower} and {upper}.")},
          {"closed-with-lag",
           OHMWRIGHT_TEXT("It closed between {before} and {after} as it cooled; with the lag of {lag} taken off, at "
                          "about {trip}. A good one closes between {lower} and {upper}.")},
          {"closed-often",
           OHMWRIGHT_TEXT("It closed {count} times, and one temperature fits them all: between {from} and {to}, about "
                          "{trip} (they average {mean} and scatter by {deviation}). A good one closes between {lower} "
                          "and {upper}.")},
          {"closed-scattering",
           OHMWRIGHT_TEXT("It closed {count} times, and no one temperature fits them all: it closes anywhere from "
                          "{from} to {to} (average {mean}, scatter {deviation}). Either the contact sticks, or the "
                          "thermometer lagged more one time than the other. A good one closes between {lower} and "
                          "{upper}.")},
          {"closed-somewhere",
           OHMWRIGHT_TEXT("It closed somewhere between {from} and {to}. A good one closes between {lower} and {upper}: "
                          "the two readings are too far apart to tell.")},
          {"closed-as-type-1",
           OHMWRIGHT_TEXT("It closed at about {trip}, outside {lower} to {upper}. It is a type 1 part, for which no "
                          "trip value is promised: that it moved is a fact, not a breach. If the defrost is wrong for "
                          "it, replace it for that.")},
          {"closed-backwards",
           OHMWRIGHT_TEXT(
               "It closed while the thermometer went from {before} up to {after}. The readings are not in "
               "the order of time, part and thermometer were far apart, or it is a switch that closes as it warms: the "
               "reverse of a defrost thermostat.")},
          {"closed-far-apart",
           OHMWRIGHT_TEXT(
               "It was open at {before} and closed at {after}. That is too far apart to say where it closed, "
               "or which way its temperature went between; or its thermometer lagged by more than 5 K: go slower.")},
          {"closed-by-itself",
           OHMWRIGHT_TEXT("Not judged: it changed between {before} and {after} with nothing to cool it, which is no "
                          "closing temperature.")},
          {"no-ratings", OHMWRIGHT_TEXT("Not judged: it is not known at which temperature this part should close.")},
          {"not-seen",
           OHMWRIGHT_TEXT("Not judged: it was not seen to close. That takes an open and then a closed reading while it "
                          "cools.")},
          {"no-temperature", OHMWRIGHT_TEXT("Not judged: the temperature of the part was not given.")},
          {"only-in-circuit",
           OHMWRIGHT_TEXT("Not judged: it was read in circuit only, where other paths lie beside it.")},
          {"closed-below-opening",
           OHMWRIGHT_TEXT("It closed between {from} and {to} as it cooled, about {difference} below its opening. A "
                          "good one closes {lower} to {upper} below.")},
          {"somewhere-below-opening",
           OHMWRIGHT_TEXT("It closed somewhere between {from} and {to}. A good one closes {lower} to {upper} below its "
                          "opening: the readings are too far apart to tell.")},
          {"below-as-type-1",
           OHMWRIGHT_TEXT("It closed about {difference} below its opening, outside {lower} to {upper}. It is a type 1 "
                          "part, for which nothing of that is promised: a fact, not a breach.")},
          {"opening-not-seen",
           OHMWRIGHT_TEXT("Not judged: its ratings say how far below its opening it closes, and it was not seen to "
                          "open.")},
      }};
}

void judge_closing_point(const Scene& scene) {
  if (scene.ratings == nullptr) {
    stay_silent_on_trip(scene, closing_point);
  } else if (!refuse_passages(scene, closing_point, scene.closing)) {
    if (scene.closing.count() == 0)
      stay_silent_on_trip(scene, closing_point);
    else if (scene.ratings->closing_from_differential)
      judge_below_opening(scene);
    else
      judge_trip_point(scene, closing_point, scene.closing, scene.ratings->closing);
  }
}

}  // namespace ohmwright::bimetal_thermostat
