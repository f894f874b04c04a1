#include "part/comparison.hpp"

#include <cmath>

#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>

#include "rules/names.hpp"

namespace ohmwright::defrost_control {

namespace {

/// Collects the statements of one comparison.
class Comparison {
 public:
  Comparison(const ControlRatings& original, const ControlRatings& candidate, std::optional<double> load_ampere)
      : original_(original), candidate_(candidate), load_ampere_(load_ampere) {}

  std::vector<EquivalenceFinding> compare() {
    compare_type();
    compare_voltage();
    compare_frequency();
    compare_current();
    compare_counts();
    compare_span(original_.interval, candidate_.interval, interval_texts);
    compare_span(original_.defrost_time, candidate_.defrost_time, defrost_texts);
    compare_sensor();
    return std::move(findings_);
  }

 private:
  struct SpanTexts {
    TextEntry alike;
    TextEntry partly;
    TextEntry differs;
    TextEntry at_most;  ///< where one of both has no least
    TextEntry unknown;
  };

  static constexpr SpanTexts interval_texts{
      {"interval-alike", OHMWRIGHT_TEXT("Its defrosts come every {least} to {most}, as the original's do.")},
      {"interval-partly-alike",
       OHMWRIGHT_TEXT("Its defrosts come every {least} to {most}, the original's every {lower} to "
                      "{upper}: near, but not the same.")},
      {"interval-differs", OHMWRIGHT_TEXT("Its defrosts come every {least} to {most}, the original's every {lower} to "
                                          "{upper}: it is made for another appliance.")},
      {"interval-at-most", OHMWRIGHT_TEXT("It lets {most} pass between defrosts at most, the original {upper}.")},
      {"interval-unknown", OHMWRIGHT_TEXT("How often its defrosts come is not known of both, so it is not compared.")}};
  static constexpr SpanTexts defrost_texts{
      {"defrost-time-alike", OHMWRIGHT_TEXT("It defrosts for {least} to {most}, as the original does.")},
      {"defrost-time-partly-alike", OHMWRIGHT_TEXT("It defrosts for {least} to {most}, the original for {lower} to "
                                                   "{upper}: near, but not the same.")},
      {"defrost-time-differs",
       OHMWRIGHT_TEXT("It defrosts for {least} to {most}, the original for {lower} to {upper}: too "
                      "short leaves ice, too long warms the food.")},
      {"defrost-time-at-most", OHMWRIGHT_TEXT("It defrosts for {most} at most, the original for {upper}.")},
      {"defrost-time-unknown", OHMWRIGHT_TEXT("How long they defrost is not known of both, so it is not compared.")}};

  EquivalenceFinding& say(Outcome outcome, TextEntry text) { return add_statement(findings_, outcome, text); }

  void compare_type() {
    if (original_.type != candidate_.type) {
      say(Outcome::out_of_limits,
          {"type-differs", OHMWRIGHT_TEXT("It is built otherwise: a timer, a board that goes by time and a board that "
                                          "reads a sensor are wired in different ways.")});
      return;
    }
    say(Outcome::within_limits, {"type-alike", OHMWRIGHT_TEXT("It is built as the original.")});
    if (original_.switching != candidate_.switching)
      say(Outcome::undecided,
          {"switching-differs",
           OHMWRIGHT_TEXT("One switches by a contact, the other by a solid-state switch, which leaks "
                          "and drops a volt or so: the appliance has to allow for it.")});
  }

  void compare_voltage() {
    if (!original_.voltage || !candidate_.voltage) {
      say(Outcome::undecided,
          {"voltage-unknown", OHMWRIGHT_TEXT("For which volts they are made is not known of both.")});
      return;
    }
    constexpr double widest = 0.1;
    const bool same = std::abs(candidate_.voltage->value() / original_.voltage->value() - 1.0) <= widest;
    EquivalenceFinding& finding =
        same ? say(Outcome::within_limits,
                   {"voltage-alike", OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}.")})
             : say(Outcome::out_of_limits,
                   {"voltage-differs",
                    OHMWRIGHT_TEXT("It is made for {candidate}, the original for {original}: it would "
                                   "burn, or not work.")});
    tell(finding, "candidate", *candidate_.voltage);
    tell(finding, "original", *original_.voltage);
  }

  /// Only a motor goes by the line.
  void compare_frequency() {
    if (!original_.is_timer() || !candidate_.is_timer() || !original_.frequency || !candidate_.frequency) return;
    constexpr double widest = 0.02;
    const double slower = original_.frequency->value() / candidate_.frequency->value();
    const bool same = std::abs(slower - 1.0) <= widest;
    EquivalenceFinding& finding =
        same ? say(Outcome::within_limits,
                   {"frequency-alike", OHMWRIGHT_TEXT("Its motor is made for {candidate}, as the "
                                                      "original's.")})
             : say(Outcome::out_of_limits,
                   {"frequency-differs",
                    OHMWRIGHT_TEXT("Its motor is made for {candidate}, the original's for {original}: "
                                   "all its times would be {percent} % of what they should be.")});
    tell(finding, "candidate", *candidate_.frequency);
    tell(finding, "original", *original_.frequency);
    finding.arguments.push_back({"percent", 100.0 / slower});
  }

  void compare_current() {
    if (!original_.contact_current && !load_ampere_) return;
    const double needed = load_ampere_ ? *load_ampere_ : original_.contact_current->value();
    const bool known = candidate_.contact_current.has_value();
    const bool carries = known && candidate_.contact_current->value() >= needed;
    EquivalenceFinding& finding =
        !known
            ? say(Outcome::undecided,
                  {"current-unknown", OHMWRIGHT_TEXT("Its contacts have to carry {needed}; how much they may carry is "
                                                     "not known.")})
        : carries
            ? say(Outcome::within_limits, {"current-enough", OHMWRIGHT_TEXT("Its contacts may carry {candidate}; "
                                                                            "{needed} is needed.")})
            : say(Outcome::out_of_limits,
                  {"current-too-small", OHMWRIGHT_TEXT("Its contacts may carry {candidate}, and {needed} is needed: "
                                                       "they would burn or weld.")});
    tell(finding, "needed", AnyQuantity(Dimension::current, needed));
    if (known) tell(finding, "candidate", *candidate_.contact_current);
  }

  void compare_counts() {
    if (!original_.interval.is_stated() || !candidate_.interval.is_stated()) return;
    if (original_.interval_counts != candidate_.interval_counts)
      say(Outcome::out_of_limits,
          {"counts-differ",
           OHMWRIGHT_TEXT("One counts the hours that the compressor ran, the other hours of the clock: "
                          "defrosts would come far too often or too seldom.")});
  }

  void compare_span(const Between<Duration>& old, const Between<Duration>& fresh, const SpanTexts& texts) {
    if (!old.most || !fresh.most) {
      say(Outcome::undecided, texts.unknown);
      return;
    }
    const Duration none = Duration::from_value(0.0);
    const Duration lower = old.least.value_or(none);
    const Duration least = fresh.least.value_or(none);
    const bool inside = least >= lower && *fresh.most <= *old.most;
    const bool apart = *fresh.most < lower || least > *old.most;
    const bool spans = old.least && fresh.least;
    EquivalenceFinding& finding = inside  ? say(Outcome::within_limits, spans ? texts.alike : texts.at_most)
                                  : apart ? say(Outcome::out_of_limits, spans ? texts.differs : texts.at_most)
                                          : say(Outcome::undecided, spans ? texts.partly : texts.at_most);
    tell(finding, "least", least);
    tell(finding, "most", *fresh.most);
    tell(finding, "lower", lower);
    tell(finding, "upper", *old.most);
  }

  void compare_sensor() {
    const auto& old = original_.sensor;
    const auto& fresh = candidate_.sensor;
    if (!old || !fresh || !old->knows_pull_up() || !fresh->knows_pull_up()) {
      if (original_.type == ControlType::thermistor_board && candidate_.type == ControlType::thermistor_board)
        say(Outcome::undecided,
            {"sensor-input-unknown", OHMWRIGHT_TEXT("For which sensor they are made is not known of "
                                                    "both: a board reads only its own.")});
      return;
    }
    constexpr double widest = 0.02;
    const bool same = std::abs(fresh->pull_up.value() / old->pull_up.value() - 1.0) <= widest;
    EquivalenceFinding& finding =
        same ? say(Outcome::within_limits,
                   {"sensor-input-alike", OHMWRIGHT_TEXT("Its sensor input has {candidate}, as the "
                                                         "original's: the sensor has to be the "
                                                         "same.")})
             : say(Outcome::out_of_limits,
                   {"sensor-input-differs",
                    OHMWRIGHT_TEXT("Its sensor input has {candidate}, the original's {original}: "
                                   "it would misread this sensor.")});
    tell(finding, "candidate", fresh->pull_up);
    tell(finding, "original", old->pull_up);
  }

  const ControlRatings& original_;
  const ControlRatings& candidate_;
  std::optional<double> load_ampere_;
  std::vector<EquivalenceFinding> findings_;
};

}  // namespace

std::vector<EquivalenceFinding> compare_controls(const ControlRatings* original, const ControlRatings* candidate,
                                                 const ComparisonContext& context) {
  if (original == nullptr || candidate == nullptr) {
    EquivalenceFinding finding;
    finding.text = {"ratings-unknown",
                    OHMWRIGHT_TEXT("The ratings of one of the two are not known: nothing can be compared.")};
    return {finding};
  }
  return Comparison(*original, *candidate, context.situation.condition(load_current)).compare();
}

}  // namespace ohmwright::defrost_control
