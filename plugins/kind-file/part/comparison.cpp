#include "part/comparison.hpp"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <string>
#include <utility>

#include "part/comparison_texts.hpp"
#include "part/contact_comparison.hpp"
#include "part/expectation.hpp"
#include "part/figure_comparison.hpp"
#include "part/sameness.hpp"
#include "part/used_ratings.hpp"

namespace ohmwright::kind_file {

namespace {

namespace texts = comparison_texts;

/// The two-sided limits of good parts in one situation, and what lies in their middle [SI].
struct Sides {
  std::optional<double> lower;
  std::optional<double> upper;
  double middle = 0.0;
};

/// Collects the statements of one comparison.
class PartComparison {
 public:
  PartComparison(const Definition& definition, const PartOfFile& original, const PartOfFile& candidate,
                 const ComparisonContext& context)
      : definition_(definition), original_(original), candidate_(candidate), context_(context) {}

  std::vector<EquivalenceFinding> compare() {
    compare_figures(definition_, original_, candidate_, findings_);
    for (std::size_t i = 0; i < definition_.rules.size(); ++i) compare_rule(i);
    if (findings_.empty()) say(Outcome::undecided, texts::nothing_stated, {});
    say(Outcome::silent, texts::not_in_ratings, {});
    return std::move(findings_);
  }

 private:
  void say(Outcome outcome, const TextEntry& text, std::initializer_list<FindingArgument> arguments) {
    add_finding(findings_, outcome, text, arguments);
  }

  void compare_rule(std::size_t i) {
    const UsedRatings used = ratings_used_by(definition_.rules[i], definition_.ratings.size());
    if (std::none_of(used.begin(), used.end(), [](bool one) { return one; })) return;  // of every such part the same
    const KnownRule& original = original_.rules()[i];
    const KnownRule& candidate = candidate_.rules()[i];
    if (!original.known && !candidate.known) return;
    if (!original.known || !candidate.known) {
      const bool matters = definition_.descriptor.rules[i].essential || original.known;
      say(matters ? Outcome::undecided : Outcome::silent, texts::limits_unknown, {what_of(i)});
      return;
    }
    const RuleForm& form = definition_.rules[i];
    if (form.limits() != nullptr)
      compare_limits(i);
    else if (form.contact() != nullptr)
      compare_contact(i, *form.contact());
    else
      compare_least(i, dimension_of_rule(i), *original.lower, *candidate.lower);
  }

  FindingArgument what_of(std::size_t rule) const {
    return {"what", std::string(definition_.descriptor.rules[rule].title)};
  }
  Dimension dimension_of_rule(std::size_t rule) const {
    return definition_.descriptor.measurands[definition_.rules[rule].measurand].dimension;
  }

  /// Where the limits of a rule are held against each other: where its reference is, or along the axis that is drawn of
  /// it. None where a circumstance is missing.
  std::vector<Situation> situations_of(std::size_t rule) const {
    const Movement& movement = definition_.rules[rule].limits()->movement;
    const KnownMovement& known = original_.rules()[rule].movement;
    const auto is_given = [this](std::uint16_t one) { return context_.situation.condition(one).has_value(); };
    if (std::all_of(movement.conditions.begin(), movement.conditions.end(), is_given)) return {context_.situation};
    std::vector<Situation> situations;
    if (movement.form != Movement::Form::formula) {
      add_situation(movement.condition(), known.reference, situations);
      return situations;
    }
    constexpr int points = 5;
    if (const ChartAxis* axis = axis_of(rule, movement)) {
      const auto [from, to] = span_along(*axis);
      const std::uint16_t along = index_of(definition_.descriptor.conditions, axis->condition);
      for (int i = 0; i < points; ++i) add_situation(along, std::lerp(from, to, i / (points - 1.0)), situations);
    }
    return situations;
  }
  /// The span that was asked for lies along the first chart's condition: it says nothing of another one.
  std::pair<double, double> span_along(const ChartAxis& axis) const {
    if (axis.condition != definition_.descriptor.charts.front().condition)
      return {axis.from.value_in_si(), axis.to.value_in_si()};
    const AnyQuantity from = context_.from.value_or(axis.from);
    const AnyQuantity to = context_.to.value_or(axis.to);
    assert(from.dimension() == axis.from.dimension() && to.dimension() == axis.to.dimension());
    return {from.value_in_si(), to.value_in_si()};
  }
  void add_situation(std::uint16_t condition, double value, std::vector<Situation>& situations) const {
    Situation situation = context_.situation;
    if (situation.condition(condition) || situation.conditions.size() == most_conditions) return;
    situation.conditions.push_back({condition, value});
    situations.push_back(situation);
  }
  /// The axis of a chart of that rule's measurand along the one condition that it needs and that is not given.
  const ChartAxis* axis_of(std::size_t rule, const Movement& movement) const {
    const Descriptor& descriptor = definition_.descriptor;
    for (const ChartAxis& axis : descriptor.charts) {
      const std::uint16_t along = index_of(descriptor.conditions, axis.condition);
      const auto is_there = [&](std::uint16_t one) { return one == along || context_.situation.condition(one); };
      if (axis.measurand == descriptor.measurands[definition_.rules[rule].measurand].id &&
          std::all_of(movement.conditions.begin(), movement.conditions.end(), is_there))
        return &axis;
    }
    return nullptr;
  }

  std::optional<Sides> sides_of(const PartOfFile& part, std::size_t rule, const Situation& situation) const {
    const std::optional<Expectation> expected =
        expected_by_limits(definition_.rules[rule], part.rules()[rule], dimension_of_rule(rule), situation);
    if (!expected) return std::nullopt;
    Sides sides{{}, {}, expected->nominal.value_in_si()};
    if (expected->limits.lower) sides.lower = expected->limits.lower->value_in_si();
    if (expected->limits.upper) sides.upper = expected->limits.upper->value_in_si();
    return sides;
  }

  static Outcome outcome_of(const Sides& original, const Sides& candidate) {
    const double slack = rounding_share * (std::abs(*original.lower) + std::abs(*original.upper));
    if (*candidate.lower >= *original.lower - slack && *candidate.upper <= *original.upper + slack)
      return Outcome::within_limits;
    const bool middle_inside = candidate.middle >= *original.lower && candidate.middle <= *original.upper;
    return middle_inside ? Outcome::undecided : Outcome::out_of_limits;
  }

  /// By how much the one limit that the two have is beyond what is called the same [SI]; negative: it is the same.
  static double beyond(const Sides& original, const Sides& candidate, Dimension dimension) {
    if (original.lower) return *original.lower - *candidate.lower - slack_of(dimension, *original.lower).below;
    return *candidate.upper - *original.upper - slack_of(dimension, *original.upper).above;
  }

  /// What is told is the place where they are least alike.
  void compare_limits(std::size_t rule) {
    std::optional<std::array<Sides, 2>> worst;
    Outcome outcome = Outcome::within_limits;
    double worst_beyond = 0.0;
    for (const Situation& situation : situations_of(rule)) {
      const std::optional<Sides> original = sides_of(original_, rule, situation);
      const std::optional<Sides> candidate = sides_of(candidate_, rule, situation);
      if (!original || !candidate) continue;
      if (!original->lower || !original->upper) {
        const double by = beyond(*original, *candidate, dimension_of_rule(rule));
        if (worst && by <= worst_beyond) continue;
        worst = {*original, *candidate};
        worst_beyond = by;
        continue;
      }
      const Outcome here = outcome_of(*original, *candidate);
      const bool is_worse = here == Outcome::out_of_limits
                                ? outcome != here
                                : here == Outcome::undecided && outcome == Outcome::within_limits;
      if (worst && !is_worse) continue;
      worst = {*original, *candidate};
      outcome = here;
    }
    if (!worst) {
      say(Outcome::undecided, texts::limits_of_conditions, {what_of(rule)});
      return;
    }
    const auto& [original, candidate] = *worst;
    if (!original.lower || !original.upper) {
      compare_one_side(rule, original, candidate);
      return;
    }
    const Dimension dimension = dimension_of_rule(rule);
    say(outcome,
        outcome == Outcome::within_limits ? texts::limits_alike
        : outcome == Outcome::undecided   ? texts::limits_partly_alike
                                          : texts::limits_differ,
        {what_of(rule),
         {"lower", AnyQuantity(dimension, *candidate.lower)},
         {"upper", AnyQuantity(dimension, *candidate.upper)},
         {"original_lower", AnyQuantity(dimension, *original.lower)},
         {"original_upper", AnyQuantity(dimension, *original.upper)}});
  }

  void compare_one_side(std::size_t rule, const Sides& original, const Sides& candidate) {
    if (original.lower) {
      compare_least(rule, dimension_of_rule(rule), *original.lower, *candidate.lower);
      return;
    }
    const bool same = beyond(original, candidate, dimension_of_rule(rule)) <= 0.0;
    say(same ? Outcome::within_limits : Outcome::out_of_limits, same ? texts::most_alike : texts::most_differs,
        {what_of(rule),
         {"candidate", AnyQuantity(dimension_of_rule(rule), *candidate.upper)},
         {"original", AnyQuantity(dimension_of_rule(rule), *original.upper)}});
  }

  void compare_least(std::size_t rule, Dimension dimension, double original, double candidate) {
    const bool same = candidate >= original - slack_of(dimension, original).below;
    say(same ? Outcome::within_limits : Outcome::out_of_limits, same ? texts::least_alike : texts::least_differs,
        {what_of(rule),
         {"candidate", AnyQuantity(dimension, candidate)},
         {"original", AnyQuantity(dimension, original)}});
  }

  void compare_contact(std::size_t rule, const ContactForm& form) {
    const KnownRule& original = original_.rules()[rule];
    const KnownRule& candidate = candidate_.rules()[rule];
    if (!form.depends()) return;
    if (original.lower_end.has_value() != candidate.lower_end.has_value() ||
        original.upper_end.has_value() != candidate.upper_end.has_value()) {
      say(Outcome::undecided, texts::limits_unknown, {what_of(rule)});
      return;
    }
    const Dimension dimension = definition_.descriptor.conditions[form.condition].dimension;
    const EndsCompared compared = compare_ends(definition_, rule, original_, candidate_);
    const Outcome outcome = compared == EndsCompared::alike ? Outcome::within_limits : Outcome::out_of_limits;
    if (!original.lower_end || !original.upper_end) {
      say(outcome,
          compared == EndsCompared::alike   ? texts::end_alike
          : compared == EndsCompared::wider ? texts::end_differs
                                            : texts::end_elsewhere,
          {what_of(rule),
           {"candidate", AnyQuantity(dimension, candidate.lower_end ? *candidate.lower_end : *candidate.upper_end)},
           {"original", AnyQuantity(dimension, original.lower_end ? *original.lower_end : *original.upper_end)}});
      return;
    }
    say(outcome,
        compared == EndsCompared::alike   ? texts::switching_alike
        : compared == EndsCompared::wider ? texts::switching_differs
                                          : texts::switching_elsewhere,
        {what_of(rule),
         {"lower", AnyQuantity(dimension, *candidate.lower_end)},
         {"upper", AnyQuantity(dimension, *candidate.upper_end)},
         {"original_lower", AnyQuantity(dimension, *original.lower_end)},
         {"original_upper", AnyQuantity(dimension, *original.upper_end)}});
  }

  const Definition& definition_;
  const PartOfFile& original_;
  const PartOfFile& candidate_;
  const ComparisonContext& context_;
  std::vector<EquivalenceFinding> findings_;
};

}  // namespace

std::vector<EquivalenceFinding> compare_parts(const Definition& definition, const PartOfFile& original,
                                              const PartOfFile& candidate, const ComparisonContext& context) {
  return PartComparison(definition, original, candidate, context).compare();
}

}  // namespace ohmwright::kind_file
