#include "part/comparison.hpp"

#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>

#include "rules/names.hpp"

namespace ohmwright::wiring {

namespace {

/// Shorter than this, it does not reach (common practice, no source).
constexpr double length_slack = 0.02;

/// Collects the statements of one comparison.
class Comparison {
 public:
  Comparison(const WiringRatings& original, const WiringRatings& candidate, std::optional<double> load)
      : original_(original), candidate_(candidate), load_(load) {}

  std::vector<EquivalenceFinding> compare() {
    if (original_.form != candidate_.form)
      say(Outcome::out_of_limits,
          {"form-differs", OHMWRIGHT_TEXT("One is a lead, a connector or a splice, the other is another of these.")});
    if (original_.conductor && candidate_.conductor) compare_conductor();
    compare_length();
    compare_contacts();
    compare_current();
    compare_heat();
    compare_insulation();
    return std::move(findings_);
  }

 private:
  EquivalenceFinding& say(Outcome outcome, TextEntry text) { return add_statement(findings_, outcome, text); }
  template <class Value>
  static void tell(EquivalenceFinding& finding, Value candidate, Value original) {
    finding.arguments.push_back({"candidate", candidate});
    finding.arguments.push_back({"original", original});
  }

  void compare_conductor() {
    const Conductor& original = *original_.conductor;
    const Conductor& candidate = *candidate_.conductor;
    EquivalenceFinding& area =
        candidate.square_millimetres >= original.square_millimetres
            ? say(Outcome::within_limits,
                  {"area-enough", OHMWRIGHT_TEXT("It has {candidate} mm² of copper, the original {original} mm².")})
            : say(Outcome::out_of_limits, {"area-too-small", OHMWRIGHT_TEXT("It has {candidate} mm² of copper, the "
                                                                            "original {original} mm²: it gets too hot "
                                                                            "before the fuse goes.")});
    tell(area, candidate.square_millimetres, original.square_millimetres);
    if (candidate.stranding != Stranding::flexible && original.stranding == Stranding::flexible)
      say(Outcome::undecided,
          {"stiffer", OHMWRIGHT_TEXT("It is stiffer than the original: only where nothing moves it, not at a door, a "
                                     "drawer or a motor.")});
    if (candidate.metal == Metal::plain_copper && original.metal == Metal::tinned_copper)
      say(Outcome::undecided, {"not-tinned", OHMWRIGHT_TEXT("Its copper is not tinned, the original's is: in the cold "
                                                            "and wet it turns green sooner.")});
  }

  void compare_length() {
    if (!original_.length || !candidate_.length) return;
    const bool reaches = *candidate_.length >= (1.0 - length_slack) * *original_.length;
    EquivalenceFinding& finding =
        reaches ? say(Outcome::within_limits,
                      {"long-enough", OHMWRIGHT_TEXT("It is {candidate} long, the original {original}.")})
                : say(Outcome::out_of_limits, {"too-short", OHMWRIGHT_TEXT("It is {candidate} long, the original "
                                                                           "{original}: it does not reach.")});
    tell(finding, AnyQuantity(*candidate_.length), AnyQuantity(*original_.length));
  }

  void compare_contacts() {
    const bool as_good = candidate_.contact_resistance <= original_.contact_resistance;
    EquivalenceFinding& finding =
        as_good
            ? say(Outcome::within_limits, {"contacts-as-good", OHMWRIGHT_TEXT("Its contacts have {candidate} at "
                                                                              "most, the original's {original}.")})
            : say(Outcome::undecided,
                  {"contacts-worse", OHMWRIGHT_TEXT("Its contacts may have {candidate}, the original's {original} at "
                                                    "most: read the drop under load once it is in.")});
    tell(finding, AnyQuantity(candidate_.contact_resistance), AnyQuantity(original_.contact_resistance));
  }

  /// Against what flows in the place, where that is known; else against what the original is made for.
  void compare_current() {
    const bool known = candidate_.rated_current && (load_ || original_.rated_current);
    if (!known) {
      say(Outcome::undecided, {"current-unknown", OHMWRIGHT_TEXT("The amperes that one of the two is made for are not "
                                                                 "stated.")});
      return;
    }
    const AnyQuantity needed = load_ ? AnyQuantity(Dimension::current, *load_) : AnyQuantity(*original_.rated_current);
    EquivalenceFinding& finding =
        candidate_.rated_current->value() >= needed.value_in_si()
            ? say(Outcome::within_limits,
                  {"current-enough", OHMWRIGHT_TEXT("It is made for {candidate}; {original} are needed.")})
            : say(Outcome::out_of_limits, {"current-too-small", OHMWRIGHT_TEXT("It is made for {candidate}, and "
                                                                               "{original} are needed: it burns.")});
    tell(finding, AnyQuantity(*candidate_.rated_current), needed);
  }

  void compare_heat() {
    if (!original_.temperature_rating || !candidate_.temperature_rating) {
      say(Outcome::undecided, {"heat-unknown", OHMWRIGHT_TEXT("The heat that their insulation stands is not stated for "
                                                              "both: look at what is printed on it.")});
      return;
    }
    const bool stands_it = candidate_.temperature_rating->kelvin() >= original_.temperature_rating->kelvin();
    EquivalenceFinding& finding =
        stands_it ? say(Outcome::within_limits,
                        {"heat-alike", OHMWRIGHT_TEXT("Its insulation stands {candidate}, the original's {original}.")})
                  : say(Outcome::out_of_limits,
                        {"heat-too-low", OHMWRIGHT_TEXT("Its insulation stands {candidate}, the original's {original}: "
                                                        "it softens where the original holds.")});
    tell(finding, AnyQuantity(*candidate_.temperature_rating), AnyQuantity(*original_.temperature_rating));
  }

  void compare_insulation() {
    if (candidate_.insulation >= original_.insulation) return;
    EquivalenceFinding& finding = say(
        Outcome::out_of_limits,
        {"insulated-less", OHMWRIGHT_TEXT("It needs to hold {candidate} to the frame only, the original {original}: "
                                          "it is made for another protection against shock.")});
    tell(finding, AnyQuantity(candidate_.insulation), AnyQuantity(original_.insulation));
  }

  const WiringRatings& original_;
  const WiringRatings& candidate_;
  std::optional<double> load_;
  std::vector<EquivalenceFinding> findings_;
};

}  // namespace

std::vector<EquivalenceFinding> compare_wiring(const WiringRatings* original, const WiringRatings* candidate,
                                               const ComparisonContext& context) {
  if (original == nullptr || candidate == nullptr) {
    EquivalenceFinding finding;
    finding.text = {"ratings-unknown",
                    OHMWRIGHT_TEXT("The ratings of one of the two are not known: nothing can be compared.")};
    return {finding};
  }
  return Comparison(*original, *candidate, context.situation.condition(load_current)).compare();
}

}  // namespace ohmwright::wiring
