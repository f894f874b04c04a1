#include "part/comparison.hpp"

#include <algorithm>
#include <optional>

#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>

#include "rules/names.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

/// Collects the statements of one comparison.
class Comparison {
 public:
  Comparison(const ThermostatRatings& original, const ThermostatRatings& candidate, std::optional<double> load_ampere)
      : original_(original), candidate_(candidate), load_ampere_(load_ampere) {}

  std::vector<EquivalenceFinding> compare() {
    if (original_.unknown || candidate_.unknown) {
      compare_spans();
    } else {
      compare_opening();
      compare_closing();
    }
    compare_current();
    compare_voltage();
    compare_link();
    compare_leads();
    compare_action();
    return std::move(findings_);
  }

 private:
  EquivalenceFinding& say(Outcome outcome, TextEntry text) { return add_statement(findings_, outcome, text); }

  /// Where nobody knows what one of the two is, figures within its span show nothing; figures past it still do.
  void compare_spans() {
    if (never_meet(original_.opening, candidate_.opening)) compare_opening();
    if (never_meet(original_.closing, candidate_.closing)) compare_closing();
    if (original_.unknown)
      leave_open(
          {"original-unknown",
           OHMWRIGHT_TEXT("What the original is rated for is not known, nor whether a thermal link is in it: nothing "
                          "shows that this one does what it did. Find its stamp or the appliance's sheet, and compare "
                          "with that.")});
    if (candidate_.unknown)
      leave_open({"candidate-unknown",
                  OHMWRIGHT_TEXT("What this one is rated for is not known: take one whose stamp can be read.")});
  }

  void leave_open(TextEntry text) { say(Outcome::undecided, text).is_of_any_part = true; }

  static bool never_meet(const TripPoint& old, const TripPoint& fresh) {
    return fresh.nominal - fresh.tolerance > old.highest() || fresh.nominal + fresh.tolerance < old.lowest();
  }

  void compare_opening() {
    const TripPoint& old = original_.opening;
    const TripPoint& fresh = candidate_.opening;
    const Outcome outcome = outcome_of(old, fresh);
    TextEntry text{"opens-partly-alike",
                   OHMWRIGHT_TEXT("Opens at {candidate}, the original at {original}: {share_percent} % of such parts "
                                  "open within {lower} to {upper}.")};
    if (outcome == Outcome::within_limits)
      text = {"opens-alike", OHMWRIGHT_TEXT("Opens at {candidate}, within the {lower} to {upper} of the original.")};
    if (outcome == Outcome::out_of_limits && fresh.nominal < old.nominal)
      text = {
          "opens-colder",
          OHMWRIGHT_TEXT("Opens at {candidate}, below the {lower} to {upper} of the original: the defrost would end "
                         "too early, and ice would stay.")};
    else if (outcome == Outcome::out_of_limits)
      text = {
          "opens-warmer",
          OHMWRIGHT_TEXT("Opens at {candidate}, above the {lower} to {upper} of the original: the defrost would end "
                         "too late, and warm the food.")};
    tell_trip_points(say(outcome, text), old, fresh);
  }

  void compare_closing() {
    const TripPoint& old = original_.closing;
    const TripPoint& fresh = candidate_.closing;
    const Outcome outcome = outcome_of(old, fresh);
    TextEntry text{"closes-partly-alike",
                   OHMWRIGHT_TEXT("Closes at {candidate}, the original at {original}: {share_percent} % of such parts "
                                  "close within {lower} to {upper}.")};
    if (outcome == Outcome::within_limits)
      text = {"closes-alike", OHMWRIGHT_TEXT("Closes at {candidate}, within the {lower} to {upper} of the original.")};
    if (outcome == Outcome::out_of_limits)
      text = {"closes-elsewhere",
              OHMWRIGHT_TEXT("Closes at {candidate}, outside the {lower} to {upper} of the original: it may not be "
                             "closed when the defrost starts.")};
    tell_trip_points(say(outcome, text), old, fresh);
  }

  /// New parts against what the original is allowed in service.
  static Outcome outcome_of(const TripPoint& old, const TripPoint& fresh) {
    if (fresh.nominal - fresh.tolerance >= old.lowest() && fresh.nominal + fresh.tolerance <= old.highest())
      return Outcome::within_limits;
    const bool nominal_inside = fresh.nominal >= old.lowest() && fresh.nominal <= old.highest();
    return nominal_inside ? Outcome::undecided : Outcome::out_of_limits;
  }

  static void tell_trip_points(EquivalenceFinding& finding, const TripPoint& old, const TripPoint& fresh) {
    TripPoint as_new = fresh;
    as_new.allowed = fresh.tolerance;
    const double share = as_new.share_above(old.lowest()) - as_new.share_above(old.highest());
    tell(finding, "candidate", fresh.nominal);
    tell(finding, "original", old.nominal);
    tell(finding, "lower", old.lowest());
    tell(finding, "upper", old.highest());
    finding.arguments.push_back({"share_percent", 100.0 * share});
  }

  void compare_current() {
    if (!original_.rated_current && !load_ampere_) return;
    const double needed = load_ampere_ ? *load_ampere_ : original_.rated_current->value();
    const TextEntry unknown{"current-unknown",
                            OHMWRIGHT_TEXT("It has to carry {needed}; how much it may carry is not known.")};
    const TextEntry enough{"current-enough", OHMWRIGHT_TEXT("It may carry {candidate}; {needed} is needed.")};
    const TextEntry too_small{"current-too-small",
                              OHMWRIGHT_TEXT("It may carry {candidate}, and {needed} is needed: its contact would burn "
                                             "or weld.")};
    const bool known = candidate_.rated_current.has_value();
    const bool carries = known && candidate_.rated_current->value() >= needed;
    EquivalenceFinding& finding = say(!known    ? Outcome::undecided
                                      : carries ? Outcome::within_limits
                                                : Outcome::out_of_limits,
                                      !known    ? unknown
                                      : carries ? enough
                                                : too_small);
    tell(finding, "needed", AnyQuantity(Dimension::current, needed));
    if (known) tell(finding, "candidate", *candidate_.rated_current);
  }

  void compare_voltage() {
    if (!original_.rated_voltage) return;
    const bool known = candidate_.rated_voltage.has_value();
    const bool stands = known && *candidate_.rated_voltage >= *original_.rated_voltage;
    const TextEntry unknown{"voltage-unknown", OHMWRIGHT_TEXT("For which voltage it is made is not known; the original "
                                                              "is for {original}.")};
    const TextEntry enough{"voltage-enough",
                           OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}.")};
    const TextEntry too_small{"voltage-too-small",
                              OHMWRIGHT_TEXT("It is made for {candidate} only, the original for {original}.")};
    EquivalenceFinding& finding = say(!known   ? Outcome::undecided
                                      : stands ? Outcome::within_limits
                                               : Outcome::out_of_limits,
                                      !known   ? unknown
                                      : stands ? enough
                                               : too_small);
    tell(finding, "original", *original_.rated_voltage);
    if (known) tell(finding, "candidate", *candidate_.rated_voltage);
  }

  void compare_link() {
    if (!original_.link && (!candidate_.link || original_.unknown)) return;
    if (!candidate_.link && candidate_.unknown) return;
    if (!candidate_.link) {
      say(Outcome::out_of_limits,
          {"link-missing", OHMWRIGHT_TEXT("The original has a thermal link, this one has none: never leave it out.")});
      return;
    }
    if (!original_.link) {
      say(Outcome::undecided,
          {"link-added", OHMWRIGHT_TEXT("It has a thermal link that the original does not have: the "
                                        "wiring has to take it in.")});
      return;
    }
    const double lower_by = (original_.link->functioning - candidate_.link->functioning).value();
    TextEntry text{"link-alike", OHMWRIGHT_TEXT("Its thermal link functions at {candidate}, the original's at "
                                                "{original}.")};
    Outcome outcome = Outcome::within_limits;
    if (lower_by < 0.0) {
      text = {"link-too-high", OHMWRIGHT_TEXT("Its thermal link functions at {candidate}, above the {original} of the "
                                              "original: it would protect too late.")};
      outcome = Outcome::out_of_limits;
    } else if (lower_by > link_band_kelvin) {  // within its own band it does what the old one did
      text = {"link-low", OHMWRIGHT_TEXT("Its thermal link functions at {candidate}, well below the {original} of the "
                                         "original: it may open in normal use.")};
      outcome = Outcome::undecided;
    }
    EquivalenceFinding& finding = say(outcome, text);
    tell(finding, "candidate", candidate_.link->functioning);
    tell(finding, "original", original_.link->functioning);
  }

  void compare_leads() {
    if (!original_.leads || !candidate_.leads) return;
    const bool same = original_.leads == candidate_.leads;
    const TextEntry alike{"leads-alike", OHMWRIGHT_TEXT("It has {candidate} leads, as the original.")};
    const TextEntry differ{"leads-differ", OHMWRIGHT_TEXT("It has {candidate} leads, the original {original}: it "
                                                          "connects in another way.")};
    EquivalenceFinding& finding = say(same ? Outcome::within_limits : Outcome::undecided, same ? alike : differ);
    finding.arguments.push_back({"candidate", static_cast<double>(*candidate_.leads)});
    finding.arguments.push_back({"original", static_cast<double>(*original_.leads)});
  }

  void compare_action() {
    if (original_.action != Action::type_2 || candidate_.action == Action::unstated) return;
    const bool promises = candidate_.promises_trip_points();
    const TextEntry alike{"type-alike", OHMWRIGHT_TEXT("Both are of type 2: tolerance and drift are promised.")};
    const TextEntry lesser{"type-1-for-type-2",
                           OHMWRIGHT_TEXT("It is of type 1, the original of type 2: its trip points are not "
                                          "promised.")};
    say(promises ? Outcome::within_limits : Outcome::out_of_limits, promises ? alike : lesser);
  }

  const ThermostatRatings& original_;
  const ThermostatRatings& candidate_;
  std::optional<double> load_ampere_;
  std::vector<EquivalenceFinding> findings_;
};

}  // namespace

std::vector<EquivalenceFinding> compare_ratings(const ThermostatRatings* original, const ThermostatRatings* candidate,
                                                const ComparisonContext& context) {
  if (original == nullptr || candidate == nullptr) {
    EquivalenceFinding finding;
    finding.text = {"ratings-unknown",
                    OHMWRIGHT_TEXT("The ratings of one of the two are not known: nothing can be compared.")};
    return {finding};
  }
  return Comparison(*original, *candidate, context.situation.condition(load_current)).compare();
}

}  // namespace ohmwright::bimetal_thermostat
