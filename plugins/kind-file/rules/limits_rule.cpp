#include "rules/limits_rule.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include <ohmwright/component/insulation.hpp>
#include <ohmwright/component/shared_thresholds.hpp>
#include <ohmwright/verdict/decision.hpp>

#include "rules/limits_readings.hpp"

namespace ohmwright::kind_file {

namespace {

constexpr double infinity = std::numeric_limits<double>::infinity();

class LimitsRule {
 public:
  LimitsRule(const Scene& scene, std::uint16_t rule)
      : scene_(scene),
        rule_(rule),
        form_(scene.definition.rules[rule]),
        known_(scene.known[rule]),
        dimension_(scene.definition.descriptor.measurands[form_.measurand].dimension),
        difference_(difference_reading(scene, rule)),
        seen_(limits_readings(scene, rule, difference_ ? &*difference_ : nullptr)) {}

  void judge() {
    if (!known_.known && seen_.any_alone()) {
      silent(LimitsText::no_figure);
    } else if (seen_.usable.empty() && seen_.over_range == nullptr) {
      say_why_not();
    } else if (seen_.usable.empty()) {
      judge_over_range();
    } else {
      judge_values();
    }
  }

 private:
  AnyQuantity quantity(double value) const { return {dimension_, value}; }
  double lower() const { return known_.lower.value_or(-infinity); }
  double upper() const { return known_.upper.value_or(infinity); }

  /// Ohms with a least value alone, read with an ohmmeter: OL may be a wire that is off, and so many ohms as insulation
  /// has are proved by a tester's volts alone.
  bool lacks_a_tester(const PreparedReading& reading) const {
    if (!form_.limits()->is_least_ohms(dimension_)) return false;
    if (reading.shown == Shown::value && !(lower() >= insulation_from_ohms)) return false;
    const std::uint16_t volts = index_of(scene_.definition.descriptor.conditions, test_voltage_condition);
    return !by_insulation_tester(reading, {rule_, form_.measurand, volts, lower()});
  }

  bool any_lacks_a_tester() const {
    return std::any_of(seen_.usable.begin(), seen_.usable.end(),
                       [this](const MovedReading& moved) { return lacks_a_tester(*moved.reading); });
  }

  void silent(LimitsText text) { say(scene_, rule_, Outcome::silent, text); }

  void say_why_not() {
    if (seen_.in_circuit)
      say(scene_, rule_, Outcome::undecided, LimitsText::in_circuit);
    else if (seen_.out_of_reach)
      silent(LimitsText::out_of_reach);
    else if (seen_.no_condition)
      silent(LimitsText::no_condition);
    else if (seen_.wet)
      silent(LimitsText::wet);
    else
      silent(seen_.live ? LimitsText::live : LimitsText::not_read);
  }

  /// P(a good part reads more than the range): its limit there, with the doubt of the condition.
  double past_range(double limit) const {
    const double range = seen_.over_range->range_full_scale;
    if (!(range > 0.0)) return 1.0;
    const Estimate highest = moved_limit(*form_.limits(), known_, *seen_.over_range, limit);
    return probability_between(highest, scene_.evidence.sources(), range, infinity);
  }

  void tell_limits(double factor, std::optional<double> at, FieldValues& values) const {
    if (known_.lower) values.set(Field::lower, quantity(factor * *known_.lower));
    if (known_.upper) values.set(Field::upper, quantity(factor * *known_.upper));
    if (known_.nominal) values.set(Field::nominal, quantity(factor * *known_.nominal));
    if (at) {
      const std::uint16_t condition = form_.limits()->movement.condition();
      values.set(Field::at, AnyQuantity(scene_.definition.descriptor.conditions[condition].dimension, *at));
    }
  }

  void judge_over_range() {
    const PreparedReading& over = *seen_.over_range;
    FieldValues values;
    values.set(Field::range, quantity(over.range_full_scale));
    double factor = 1.0;
    std::optional<double> at;
    const Movement& movement = form_.limits()->movement;
    if (movement.moves()) {
      const ConditionValues conditions = conditions_of(movement, over).value_or(ConditionValues{});
      at = conditions[movement.condition()];
      factor = known_.movement.factor(conditions).value_or(1.0);
    }
    tell_limits(factor, at, values);
    const LimitsText range_text = over.range_full_scale > 0.0 ? LimitsText::range_too_low : LimitsText::range_unknown;
    if (known_.upper) {
      const double good_past = past_range(*known_.upper);
      const bool beyond = decide_observed(good_past, scene_.settings.confidence) == Outcome::out_of_limits;
      const bool beside = seen_.connection_unstated && dimension_ == Dimension::capacitance;  // a path adds farads
      const bool condemns = beyond && form_.may_condemn && !beside;
      Finding& finding = say(scene_, rule_, condemns ? Outcome::out_of_limits : Outcome::undecided,
                             beyond ? LimitsText::over_range : range_text, values);
      finding.holds_back = beyond && !form_.may_condemn;
      finding.limits.upper = quantity(factor * *known_.upper);
      finding.meaning = ProbabilityMeaning::observed_if_within;
      finding.probability = good_past;
      return;
    }
    // With a lower limit alone, more than the range is enough where the range reaches past it.
    const bool enough = over.range_full_scale > 0.0 && scene_.sure(1.0 - past_range(*known_.lower));
    const bool proves_it = enough && !lacks_a_tester(over);
    const LimitsText enough_text = proves_it ? LimitsText::over_range_within : LimitsText::needs_tester;
    Finding& finding = say(scene_, rule_, proves_it ? Outcome::within_limits : Outcome::undecided,
                           enough ? enough_text : range_text, values);
    finding.holds_back = enough && !proves_it;
    finding.limits.lower = quantity(factor * *known_.lower);
  }

  void tell_values(const Estimate& fused, FieldValues& values, Finding& finding) const {
    const bool one = seen_.usable.size() == 1;
    const MovedReading& first = seen_.usable.front();
    // Several readings are told at the reference; a formula has none, so there as the first of them was taken.
    const bool by_formula = form_.limits()->movement.form == Movement::Form::formula;
    const double factor = one || by_formula ? first.factor : 1.0;
    const double measured = one ? first.reading->value.value() : factor * fused.value();
    finding.measured = quantity(measured);
    finding.measured_uncertainty =
        one ? first.reading->value.standard_uncertainty() : factor * fused.standard_uncertainty();
    if (known_.lower) finding.limits.lower = quantity(factor * *known_.lower);
    if (known_.upper) finding.limits.upper = quantity(factor * *known_.upper);
    values.set(Field::measured, *finding.measured);
    values.set(Field::count, seen_.shown);
    if (known_.nominal) {
      const double nominal = factor * *known_.nominal;
      values.set(Field::off_percent, nominal > 0.0 ? 100.0 * std::abs(measured / nominal - 1.0) : 0.0);
    }
    const bool moves = form_.limits()->movement.moves();
    tell_limits(factor,
                moves ? (one || by_formula ? first.at : std::optional(known_.movement.reference)) : std::nullopt,
                values);
  }

  /// Whether the readings may differ though all is well: the limits stand still, as those of a short do, and they were
  /// taken at other temperatures.
  bool may_differ() const {
    if (form_.limits()->movement.moves() || seen_.usable.empty()) return false;
    const PreparedReading& first = *seen_.usable.front().reading;
    const std::size_t conditions = scene_.definition.descriptor.conditions.size();
    return std::any_of(seen_.usable.begin(), seen_.usable.end(), [&](const MovedReading& other) {
      for (std::uint16_t i = 0; i < conditions; ++i) {
        const Estimate* one = first.condition(i);
        const Estimate* another = other.reading->condition(i);
        if (one != nullptr && another != nullptr && one->value() != another->value()) return true;
      }
      return false;
    });
  }

  bool readings_disagree() const {
    if (seen_.jumping) return true;
    const std::span<const Estimate> all(seen_.at_reference.data(), seen_.at_reference.size());
    if (!may_differ() && std::max(worst_disagreement(all), seen_.rest_apart) > largest_disagreement) return true;
    if (seen_.over_range == nullptr || !known_.upper) return false;  // OL beside a value: a contact comes and goes
    return decide_observed(past_range(*known_.upper), scene_.settings.confidence) == Outcome::out_of_limits;
  }

  /// What is said of the outcome by the numbers, and whether the circumstances leave it undecided all the same.
  struct Said {
    LimitsText text = LimitsText::undecided;
    bool held_back = false;
  };

  Said said_of(Outcome outcome, const Estimate& fused) const {
    if (readings_disagree()) return {LimitsText::readings_disagree, true};
    if (outcome == Outcome::undecided) return {};
    if (outcome == Outcome::within_limits && any_lacks_a_tester()) return {LimitsText::needs_tester, true};
    if (outcome == Outcome::within_limits)
      return {seen_.connection_unstated ? LimitsText::within_connection_unstated : LimitsText::within, false};
    const bool low = fused.value() < lower();
    // Another path beside it takes ohms and henries away, and adds farads.
    const bool beside_can = low != (dimension_ == Dimension::capacitance);
    if (form_.may_condemn && seen_.connection_unstated && beside_can) return {LimitsText::connection_unstated, true};
    return {low ? LimitsText::low : LimitsText::high, !form_.may_condemn};
  }

  void judge_values() {
    const Estimate fused = fuse({seen_.at_reference.data(), seen_.at_reference.size()});
    const Conformance p = conformance_of(fused, scene_.evidence.sources(), lower(), upper());
    const Outcome by_numbers = decide(p, scene_.settings.confidence);
    const Said said = said_of(by_numbers, fused);
    FieldValues values;
    Finding finding;
    tell_values(fused, values, finding);
    finding.rule = rule_;
    finding.outcome = said.held_back ? Outcome::undecided : by_numbers;
    finding.text = form_.texts[said.text].index;
    const bool advises_only = said.held_back && (said.text == LimitsText::low || said.text == LimitsText::high);
    finding.holds_back = said.text == LimitsText::needs_tester || seen_.jumping || advises_only;
    finding.meaning = ProbabilityMeaning::within_limits;
    finding.probability = p.within;
    values.tell(form_.texts[said.text], finding.arguments);
    if (!said.held_back) {  // what cannot be trusted must not enter the joint probability
      finding.judged = fused;
      finding.judged_lower = lower();
      finding.judged_upper = upper();
    }
    scene_.findings.findings().push_back(std::move(finding));
  }

  const Scene& scene_;
  std::uint16_t rule_;
  const RuleForm& form_;
  const KnownRule& known_;
  Dimension dimension_;
  std::optional<PreparedReading> difference_;  ///< `seen_` points into it
  LimitsReadings seen_;
};

}  // namespace

void judge_limits(const Scene& scene, std::uint16_t rule) { LimitsRule(scene, rule).judge(); }

}  // namespace ohmwright::kind_file
