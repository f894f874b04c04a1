#include "part/comparison.hpp"

#include <cmath>

#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>

#include "rules/names.hpp"

namespace ohmwright::heater {

namespace {

/// Longer or shorter than this, it does not fit the clips of the old one (common practice, no source).
constexpr double length_slack = 0.02;

/// Collects the statements of one comparison.
class Comparison {
 public:
  Comparison(const HeaterRatings& original, const HeaterRatings& candidate, std::optional<double> line)
      : original_(original), candidate_(candidate), line_(line) {}

  std::vector<EquivalenceFinding> compare() {
    compare_voltage();
    compare_power();
    compare_cold_ohms();
    compare_elements();
    compare_insulation();
    compare_construction();
    compare_length();
    return std::move(findings_);
  }

 private:
  EquivalenceFinding& say(Outcome outcome, TextEntry text) { return add_statement(findings_, outcome, text); }
  bool both_know_power() const { return original_.knows_power() && candidate_.knows_power(); }

  void compare_voltage() {
    if (!original_.voltage || !candidate_.voltage) return;
    const double apart = std::abs(candidate_.voltage->value() / original_.voltage->value() - 1.0);
    EquivalenceFinding& finding =
        apart > 0.01 && apart <= 0.1
            ? say(Outcome::undecided,
                  {"voltage-near",
                   OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}: near enough "
                                  "only if its power at the line is.")})
        : apart <= 0.01
            ? say(Outcome::within_limits,
                  {"voltage-alike", OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}.")})
            : say(Outcome::out_of_limits,
                  {"voltage-differs", OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}: it is "
                                                     "another heater, whatever its ohms are.")});
    tell(finding, "candidate", *candidate_.voltage);
    tell(finding, "original", *original_.voltage);
  }

  /// What a candidate makes where the original worked, against what a good original makes there.
  void compare_power() {
    if (!both_know_power()) {
      say(Outcome::undecided, {"power-unknown", OHMWRIGHT_TEXT("The rated volts and watts of both are not known, so "
                                                               "their heat cannot be compared.")});
      return;
    }
    const double line = line_.value_or(original_.voltage->value());
    const double original = at_line(original_, line);
    const double candidate = at_line(candidate_, line);
    const double lower = original * (1.0 - original_.tolerance.below);
    const double upper = original * (1.0 + original_.tolerance.above);
    const double least = candidate * (1.0 - candidate_.tolerance.below);
    const double most = candidate * (1.0 + candidate_.tolerance.above);
    constexpr double rounding = 1e-9;
    const bool all_inside = least >= lower * (1.0 - rounding) && most <= upper * (1.0 + rounding);
    const bool nominal_inside = candidate >= lower && candidate <= upper;
    EquivalenceFinding& finding =
        all_inside ? say(Outcome::within_limits,
                         {"power-alike", OHMWRIGHT_TEXT("At {line} it makes {candidate}, the original {original}.")})
        : nominal_inside
            ? say(Outcome::undecided,
                  {"power-partly-alike",
                   OHMWRIGHT_TEXT("At {line} it makes {candidate}, the original {original} ({lower} to {upper}): not "
                                  "every such part does.")})
        : candidate > upper
            ? say(Outcome::out_of_limits,
                  {"power-too-high",
                   OHMWRIGHT_TEXT("At {line} it makes {candidate}, the original {original}: its limit "
                                  "and its surroundings are not made for that heat.")})
            : say(Outcome::out_of_limits,
                  {"power-too-low",
                   OHMWRIGHT_TEXT("At {line} it makes {candidate}, the original {original}: too little heat. A "
                                  "defrost would end before the ice has gone, or run out of time.")});
    tell(finding, "line", AnyQuantity(Dimension::voltage, line));
    tell(finding, "candidate", AnyQuantity(Dimension::power, candidate));
    tell(finding, "original", AnyQuantity(Dimension::power, original));
    tell(finding, "lower", AnyQuantity(Dimension::power, lower));
    tell(finding, "upper", AnyQuantity(Dimension::power, upper));
  }

  static double at_line(const HeaterRatings& ratings, double line) {
    const double share = line / ratings.voltage->value();
    return ratings.power->value() * share * share;
  }

  void compare_cold_ohms() {
    if (both_know_power()) return;
    const RatedResistance original = original_.cold();
    const RatedResistance candidate = candidate_.cold();
    const bool inside = candidate.nominal >= original.lower && candidate.nominal <= original.upper;
    EquivalenceFinding& finding =
        inside ? say(Outcome::undecided,
                     {"ohms-alike", OHMWRIGHT_TEXT("Cold it has {candidate}, the original {original}: alike, but equal "
                                                   "ohms are no equal part.")})
               : say(Outcome::out_of_limits,
                     {"ohms-differ", OHMWRIGHT_TEXT("Cold it has {candidate}, the original {original}.")});
    tell(finding, "candidate", AnyQuantity(Dimension::resistance, candidate.nominal));
    tell(finding, "original", AnyQuantity(Dimension::resistance, original.nominal));
  }

  void compare_elements() {
    if (original_.elements == candidate_.elements) return;
    EquivalenceFinding& finding =
        say(Outcome::undecided,
            {"elements-differ",
             OHMWRIGHT_TEXT(
                 "Elements in parallel: {candidate}, of the original {original}; the heat is spread in another way.")});
    finding.arguments.push_back({"candidate", static_cast<double>(candidate_.elements)});
    finding.arguments.push_back({"original", static_cast<double>(original_.elements)});
  }

  void compare_insulation() {
    if (candidate_.insulation.value() >= original_.insulation.value()) return;
    EquivalenceFinding& finding = say(
        Outcome::out_of_limits,
        {"insulated-less", OHMWRIGHT_TEXT("To the frame it needs to hold {candidate} only, the original {original}: it "
                                          "is made for an appliance with another protection against shock.")});
    tell(finding, "candidate", candidate_.insulation);
    tell(finding, "original", original_.insulation);
  }

  void compare_construction() {
    if (original_.construction == Construction::unstated || candidate_.construction == Construction::unstated) {
      say(Outcome::undecided,
          {"construction-unknown",
           OHMWRIGHT_TEXT("How both are built is not stated: look that they are of one build. A radiant surface gets "
                          "hot enough to ignite some refrigerants.")});
      return;
    }
    if (original_.construction == candidate_.construction)
      say(Outcome::within_limits, {"construction-alike", OHMWRIGHT_TEXT("Both are built in the same way.")});
    else
      say(Outcome::out_of_limits,
          {"construction-differs",
           OHMWRIGHT_TEXT("It is built in another way than the original: its surface gets hotter or colder, and where "
                          "the refrigerant is flammable that is a hazard.")});
  }

  void compare_length() {
    if (!original_.length) {
      say(Outcome::silent,
          {"length-not-stated",
           OHMWRIGHT_TEXT("How long they are and how they fit: the ratings of the original do not say it. Lay "
                          "the new one beside the old before you buy.")});
      return;
    }
    if (!candidate_.length) {
      tell(
          say(Outcome::undecided,
              {"length-unknown", OHMWRIGHT_TEXT("How long it is, is not stated; the original is {original} long, and a "
                                                "shorter or longer one does not sit where the ice is.")}),
          "original", *original_.length);
      return;
    }
    const bool same = std::abs(candidate_.length->value() / original_.length->value() - 1.0) <= length_slack;
    EquivalenceFinding& finding =
        same ? say(Outcome::within_limits,
                   {"length-alike", OHMWRIGHT_TEXT("It is {candidate} long, the original {original}.")})
             : say(Outcome::out_of_limits,
                   {"length-differs", OHMWRIGHT_TEXT("It is {candidate} long, the original {original}: it does not sit "
                                                     "where the ice is.")});
    tell(finding, "candidate", *candidate_.length);
    tell(finding, "original", *original_.length);
  }

  const HeaterRatings& original_;
  const HeaterRatings& candidate_;
  std::optional<double> line_;
  std::vector<EquivalenceFinding> findings_;
};

}  // namespace

std::vector<EquivalenceFinding> compare_heaters(const HeaterRatings* original, const HeaterRatings* candidate,
                                                const ComparisonContext& context) {
  if (original == nullptr || candidate == nullptr) {
    EquivalenceFinding finding;
    finding.text = {"ratings-unknown",
                    OHMWRIGHT_TEXT("The ratings of one of the two are not known: nothing can be compared.")};
    return {finding};
  }
  return Comparison(*original, *candidate, context.situation.condition(line_voltage)).compare();
}

}  // namespace ohmwright::heater
