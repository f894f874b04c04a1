#include "part/trip_points.hpp"

#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::kind_file {

boost::container::static_vector<std::uint16_t, 4> trip_points_behind(const Figure& end, Outward outward) {
  boost::container::static_vector<std::uint16_t, 4> ratings;
  for (const FigureWay& way : end.ways)
    if (way.rating != not_found && way.value * static_cast<double>(outward) > 0.0) ratings.push_back(way.rating);
  return ratings;
}

std::string contradiction_with_trip_points(const Definition& definition, const RuleForm& form, const KnownRule& rule,
                                           const RatingValues& ratings) {
  const ContactForm* contact = form.contact();
  if (contact == nullptr) return {};
  const auto wrong = [&](const Figure& figure, const std::optional<double>& end, Outward outward) -> std::string {
    for (const std::uint16_t rating : trip_points_behind(figure, outward)) {
      if (!end || !ratings[rating] || (*end - *ratings[rating]) * static_cast<double>(outward) >= 0.0) continue;
      const RatingRow& row = definition.ratings[rating];
      return "its end of " + display_text(AnyQuantity(row.dimension, *end)) + " lies " +
             (outward == Outward::up ? "below" : "above") + " the " +
             display_text(AnyQuantity(row.dimension, *ratings[rating])) + " of " + ohmwright::quoted(row.id) +
             ", where it is rated to switch; state an end beyond that, or leave it out";
    }
    return {};
  };
  const std::string above = wrong(contact->upper_end, rule.upper_end, Outward::up);
  return above.empty() ? wrong(contact->lower_end, rule.lower_end, Outward::down) : above;
}

}  // namespace ohmwright::kind_file
