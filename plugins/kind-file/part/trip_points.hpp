#pragma once

#include <string>

#include <boost/container/static_vector.hpp>

#include "model/definition.hpp"
#include "part/rated_figures.hpp"

namespace ohmwright::kind_file {

/// Outward from between the two ends of a contact.
enum class Outward : std::int8_t { down = -1, up = 1 };

/// Figures of the ratings that an end lies beyond: of `{"rating": "opens", "offset": "5 K"}` at the upper end, `opens`.
boost::container::static_vector<std::uint16_t, 4> trip_points_behind(const Figure& end, Outward outward);

/// Why the ends of this part's contact do not fit its own trip points, or nothing: one that is stated by itself lies
/// beyond the temperature at which the part is rated to switch.
std::string contradiction_with_trip_points(const Definition& definition, const RuleForm& form, const KnownRule& rule,
                                           const RatingValues& ratings);

}  // namespace ohmwright::kind_file
