#include "part/figure_comparison.hpp"

#include <algorithm>

#include "part/comparison_texts.hpp"
#include "part/contact_comparison.hpp"
#include "part/sameness.hpp"
#include "part/used_ratings.hpp"

namespace ohmwright::kind_file {

namespace {

namespace texts = comparison_texts;

struct FigureCompared {
  Outcome outcome = Outcome::undecided;
  const TextEntry* text = nullptr;
};

class FigureComparison {
 public:
  FigureComparison(const Definition& definition, const PartOfFile& original, const PartOfFile& candidate,
                   std::vector<EquivalenceFinding>& findings)
      : definition_(definition), original_(original), candidate_(candidate), findings_(findings) {
    for (const RuleForm& form : definition_.rules)
      used_by_.push_back(ratings_used_by(form, definition_.ratings.size()));
    counted_ = ratings_counted_in_both();
  }

  void compare(std::size_t i) {
    const RatingRow& row = definition_.ratings[i];
    const std::optional<double>& original = original_.ratings()[i];
    const std::optional<double>& candidate = candidate_.ratings()[i];
    if ((!original && !candidate) || !is_compared_by_itself(i)) return;
    const FindingArgument what{"what", std::string(row.title)};
    if (!original) {
      add_finding(findings_, Outcome::silent, texts::figure_not_asked,
                  {what, {"candidate", AnyQuantity(row.dimension, *candidate)}});
      return;
    }
    const FindingArgument of_original{"original", AnyQuantity(row.dimension, *original)};
    if (!candidate) {
      add_finding(findings_, Outcome::undecided, texts::figure_unknown, {what, of_original});
      return;
    }
    const FigureCompared compared = compare_stated_figure(i, *original, *candidate);
    add_finding(findings_, compared.outcome, *compared.text,
                {what, {"candidate", AnyQuantity(row.dimension, *candidate)}, of_original});
  }

 private:
  bool is_used(std::size_t rating) const {
    return std::any_of(used_by_.begin(), used_by_.end(), [rating](const UsedRatings& used) { return used[rating]; });
  }
  /// By figure: whether a rule that is known of both parts takes its value from it in both.
  UsedRatings ratings_counted_in_both() const {
    UsedRatings counted(definition_.ratings.size(), false);
    for (std::size_t rule = 0; rule < definition_.rules.size(); ++rule) {
      if (!original_.rules()[rule].known || !candidate_.rules()[rule].known) continue;
      const UsedRatings first = ratings_counted_in(definition_.rules[rule], original_.ratings());
      const UsedRatings second = ratings_counted_in(definition_.rules[rule], candidate_.ratings());
      for (std::size_t i = 0; i < counted.size(); ++i) counted[i] = counted[i] || (first[i] && second[i]);
    }
    return counted;
  }

  /// Whether that figure is held against its like. Of one that counted in a rule the rule tells what it does; but for
  /// the volts, which ohms and watts alike do not tell, and for what may only be more, or only less. One that a rule
  /// merely names beside another that counted is held against its like where both state it.
  bool is_compared_by_itself(std::size_t i) const {
    const RatingRow& row = definition_.ratings[i];
    if (row.stands_in && *row.stands_in != StandsIn::equal) return true;
    const bool voltage = row.dimension == Dimension::voltage;
    if (row.dimension == Dimension::ratio || (counted_[i] && !voltage)) return false;
    return !is_used(i) || voltage || (original_.ratings()[i] && candidate_.ratings()[i]);
  }

  FigureCompared compare_stated_figure(std::size_t i, double original, double candidate) const {
    const RatingRow& row = definition_.ratings[i];
    if (row.stands_in == StandsIn::at_least || row.stands_in == StandsIn::at_most)
      return compare_one_way(*row.stands_in, original, candidate);
    const TripPoint trip = trip_point_of(definition_, i);
    if (is_same(original, candidate, slack_of_trip_point(trip, row.dimension, original)))
      return {Outcome::within_limits, &texts::figure_alike};
    const bool voltage_of_rule = row.dimension == Dimension::voltage && is_used(i);
    if (row.stands_in == StandsIn::equal || trip != TripPoint::none || voltage_of_rule)
      return {Outcome::out_of_limits, &texts::figure_differs};
    return {Outcome::undecided, &texts::figure_other};
  }
  /// Of what may only be more, or only less, nothing but rounding is the same.
  static FigureCompared compare_one_way(StandsIn way, double original, double candidate) {
    if (is_same(original, candidate, {})) return {Outcome::within_limits, &texts::figure_alike};
    const bool more = candidate > original;
    if (way == StandsIn::at_least)
      return more ? FigureCompared{Outcome::within_limits, &texts::figure_enough}
                  : FigureCompared{Outcome::out_of_limits, &texts::figure_too_little};
    return more ? FigureCompared{Outcome::out_of_limits, &texts::figure_too_much}
                : FigureCompared{Outcome::within_limits, &texts::figure_little_enough};
  }

  const Definition& definition_;
  const PartOfFile& original_;
  const PartOfFile& candidate_;
  std::vector<EquivalenceFinding>& findings_;
  std::vector<UsedRatings> used_by_;  ///< by rule
  UsedRatings counted_;
};

}  // namespace

void compare_figures(const Definition& definition, const PartOfFile& original, const PartOfFile& candidate,
                     std::vector<EquivalenceFinding>& findings) {
  FigureComparison comparison(definition, original, candidate, findings);
  for (std::size_t i = 0; i < definition.ratings.size(); ++i) comparison.compare(i);
}

}  // namespace ohmwright::kind_file
