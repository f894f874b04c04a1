#include "job/reading_judged.hpp"

#include <algorithm>
#include <utility>

#include <ohmwright/appliance/joined_places.hpp>
#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/locate/work.hpp>
#include <ohmwright/quantity/error.hpp>

#include "job/low_voltage.hpp"
#include "locate/readings.hpp"

namespace ohmwright::cli {

namespace {

template <class Row>
std::optional<std::size_t> row_named(const std::vector<Row>& rows, std::string_view id) {
  for (std::size_t i = 0; i < rows.size(); ++i)
    if (rows[i].id == id) return i;
  return std::nullopt;
}

bool is_terminal(const ProbePlace& place, std::size_t part, std::uint16_t terminal) {
  return place.terminal && place.terminal->part == part && place.terminal->terminal == terminal;
}

/// Whether the probes are at the part's own terminals, between which the measurand is read. A kind that does not say
/// where means the first two terminals, and the measurand that takes a reading without a name.
bool reads(const TestPoint& point, std::size_t part, const Descriptor& descriptor, std::size_t index) {
  const MeasurandDescriptor& measurand = descriptor.measurands[index];
  if (locate::dimension_of(point.probe) != measurand.dimension) return false;
  const bool says_where = measurand.from != not_found && measurand.to != not_found;
  if (!says_where && index != 0) return false;
  const std::uint16_t from = says_where ? measurand.from : std::uint16_t{0};
  const std::uint16_t to = says_where ? measurand.to : std::uint16_t{1};
  return (is_terminal(point.from, part, from) && is_terminal(point.to, part, to)) ||
         (is_terminal(point.from, part, to) && is_terminal(point.to, part, from));
}

bool is_lifted(const TestPoint& point, std::size_t part) {
  return std::any_of(point.lifted.begin(), point.lifted.end(),
                     [part](const PartTerminal& terminal) { return terminal.part == part; });
}

/// The temperature of a zone, as wide as it may be where nobody measured it (`locate::site_not_measured`).
StatedValue temperature_of(const locate::Site& site, std::size_t zone) {
  StatedValue stated = site.zone_temperatures[zone];
  if (!site.not_measured[zone]) return stated;
  const double coldest = site.not_measured[zone]->from_kelvin;
  const double warmest = site.not_measured[zone]->to_kelvin;
  stated.value = AnyQuantity(Dimension::temperature, (coldest + warmest) / 2.0);
  stated.half_width = (warmest - coldest) / 2.0;
  return stated;
}

/// The temperature of a part in its zone. Where nobody said how sure it is, the doubt is marked as assumed, and at
/// least as wide as the kind assumes it.
Condition condition_at(const ConditionDescriptor& condition, const locate::Site& site, std::size_t zone) {
  StatedValue stated = temperature_of(site, zone);
  if (site.known[zone] != locate::ZoneKnowledge::said_without_doubt) return stated_condition(condition, stated, "zone");
  stated.half_width = std::max(stated.half_width.value_or(0.0), condition.default_half_width);
  Condition at = stated_condition(condition, stated, "zone");
  at.uncertainty_assumed = true;
  return at;
}

/// What the kind is told of the place: its zone's temperature and the states of the part.
Reading reading_at(const Appliance& appliance, std::size_t part, const MeasurandDescriptor& measurand,
                   const locate::Site& site, const locate::TakenReading& taken) {
  const TestPoint& point = appliance.test_points[taken.measurement.test_point];
  const PlacedPart& placed = appliance.parts[part];
  const Descriptor& descriptor = placed.kind->descriptor();
  locate::Site here = locate::after_set_up(appliance, site, taken.measurement.set_up);
  if (placed.zone && locate::unsaid_room_after(appliance, site, taken.measurement.set_up, *placed.zone))
    here.not_measured[*placed.zone] = locate::room_that_nobody_spoke_of();
  Reading reading{.label = point.id, .measurand = std::string(measurand.id), .observed = taken.observed};
  const std::uint16_t temperature = index_of(descriptor.conditions, "part_temperature");
  if (temperature != not_found && placed.zone)
    reading.conditions.push_back(condition_at(descriptor.conditions[temperature], here, *placed.zone));
  for (const StateValue& set : here.states[part]) {
    const StateDescriptor& state = descriptor.states[set.state];
    reading.states.push_back({std::string(state.id), std::string(state.values[set.value].id)});
  }
  reading.connection = is_lifted(point, part) ? Connection::lead_off : Connection::in_circuit;
  if (locate::is_live(appliance, taken.measurement)) {
    reading.supply = Supply::live;
    reading.connection = Connection::unstated;
  }
  return reading;
}

/// Where a part's insulation to the frame is read, all its leads off, so that nothing beside it is.
std::optional<std::size_t> test_point_to_frame(const Appliance& appliance, std::size_t part) {
  const auto& nodes = appliance.parts[part].nodes;
  for (std::size_t i = 0; i < appliance.test_points.size(); ++i) {
    const TestPoint& point = appliance.test_points[i];
    const auto is_of_part = [part](const PartTerminal& terminal) { return terminal.part == part; };
    const bool touches_it = (point.from.terminal && is_of_part(*point.from.terminal)) ||
                            (point.to.terminal && is_of_part(*point.to.terminal));
    bool is_alone = touches_it && locate::is_to_earth(appliance, locate::Measurement{i, {}});
    for (std::size_t terminal = 0; terminal < nodes.size(); ++terminal) {
      const PartTerminal lead{part, static_cast<std::uint16_t>(terminal)};
      is_alone = is_alone && (!nodes[terminal] || nodes[terminal] == appliance.supply.earth ||
                              std::find(point.lifted.begin(), point.lifted.end(), lead) != point.lifted.end());
    }
    if (is_alone) return i;
  }
  return std::nullopt;
}

}  // namespace

std::optional<std::size_t> part_named(const Appliance& appliance, std::string_view id) {
  return row_named(appliance.parts, id);
}

std::optional<std::size_t> test_point_named(const Appliance& appliance, std::string_view id) {
  return row_named(appliance.test_points, id);
}

std::optional<std::size_t> test_point_of_part(const Appliance& appliance, std::string_view part,
                                              std::string_view measurand) {
  const std::optional<std::size_t> index = part_named(appliance, part);
  if (!index) return std::nullopt;
  const Descriptor& descriptor = appliance.parts[*index].kind->descriptor();
  const std::uint16_t read = index_of(descriptor.measurands, measurand);
  if (read == not_found) return std::nullopt;
  for (std::size_t point = 0; point < appliance.test_points.size(); ++point)
    if (reads(appliance.test_points[point], *index, descriptor, read) &&
        is_lifted(appliance.test_points[point], *index))
      return point;
  return measurand == "insulation" ? test_point_to_frame(appliance, *index) : std::nullopt;
}

std::string part_read_at(const Appliance& appliance, std::size_t test_point) {
  for (std::size_t part = 0; part < appliance.parts.size(); ++part)
    for (std::size_t i = 0; i < appliance.parts[part].kind->descriptor().measurands.size(); ++i)
      if (reads(appliance.test_points[test_point], part, appliance.parts[part].kind->descriptor(), i))
        return appliance.parts[part].id;
  return {};
}

std::string ratings_that_went_in(const job::ServiceCall& call, std::string_view part) {
  const job::ReplacedPart* last = call.last_new(part);
  if (last == nullptr) return {};
  return last->new_file.empty() ? last->new_ratings : last->new_file;
}

bool ratings_are_lost(const LoadedKind& kind, const std::string& name_or_file) {
  if (name_or_file.empty()) return false;
  try {
    (void)rated_part(kind, name_or_file);
    return false;
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    return true;
  }
}

RatedPart placed_part(const Appliance& appliance, std::size_t part, const job::ServiceCall& call) {
  const PlacedPart& placed = appliance.parts[part];
  const std::string went_in = ratings_that_went_in(call, placed.id);
  if (went_in.empty()) return {placed.part, placed.ratings, placed.title};
  RatedPart rated = rated_part(*placed.kind, ratings_are_lost(*placed.kind, went_in) ? std::string() : went_in);
  rated.title = placed.title;
  return rated;
}

std::optional<PartCheck> judged_at_test_point(const Appliance& appliance, const locate::Site& site,
                                              const locate::TakenReading& reading, const job::ServiceCall& call,
                                              const UnitPreferences& units, const Arguments& arguments,
                                              const Environment& environment) {
  const TestPoint& point = appliance.test_points[reading.measurement.test_point];
  for (std::size_t part = 0; part < appliance.parts.size(); ++part) {
    const LoadedKind& kind = *appliance.parts[part].kind;
    for (std::size_t i = 0; i < kind.descriptor().measurands.size(); ++i) {
      if (!reads(point, part, kind.descriptor(), i)) continue;
      try {
        return checked_part(kind, placed_part(appliance, part, call),
                            {reading_at(appliance, part, kind.descriptor().measurands[i], site, reading)}, units,
                            arguments, environment);
      } catch (const InputError&) {
        return std::nullopt;  // the kind takes no such reading: a contact where it reads ohms
      }
    }
  }
  return std::nullopt;
}

namespace {

/// Which verdict a part gets at another site.
class VerdictAt {
 public:
  VerdictAt(const Appliance& appliance, const locate::TakenReading& reading, const job::ServiceCall& call,
            const Arguments& arguments, const Environment& environment)
      : appliance_(appliance), reading_(reading), call_(call), arguments_(arguments), environment_(environment) {}

  Outcome operator()(const locate::Site& site) const {
    const std::optional<PartCheck> check =
        judged_at_test_point(appliance_, site, reading_, call_, UnitPreferences{}, arguments_, environment_);
    return check ? check->verdict().outcome : Outcome::undecided;
  }

 private:
  const Appliance& appliance_;
  const locate::TakenReading& reading_;
  const job::ServiceCall& call_;
  const Arguments& arguments_;
  const Environment& environment_;
};

/// Whether a set-up brings the zone to a temperature.
bool is_brought_about(const Appliance& appliance, std::optional<std::size_t> set_up, std::size_t zone) {
  for (; set_up; set_up = appliance.set_ups[*set_up].based_on)
    for (const SetTemperature& row : appliance.set_ups[*set_up].temperatures)
      if (row.zone == zone) return true;
  return false;
}

/// Whether a good part may read so at some temperature of the span, or a little past it: the room may be warmer than
/// the appliance's file has it.
bool may_be_good_somewhere(std::size_t zone, locate::Site site, const VerdictAt& verdict_at) {
  constexpr double past_the_span = 10.0;
  constexpr double step = 4.0;
  constexpr double half_width = 3.0;
  const TemperatureSpan span = *site.not_measured[zone];
  site.not_measured[zone].reset();
  for (double kelvin = span.from_kelvin; kelvin <= span.to_kelvin + past_the_span; kelvin += step) {
    site.zone_temperatures[zone].value = AnyQuantity(Dimension::temperature, kelvin);
    site.zone_temperatures[zone].half_width = half_width;
    if (verdict_at(site) != Outcome::out_of_limits) return true;
  }
  return false;
}

/// Whether the verdict is another one in a cold or a warm room than in the one that the file has.
bool hangs_on_room(std::size_t room, locate::Site site, const VerdictAt& verdict_at) {
  const TemperatureSpan span = locate::room_that_nobody_spoke_of();
  site.known[room] = locate::ZoneKnowledge::said_without_doubt;
  const Outcome by_file = verdict_at(site);
  const auto outcome_in = [&](double kelvin) {
    site.zone_temperatures[room].value = AnyQuantity(Dimension::temperature, kelvin);
    return verdict_at(site);
  };
  return outcome_in(span.from_kelvin) != by_file || outcome_in(span.to_kelvin) != by_file;
}

/// The node that a probe touches.
std::optional<std::size_t> node_of(const Appliance& appliance, const ProbePlace& place) {
  return place.terminal ? appliance.parts[place.terminal->part].nodes[place.terminal->terminal] : place.node;
}

/// The zone of a sensor that is read at the test point through wires and connectors, whose temperature nobody measured:
/// no part is judged there, and what it means hangs on it all the same.
std::optional<std::size_t> unmeasured_zone_of_sensor(const Appliance& appliance, const locate::Site& site,
                                                     const locate::Measurement& measurement) {
  const TestPoint& point = appliance.test_points[measurement.test_point];
  if (point.probe != Probe::ohms) return std::nullopt;
  const JoinedPlaces joined(appliance);
  const std::optional<std::size_t> from = node_of(appliance, point.from);
  const std::optional<std::size_t> to = node_of(appliance, point.to);
  for (const PlacedPart& part : appliance.parts) {
    if (!is_sensor(part.kind->descriptor()) || !part.zone || part.nodes.size() < 2) continue;
    const bool between = (joined.are_one(from, part.nodes[0]) && joined.are_one(to, part.nodes[1])) ||
                         (joined.are_one(from, part.nodes[1]) && joined.are_one(to, part.nodes[0]));
    if (between && site.not_measured[*part.zone] && !is_brought_about(appliance, measurement.set_up, *part.zone))
      return part.zone;
  }
  return std::nullopt;
}

}  // namespace

std::optional<ZoneToMeasure> zone_to_measure(const Appliance& appliance, const locate::Site& site,
                                             const locate::TakenReading& reading, const job::ServiceCall& call,
                                             const Arguments& arguments, const Environment& environment) {
  using Form = ZoneToMeasure::Form;
  const VerdictAt verdict_at(appliance, reading, call, arguments, environment);
  const std::optional<std::size_t> part =
      part_named(appliance, part_read_at(appliance, reading.measurement.test_point));
  if (!part) {
    const auto of_sensor = unmeasured_zone_of_sensor(appliance, site, reading.measurement);
    return of_sensor ? std::optional(ZoneToMeasure{*of_sensor, Form::not_measured}) : std::nullopt;
  }
  if (!appliance.parts[*part].zone) return std::nullopt;
  const std::size_t zone = *appliance.parts[*part].zone;
  if (const auto room = locate::unsaid_room_after(appliance, site, reading.measurement.set_up, zone))
    return hangs_on_room(*room, site, verdict_at) ? std::optional(ZoneToMeasure{*room, Form::as_warm_as})
                                                  : std::nullopt;
  if (is_brought_about(appliance, reading.measurement.set_up, zone)) return std::nullopt;
  locate::Site unsaid = site;
  if (!site.not_measured[zone])
    unsaid.not_measured[zone] = locate::site_not_measured(appliance, false).not_measured[zone];
  if (!unsaid.not_measured[zone]) return std::nullopt;
  const Outcome at_any = verdict_at(unsaid);
  if (at_any == Outcome::within_limits) return std::nullopt;
  if (at_any == Outcome::out_of_limits && !may_be_good_somewhere(zone, unsaid, verdict_at)) return std::nullopt;
  if (!site.not_measured[zone]) return ZoneToMeasure{zone, Form::said_before};
  locate::Site as_found = site;
  as_found.not_measured[zone].reset();
  return verdict_at(as_found) != Outcome::undecided ? std::optional(ZoneToMeasure{zone, Form::not_measured})
                                                    : std::nullopt;
}

}  // namespace ohmwright::cli
