#include "part/comparison.hpp"

#include <cmath>

#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>

namespace ohmwright::fan_motor {

namespace {

/// Collects the statements of one comparison.
class Comparison {
 public:
  Comparison(const FanMotorRatings& original, const FanMotorRatings& candidate)
      : original_(original), candidate_(candidate) {}

  std::vector<EquivalenceFinding> compare() {
    compare_construction();
    compare_figure(original_.voltage, candidate_.voltage, 0.05,
                   {{"voltage-alike", OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}.")},
                    {"voltage-differs", OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}.")},
                    {"voltage-unknown", OHMWRIGHT_TEXT("For which voltage it is made is not known; the original is for "
                                                       "{original}.")}});
    if (!original_.is_electronic())
      compare_figure(
          original_.frequency, candidate_.frequency, 0.01,
          {{"frequency-alike", OHMWRIGHT_TEXT("Both are made for {original}.")},
           {"frequency-differs",
            OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}: it turns at another speed "
                           "and may get too hot.")},
           {"frequency-unknown", OHMWRIGHT_TEXT("For which frequency it is made is not known; the original is "
                                                "for {original}.")}});
    compare_speed();
    compare_rotation();
    compare_figure(
        original_.size, candidate_.size, 0.02,
        {{"size-alike", OHMWRIGHT_TEXT("It is {candidate} wide, the original {original}.")},
         {"size-differs", OHMWRIGHT_TEXT("It is {candidate} wide, the original {original}: it does not fit.")},
         {"size-unknown", OHMWRIGHT_TEXT("How wide it is is not known; the original is {original}.")}});
    compare_count(
        original_.pulses_per_turn, candidate_.pulses_per_turn,
        {{"tachometer-alike", OHMWRIGHT_TEXT("Its tachometer gives as many pulses a turn.")},
         {"tachometer-differs",
          OHMWRIGHT_TEXT("Its tachometer gives another number of pulses a turn: the control takes its "
                         "speed for another.")},
         {"tachometer-unknown", OHMWRIGHT_TEXT("The original has a tachometer; whether this one has is not stated.")}});
    compare_count(
        original_.wires, candidate_.wires,
        {{"wires-alike", OHMWRIGHT_TEXT("It has as many wires.")},
         {"wires-differ", OHMWRIGHT_TEXT("It has another number of wires: what tells it to run, or its speed to the "
                                         "control, is missing or has no place.")},
         {"wires-unknown", OHMWRIGHT_TEXT("How many wires it has is not stated.")}});
    return std::move(findings_);
  }

 private:
  struct Texts {
    TextEntry alike;
    TextEntry differs;
    TextEntry unknown;
  };

  EquivalenceFinding& say(Outcome outcome, TextEntry text) { return add_statement(findings_, outcome, text); }

  template <class Quantity>
  void compare_figure(const std::optional<Quantity>& original, const std::optional<Quantity>& candidate, double share,
                      const Texts& texts) {
    if (!original) return;
    if (!candidate) {
      say(Outcome::undecided, texts.unknown).arguments.push_back({"original", AnyQuantity(*original)});
      return;
    }
    const bool same = std::abs(candidate->value() / original->value() - 1.0) <= share;
    EquivalenceFinding& finding =
        say(same ? Outcome::within_limits : Outcome::out_of_limits, same ? texts.alike : texts.differs);
    finding.arguments.push_back({"original", AnyQuantity(*original)});
    finding.arguments.push_back({"candidate", AnyQuantity(*candidate)});
  }

  void compare_construction() {
    if (original_.construction == candidate_.construction) {
      say(Outcome::within_limits, {"construction-alike", OHMWRIGHT_TEXT("Both are built in the same way.")});
      return;
    }
    const bool electronic = original_.is_electronic() != candidate_.is_electronic();
    if (electronic)
      say(Outcome::out_of_limits,
          {"construction-differs",
           OHMWRIGHT_TEXT("One is electronically commutated and the other is not: the control cannot drive it.")});
    else
      say(Outcome::undecided, {"construction-other",
                               OHMWRIGHT_TEXT("It is built in another way than the original: look at its leads and its "
                                              "capacitor.")});
  }

  void compare_speed() {
    const auto original = original_.speed_limits();
    const auto candidate = candidate_.speed_limits();
    if (!original || !candidate) {
      say(Outcome::undecided, {"speed-unknown", OHMWRIGHT_TEXT("How fast both turn is not known.")});
      return;
    }
    const double middle = 0.5 * (candidate->lower + candidate->upper);
    const bool inside = middle >= original->lower && middle <= original->upper;
    EquivalenceFinding& finding =
        inside
            ? say(Outcome::within_limits,
                  {"speed-alike", OHMWRIGHT_TEXT("It turns at {candidate} or so, within the {lower} to {upper} of the "
                                                 "original.")})
            : say(Outcome::out_of_limits,
                  {"speed-differs", OHMWRIGHT_TEXT("It turns at {candidate} or so, outside the {lower} to {upper} of "
                                                   "the original: it moves another amount of air.")});
    finding.arguments.push_back({"candidate", AnyQuantity(Dimension::rotational_speed, middle)});
    finding.arguments.push_back({"lower", AnyQuantity(Dimension::rotational_speed, original->lower)});
    finding.arguments.push_back({"upper", AnyQuantity(Dimension::rotational_speed, original->upper)});
  }

  void compare_rotation() {
    if (original_.rotation == Rotation::unstated || candidate_.rotation == Rotation::unstated) {
      say(Outcome::undecided,
          {"rotation-unknown", OHMWRIGHT_TEXT("Which way both turn is not stated: the wrong way round "
                                              "moves little air.")});
      return;
    }
    const bool same = original_.rotation == candidate_.rotation;
    say(same ? Outcome::within_limits : Outcome::out_of_limits,
        same ? TextEntry{"rotation-alike", OHMWRIGHT_TEXT("Both turn the same way.")}
             : TextEntry{"rotation-differs", OHMWRIGHT_TEXT("It turns the other way round: it moves little air.")});
  }

  /// A number that the original states and a replacement has to have, too.
  void compare_count(const std::optional<int>& original, const std::optional<int>& candidate, const Texts& texts) {
    if (!original) return;
    if (!candidate)
      say(Outcome::undecided, texts.unknown);
    else if (*original == *candidate)
      say(Outcome::within_limits, texts.alike);
    else
      say(Outcome::out_of_limits, texts.differs);
  }

  const FanMotorRatings& original_;
  const FanMotorRatings& candidate_;
  std::vector<EquivalenceFinding> findings_;
};

}  // namespace

std::vector<EquivalenceFinding> compare_fan_motors(const FanMotorRatings* original, const FanMotorRatings* candidate,
                                                   const ComparisonContext& /*context*/) {
  if (original == nullptr || candidate == nullptr) {
    EquivalenceFinding finding;
    finding.text = {"ratings-unknown",
                    OHMWRIGHT_TEXT("The ratings of one of the two are not known: nothing can be compared.")};
    return {finding};
  }
  return Comparison(*original, *candidate).compare();
}

}  // namespace ohmwright::fan_motor
