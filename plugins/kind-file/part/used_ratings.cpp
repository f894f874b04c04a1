#include "part/used_ratings.hpp"

#include <utility>

namespace ohmwright::kind_file {

namespace {

/// Notes the ratings of figures: of every way to them or, with the ratings of a part, of the way that is taken.
class RatingsNoted {
 public:
  RatingsNoted(std::size_t count, const RatingValues* ratings) : used_(count, false), ratings_(ratings) {}

  void note(const Formula& formula) {
    for (const std::uint16_t rating : formula.ratings)
      if (rating < used_.size()) used_[rating] = true;
  }
  void note(const Figure& figure) {
    for (const FigureWay& way : figure.ways) {
      if (ratings_ != nullptr && !is_known(way)) continue;
      if (way.rating < used_.size()) used_[way.rating] = true;
      if (way.formula != nullptr) note(*way.formula);
      if (ratings_ != nullptr) return;
    }
  }
  UsedRatings take() { return std::move(used_); }

 private:
  bool is_known(const FigureWay& way) const {
    if (way.formula != nullptr) return way.formula->is_known(*ratings_);
    return way.is_quantity() || (way.rating < ratings_->size() && (*ratings_)[way.rating]);
  }

  UsedRatings used_;
  const RatingValues* ratings_;
};

UsedRatings noted_of(const RuleForm& form, RatingsNoted noted) {
  if (const LimitsForm* limits = form.limits()) {
    for (const Figure* figure :
         {&limits->lower, &limits->upper, &limits->nominal, &limits->load.voltage, &limits->load.other,
          &limits->below.figure, &limits->above.figure, &limits->movement.coefficient, &limits->movement.reference})
      noted.note(*figure);
    if (limits->movement.formula != nullptr) noted.note(*limits->movement.formula);
  } else if (const ContactForm* contact = form.contact()) {
    noted.note(contact->lower_end);
    noted.note(contact->upper_end);
  } else if (const InsulationForm* insulation = form.insulation()) {
    noted.note(insulation->least);
  }
  return noted.take();
}

}  // namespace

UsedRatings ratings_used_by(const RuleForm& form, std::size_t count) {
  return noted_of(form, RatingsNoted(count, nullptr));
}

UsedRatings ratings_counted_in(const RuleForm& form, const RatingValues& ratings) {
  return noted_of(form, RatingsNoted(ratings.size(), &ratings));
}

}  // namespace ohmwright::kind_file
