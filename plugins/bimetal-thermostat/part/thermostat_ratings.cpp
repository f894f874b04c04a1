#include "part/thermostat_ratings.hpp"

#include "part/figures.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

std::optional<TripPoint> read_trip_point(const ValueNode& ratings, std::string_view name, Figures& figures) {
  const ValueNode* node = ratings.find(name);
  if (node == nullptr) return std::nullopt;
  const std::optional<Temperature> nominal = figures.temperature(*node, "temperature");
  const std::optional<TemperatureDifference> tolerance = figures.difference(*node, "tolerance");
  const std::optional<TemperatureDifference> service = figures.difference(*node, "service_tolerance");
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
  const Spread spread = Figures::word(*node, "spread") == "normal" ? Spread::normal : Spread::limits;
  return TripPoint{*nominal, *tolerance, service.value_or(*tolerance), spread};
}

std::optional<Differential> read_differential(const ValueNode& ratings, Figures& figures) {
  const ValueNode* node = ratings.find("differential");
  if (node == nullptr) return std::nullopt;
  const std::optional<TemperatureDifference> nominal = figures.difference(*node, "difference");
  const std::optional<TemperatureDifference> tolerance = figures.difference(*node, "tolerance");
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

std::optional<ThermalLink> read_thermal_link(const ValueNode& ratings, const TripPoint& opening, Figures& figures) {
  const ValueNode* node = ratings.find("thermal_link");
  if (node == nullptr) return std::nullopt;
  const std::optional<Temperature> functioning = figures.temperature(*node, "functioning_temperature");
  if (!functioning) return std::nullopt;
  if (ratings.find("leads") == nullptr)
    figures.refuse(*node, "say how many \"leads\" the part has: with two the link cannot be read alone");
  if (!(*functioning > opening.highest()))
    figures.refuse(*node, "functioning_temperature",
                   "the link must open above the temperature at which the thermostat opens; check the unit");
  const std::optional<Temperature> holding = figures.temperature(*node, "holding_temperature");
  if (holding && !(*holding < *functioning))
    figures.refuse(*node, "holding_temperature", "a link holds below the temperature at which it functions");
  return ThermalLink{*functioning, holding};
}

void refuse_unless_positive(const ValueNode& ratings, std::string_view name, std::optional<double> value,
                            Figures& figures) {
  if (value && !(*value > 0.0)) figures.refuse(ratings, name, "this figure must be above 0");
}

template <class Quantity>
std::optional<double> number_of(const std::optional<Quantity>& quantity) {
  return quantity ? std::optional(quantity->value()) : std::nullopt;
}

Action action_named(std::string_view name) {
  if (name == "type-1") return Action::type_1;
  return name == "type-2" ? Action::type_2 : Action::unstated;
}

}  // namespace

std::optional<ThermostatRatings> read_ratings(const ValueNode& ratings, std::vector<Problem>& problems) {
  const std::size_t before = problems.size();
  Figures figures(problems);
  const std::optional<TripPoint> opening = read_trip_point(ratings, "opening", figures);
  const std::optional<TripPoint> closing = read_trip_point(ratings, "closing", figures);
  ThermostatRatings read;
  read.differential = read_differential(ratings, figures);
  read.closing_from_differential = !closing.has_value();
  read.action = action_named(Figures::word(ratings, "action"));
  read.rated_current = figures.current(ratings, "rated_current");
  read.rated_voltage = figures.voltage(ratings, "rated_voltage");
  read.contact_resistance = figures.resistance(ratings, "contact_resistance");
  read.leads = Figures::whole_number(ratings, "leads");
  refuse_unless_positive(ratings, "rated_current", number_of(read.rated_current), figures);
  refuse_unless_positive(ratings, "rated_voltage", number_of(read.rated_voltage), figures);
  refuse_unless_positive(ratings, "contact_resistance", number_of(read.contact_resistance), figures);
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
