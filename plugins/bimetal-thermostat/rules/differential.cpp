#include "rules/differential.hpp"

#include "rules/trip_judgement.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

enum Text : TextIndex {
  compared,
  type_1,
  scattering,
  not_stated,
  judged_as_closing,
  not_both_seen,
  not_in_order,
  comes_and_goes,
};

std::optional<Text> why_silent(const Scene& scene) {
  if (scene.ratings == nullptr || !scene.ratings->differential) return not_stated;
  if (scene.ratings->closing_from_differential) return judged_as_closing;
  if (scene.opening.backwards() + scene.closing.backwards() > 0) return not_in_order;
  if (scene.comes_and_goes()) return comes_and_goes;
  if (scene.opening.count() == 0 || scene.closing.count() == 0) return not_both_seen;
  return std::nullopt;
}

}  // namespace

RuleDescriptor describe_differential() {
  return {
      "differential",
      OHMWRIGHT_TEXT("Differential"),
      false,
      can_pass | can_condemn | can_be_undecided,
      "IEC 60730-1 (differential: upper less lower operating value); GUM 5.2 (an error of both drops out)",
      {
          {"compared",
           OHMWRIGHT_TEXT("It closes about {difference} below its opening; a good one {lower} to {upper} below. A "
                          "thermometer that is off by the same amount both times does not matter here.")},
          {"type-1",
           OHMWRIGHT_TEXT("It closes about {difference} below its opening, outside {lower} to {upper}; of a type 1 "
                          "part nothing is promised there.")},
          {"scattering",
           OHMWRIGHT_TEXT("Its trip points scatter, so how far it closes below its opening ({difference} or so, a good "
                          "one {lower} to {upper}) is not one figure.")},
          {"not-stated", OHMWRIGHT_TEXT("Not judged: the ratings state no differential.")},
          {"judged-as-closing",
           OHMWRIGHT_TEXT("Judged as the closing temperature: the ratings state nothing else of it.")},
          {"not-both-seen", OHMWRIGHT_TEXT("Not judged: it was not seen both to open and to close.")},
          {"not-in-order", OHMWRIGHT_TEXT("Not judged: the readings are not in the order of time.")},
          {"comes-and-goes", OHMWRIGHT_TEXT("Not judged: the contact changed with no change of temperature.")},
      }};
}

void judge_differential(const Scene& scene) {
  if (const std::optional<Text> silence = why_silent(scene)) {
    scene.findings.add(differential, Outcome::silent, *silence);
    return;
  }
  const Differential& stated = *scene.ratings->differential;
  const Bracketed difference = difference_of(scene.opening.bracketed(), scene.closing.bracketed());
  TripJudgement judgement = judge_bracketed(scene, difference, stated.lowest(), stated.highest());
  Text text = difference.scatters ? scattering : compared;
  if (!scene.ratings->promises_trip_points() && judgement.outcome == Outcome::out_of_limits) {
    judgement.outcome = Outcome::undecided;
    text = type_1;
  }
  Finding& finding = scene.findings.add(differential, judgement.outcome, text);
  fill_finding(finding, judgement, stated.lowest(), stated.highest(), kelvins);
  tell(finding, "difference", *finding.measured);
  tell(finding, "lower", *finding.limits.lower);
  tell(finding, "upper", *finding.limits.upper);
}

}  // namespace ohmwright::bimetal_thermostat
