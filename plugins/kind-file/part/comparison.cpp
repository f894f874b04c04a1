#include "part/comparison.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <string>

#include "part/comparison_texts.hpp"
#include "part/expectation.hpp"
#include "part/used_ratings.hpp"

namespace ohmwright::kind_file {

namespace {

namespace texts = comparison_texts;

// Common practice, no source.
constexpr double share_that_is_the_same = 0.05;
constexpr double kelvin_that_are_the_same = 2.0;
constexpr double rounding = 1e-9;

/// How far apart two figures of a part may be and be called the same [SI].
double slack_of(Dimension dimension, double original) {
  return dimension == Dimension::temperature ? kelvin_that_are_the_same : share_that_is_the_same * std::abs(original);
}

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
    for (const RuleForm& form : definition_.rules) {
      const UsedRatings used = ratings_used_by(form, definition_.ratings.size());
      used_by_.push_back(used);
    }
    for (std::size_t i = 0; i < definition_.ratings.size(); ++i) compare_figure(i);
    for (std::size_t i = 0; i < definition_.rules.size(); ++i) compare_rule(i);
    if (findings_.empty()) say(Outcome::undecided, texts::nothing_stated, {});
    say(Outcome::silent, texts::not_in_ratings, {});
    return std::move(findings_);
  }

 private:
  void say(Outcome outcome, const TextEntry& text, std::initializer_list<FindingArgument> arguments) {
    EquivalenceFinding& finding = findings_.emplace_back();
    finding.outcome = outcome;
    finding.text = text;
    finding.arguments.assign(arguments.begin(), arguments.end());
  }
  bool is_used(std::size_t rating) const {
    return std::any_of(used_by_.begin(), used_by_.end(), [rating](const UsedRatings& used) { return used[rating]; });
  }

  /// Of a figure that rules are made of, the rules tell what it does; but for the volts, which ohms and watts alike do
  /// not tell.
  void compare_figure(std::size_t i) {
    const RatingRow& row = definition_.ratings[i];
    const bool used = is_used(i);
    if (row.dimension == Dimension::ratio || (used && row.dimension != Dimension::voltage)) return;
    const std::optional<double>& original = original_.ratings()[i];
    const std::optional<double>& candidate = candidate_.ratings()[i];
    if (!original && !candidate) return;
    const FindingArgument what{"what", std::string(row.title)};
    if (!original) {
      say(Outcome::silent, texts::figure_not_asked, {what, {"candidate", AnyQuantity(row.dimension, *candidate)}});
      return;
    }
    const FindingArgument of_original{"original", AnyQuantity(row.dimension, *original)};
    if (!candidate) {
      say(Outcome::undecided, texts::figure_unknown, {what, of_original});
      return;
    }
    const FindingArgument of_candidate{"candidate", AnyQuantity(row.dimension, *candidate)};
    const bool same = std::abs(*candidate - *original) <= slack_of(row.dimension, *original) * (1.0 + rounding);
    if (same)
      say(Outcome::within_limits, texts::figure_alike, {what, of_candidate, of_original});
    else
      say(used ? Outcome::out_of_limits : Outcome::undecided, used ? texts::figure_differs : texts::figure_other,
          {what, of_candidate, of_original});
  }

  void compare_rule(std::size_t i) {
    const UsedRatings& used = used_by_[i];
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
      const double from = context_.from.value_or(axis->from).value_in_si();
      const double to = context_.to.value_or(axis->to).value_in_si();
      const std::uint16_t along = index_of(definition_.descriptor.conditions, axis->condition);
      for (int i = 0; i < points; ++i) add_situation(along, std::lerp(from, to, i / (points - 1.0)), situations);
    }
    return situations;
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
    const double slack = rounding * (std::abs(*original.lower) + std::abs(*original.upper));
    if (*candidate.lower >= *original.lower - slack && *candidate.upper <= *original.upper + slack)
      return Outcome::within_limits;
    const bool middle_inside = candidate.middle >= *original.lower && candidate.middle <= *original.upper;
    return middle_inside ? Outcome::undecided : Outcome::out_of_limits;
  }

  /// What is told is the place where they are least alike.
  void compare_limits(std::size_t rule) {
    std::optional<std::array<Sides, 2>> worst;
    Outcome outcome = Outcome::within_limits;
    for (const Situation& situation : situations_of(rule)) {
      const std::optional<Sides> original = sides_of(original_, rule, situation);
      const std::optional<Sides> candidate = sides_of(candidate_, rule, situation);
      if (!original || !candidate) continue;
      if (!original->lower || !original->upper) {
        compare_one_side(rule, *original, *candidate);
        return;
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
    const bool same = *candidate.upper <= *original.upper + slack_of(dimension_of_rule(rule), *original.upper);
    say(same ? Outcome::within_limits : Outcome::out_of_limits, same ? texts::most_alike : texts::most_differs,
        {what_of(rule),
         {"candidate", AnyQuantity(dimension_of_rule(rule), *candidate.upper)},
         {"original", AnyQuantity(dimension_of_rule(rule), *original.upper)}});
  }

  void compare_least(std::size_t rule, Dimension dimension, double original, double candidate) {
    const bool same = candidate >= original - slack_of(dimension, original);
    say(same ? Outcome::within_limits : Outcome::out_of_limits, same ? texts::least_alike : texts::least_differs,
        {what_of(rule),
         {"candidate", AnyQuantity(dimension, candidate)},
         {"original", AnyQuantity(dimension, original)}});
  }

  /// A candidate that is in doubt nowhere but where an original is, too, does what an original does.
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
    const bool low_alike =
        !original.lower_end || *candidate.lower_end >= *original.lower_end - slack_of(dimension, *original.lower_end);
    const bool high_alike =
        !original.upper_end || *candidate.upper_end <= *original.upper_end + slack_of(dimension, *original.upper_end);
    const bool same = low_alike && high_alike;
    const Outcome outcome = same ? Outcome::within_limits : Outcome::out_of_limits;
    if (!original.lower_end || !original.upper_end) {
      say(outcome, same ? texts::end_alike : texts::end_differs,
          {what_of(rule),
           {"candidate", AnyQuantity(dimension, candidate.lower_end ? *candidate.lower_end : *candidate.upper_end)},
           {"original", AnyQuantity(dimension, original.lower_end ? *original.lower_end : *original.upper_end)}});
      return;
    }
    say(outcome, same ? texts::switching_alike : texts::switching_differs,
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
  std::vector<UsedRatings> used_by_;  ///< by rule
  std::vector<EquivalenceFinding> findings_;
};

}  // namespace

std::vector<EquivalenceFinding> compare_parts(const Definition& definition, const PartOfFile& original,
                                              const PartOfFile& candidate, const ComparisonContext& context) {
  return PartComparison(definition, original, candidate, context).compare();
}

}  // namespace ohmwright::kind_file
