#include "part/thermostat_ratings.hpp"

#include <ohmwright/component/rated_figures.hpp>

namespace ohmwright::bimetal_thermostat {

namespace {

std::optional<TripPoint> read_trip_point(const ValueNode& ratings, std::string_view name, RatedFigures& figures) {
  const ValueNode* node = ratings.find(name);
  if (node == nullptr) return std::nullopt;
  const std::optional<Temperature> nominal = figures.figure<Temperature>(*node, "temperature");
  const std::optional<TemperatureDifference> tolerance = figures.figure<TemperatureDifference>(*node, "tolerance");
  const std::optional<TemperatureDifference> service =
      figures.figure<TemperatureDifference>(*node, "service_tolerance");
  if (!nominal || !tolerance) return std::nullopt;
  if (!(tolerance->value() > 0.0)) {
    figures.refuse(*node, "tolerance", "a tolerance must be above 0 K, such as \"3 K\"");
    return std::nullopt;
  }
  if (service && *service < *tolerance) {
    figures.refuse(*node, "service_tolerance",
                   "the tolerance in service holds the drift beside that of new parts; it cannot be the smaller one");
    return std::nullopt;
  }
  const Spread spread = RatedFigures::word(*node, "spread") == "normal" ? Spread::normal : Spread::limits;
  return TripPoint{*nominal, *tolerance, service.value_or(*tolerance), spread};
}

std::optional<Differential> read_differential(const ValueNode& ratings, RatedFigures& figures) {
  const ValueNode* node = ratings.find("differential");
  if (node == nullptr) return std::nullopt;
  const std::optional<TemperatureDifference> nominal = figures.figure<TemperatureDifference>(*node, "difference");
  const std::optional<TemperatureDifference> tolerance = figures.figure<TemperatureDifference>(*node, "tolerance");
  if (!nominal || !tolerance) return std::nullopt;
  if (!(tolerance->value() > 0.0 && *tolerance < *nominal)) {
    figures.refuse(*node, "tolerance", "the tolerance of a differential lies between 0 K and the differential itself");
    return std::nullopt;
  }
  return Differential{*nominal, *tolerance};
}

/// Where parts close of which only the differential is stated: the worst cases of both tolerances together.
TripPoint closing_below(const TripPoint& opening, const Differential& differential) {
  return {opening.nominal - differential.nominal, opening.tolerance + differential.tolerance,
          opening.allowed + differential.tolerance, opening.spread};
}

std::optional<ThermalLink> read_thermal_link(const ValueNode& ratings, const TripPoint& opening,
                                             RatedFigures& figures) {
  const ValueNode* node = ratings.find("thermal_link");
  if (node == nullptr) return std::nullopt;
  const std::optional<Temperature> functioning = figures.figure<Temperature>(*node, "functioning_temperature");
  if (!functioning) return std::nullopt;
  if (ratings.find("leads") == nullptr)
    figures.refuse(*node, "say how many \"leads\" the part has: with two the link cannot be read alone");
  if (!(*functioning > opening.highest()))
    figures.refuse(*node, "functioning_temperature",
                   "the link must open above the temperature at which the thermostat opens; check the unit");
  const std::optional<Temperature> holding = figures.figure<Temperature>(*node, "holding_temperature");
  if (holding && !(*holding < *functioning))
    figures.refuse(*node, "holding_temperature", "a link holds below the temperature at which it functions");
  return ThermalLink{*functioning, holding};
}

Action action_named(std::string_view name) {
  if (name == "type-1") return Action::type_1;
  return name == "type-2" ? Action::type_2 : Action::unstated;
}

}  // namespace

std::optional<ThermostatRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  RatedFigures figures(problems);
  const std::optional<TripPoint> opening = read_trip_point(ratings, "opening", figures);
  const std::optional<TripPoint> closing = read_trip_point(ratings, "closing", figures);
  ThermostatRatings read;
  read.differential = read_differential(ratings, figures);
  read.closing_from_differential = !closing.has_value();
  read.action = action_named(RatedFigures::word(ratings, "action"));
  read.rated_current = figures.positive<Current>(ratings, "rated_current");
  read.rated_voltage = figures.positive<Voltage>(ratings, "rated_voltage");
  read.contact_resistance = figures.positive<Resistance>(ratings, "contact_resistance");
  read.leads = RatedFigures::whole_number(ratings, "leads");
  const ValueNode* unknown = ratings.find("unknown");
  read.unknown = unknown != nullptr && unknown->flag() != nullptr && *unknown->flag();
  if (!opening || problems.size() != before || (!closing && !read.differential)) {
    if (problems.size() == before) figures.refuse(ratings, "the ratings are not complete");
    return std::nullopt;
  }
  read.opening = *opening;
  read.closing = closing ? *closing : closing_below(*opening, *read.differential);
  read.link = read_thermal_link(ratings, *opening, figures);
  if (!(read.closing.nominal < read.opening.nominal))
    figures.refuse(*ratings.find("closing"), "temperature",
                   "a thermostat of this kind opens as it warms and closes again colder than it opened; were the two "
                   "swapped?");
  if (problems.size() != before) return std::nullopt;
  return read;
}

}  // namespace ohmwright::bimetal_thermostat
