#include "part/contact_comparison.hpp"

#include <algorithm>
#include <optional>

#include "part/trip_points.hpp"

namespace ohmwright::kind_file {

namespace {

/// Such a contact ends heat before it does harm, or is spent by it: what acts later protects less.
bool does_protect(const Definition& definition, const ContactForm& contact) {
  const auto& roles = definition.descriptor.roles;
  return contact.single_operation || std::find(roles.begin(), roles.end(), "limits-heat") != roles.end();
}

bool names_rating(const Figure& figure, std::size_t rating) {
  return std::any_of(figure.ways.begin(), figure.ways.end(),
                     [rating](const FigureWay& way) { return way.rating == rating; });
}

/// Against heat a contact acts at its warm end. Where it resets is the other: a point of switching like any.
TripPoint trip_point_at(const Definition& definition, const ContactForm& contact, Outward end) {
  const bool acts = end == Outward::up || !contact.upper_end.is_given();
  return acts && does_protect(definition, contact) ? TripPoint::protects : TripPoint::switches;
}

/// Compares the ends of one contact of two parts.
class EndComparison {
 public:
  EndComparison(const Definition& definition, const ContactForm& contact, const PartOfFile& original,
                const PartOfFile& candidate)
      : definition_(definition),
        contact_(contact),
        dimension_(definition.descriptor.conditions[contact.condition].dimension),
        original_(original.ratings()),
        candidate_(candidate.ratings()) {}

  EndsCompared compare(const Figure& figure, std::optional<double> original, std::optional<double> candidate,
                       Outward outward) const {
    if (!original || !candidate || is_same(*original, *candidate, slack(*original, outward)))
      return EndsCompared::alike;
    if ((*candidate - *original) * static_cast<double>(outward) > 0.0) return EndsCompared::wider;
    return same_trip_points(figure, outward) ? EndsCompared::alike : EndsCompared::elsewhere;
  }

 private:
  Slack slack(double original, Outward end) const {
    return slack_of_trip_point(trip_point_at(definition_, contact_, end), dimension_, original);
  }

  bool same_trip_points(const Figure& figure, Outward outward) const {
    bool any = false;
    for (const std::uint16_t rating : trip_points_behind(figure, outward)) {
      if (!original_[rating] || !candidate_[rating]) continue;
      if (!is_same(*original_[rating], *candidate_[rating], slack(*original_[rating], outward))) return false;
      any = true;
    }
    return any;
  }

  const Definition& definition_;
  const ContactForm& contact_;
  Dimension dimension_;
  const RatingValues& original_;
  const RatingValues& candidate_;
};

}  // namespace

TripPoint trip_point_of(const Definition& definition, std::size_t rating) {
  TripPoint trip = TripPoint::none;
  for (const RuleForm& form : definition.rules) {
    const ContactForm* contact = form.contact();
    if (contact == nullptr) continue;
    if (names_rating(contact->upper_end, rating))
      trip = std::max(trip, trip_point_at(definition, *contact, Outward::up));
    if (names_rating(contact->lower_end, rating))
      trip = std::max(trip, trip_point_at(definition, *contact, Outward::down));
  }
  return trip;
}

Slack slack_of_trip_point(TripPoint trip, Dimension dimension, double original) {
  Slack slack = slack_of(dimension, original);
  if (trip == TripPoint::protects) slack.above = 0.0;
  return slack;
}

EndsCompared compare_ends(const Definition& definition, std::size_t rule, const PartOfFile& original,
                          const PartOfFile& candidate) {
  const ContactForm& contact = *definition.rules[rule].contact();
  const KnownRule& first = original.rules()[rule];
  const KnownRule& second = candidate.rules()[rule];
  const EndComparison ends(definition, contact, original, candidate);
  EndsCompared lower = ends.compare(contact.lower_end, first.lower_end, second.lower_end, Outward::down);
  // What opens once never closes again: one that surely holds further up is none the worse for it.
  if (contact.single_operation && lower == EndsCompared::elsewhere) lower = EndsCompared::alike;
  const EndsCompared upper = ends.compare(contact.upper_end, first.upper_end, second.upper_end, Outward::up);
  if (lower == EndsCompared::alike) return upper;
  return upper == EndsCompared::wider ? upper : lower;
}

}  // namespace ohmwright::kind_file
