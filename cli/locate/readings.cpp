#include "locate/readings.hpp"

#include <algorithm>
#include <cmath>
#include <utility>
#include <vector>

#include <ohmwright/appliance/joined_places.hpp>
#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright::cli {

bool senses(const Descriptor& descriptor) {
  constexpr std::string_view all_such_roles = "senses-";
  return std::any_of(descriptor.roles.begin(), descriptor.roles.end(),
                     [&](std::string_view role) { return role.starts_with(all_such_roles); });
}

bool is_sensor(const Descriptor& descriptor) {
  return senses(descriptor) && std::none_of(descriptor.measurands.begin(), descriptor.measurands.end(),
                                            [](const MeasurandDescriptor& read) { return read.takes_contact_state; });
}

namespace {

constexpr std::string_view on_range = " on ";
constexpr std::string_view low_input = "low-impedance";

Unit unit_read(Probe probe) {
  const Dimension dimension = locate::dimension_of(probe);
  return *Unit::named(si_unit_of(dimension), dimension);
}

AnyQuantity range_of_words(std::string_view text, Probe probe) {
  StatedValueOptions options;
  options.default_unit = unit_read(probe);
  return parse_stated_value(std::string(without_blanks_around(text)), locate::dimension_of(probe), options).value;
}

/// The measurand of a sensor that takes a reading without a name, where it is ohms and takes no bare number.
const MeasurandDescriptor* ohms_with_unit(const Descriptor& descriptor) {
  if (!senses(descriptor) || descriptor.measurands.empty()) return nullptr;
  const MeasurandDescriptor& first = descriptor.measurands.front();
  return first.dimension == Dimension::resistance && !first.takes_bare_number ? &first : nullptr;
}

/// The unit in which a test point's part is usually read, where its kind takes no bare number: a sensor's kilohms,
/// where a forgotten k is a believable value. Nothing elsewhere: ohms of a heater, a contact, a wire are usually bare.
///
/// Its part is the one between the probes, or between the wires, plugs and splices that lead to them.
std::optional<Unit> unit_to_be_typed(const Appliance& appliance, const TestPoint& point) {
  if (point.probe != Probe::ohms) return std::nullopt;
  const JoinedPlaces places(appliance);
  const auto node_of = [&](const ProbePlace& place) {
    return place.terminal ? appliance.parts[place.terminal->part].nodes[place.terminal->terminal] : place.node;
  };
  const std::optional<std::size_t> from = node_of(point.from);
  const std::optional<std::size_t> to = node_of(point.to);
  for (const PlacedPart& part : appliance.parts) {
    const MeasurandDescriptor* ohms = ohms_with_unit(part.kind->descriptor());
    if (ohms == nullptr || part.nodes.size() < 2) continue;
    const bool is_between = (places.are_one(from, part.nodes[0]) && places.are_one(to, part.nodes[1])) ||
                            (places.are_one(from, part.nodes[1]) && places.are_one(to, part.nodes[0]));
    if (is_between) return Unit::named(ohms->default_unit, Dimension::resistance);
  }
  return std::nullopt;
}

/// The most that an instrument of the trade shows [V, A or ohm], an end itself still shown; nothing known of others.
/// A technician's meter is of the class of 1000 V, a clamp ends at some hundred amperes, an insulation tester at some
/// teraohms: common practice, no source.
std::optional<double> most_shown(Dimension dimension) {
  constexpr double most_volts = 1000.0;
  constexpr double most_amperes = 1000.0;
  constexpr double most_ohms = 1e13;
  switch (dimension) {
    case Dimension::voltage:
      return most_volts;
    case Dimension::current:
      return most_amperes;
    case Dimension::resistance:
      return most_ohms;
    default:
      return std::nullopt;
  }
}

Observed observed_in(std::string_view text, const TestPoint& point, const TypedReadings& how) {
  const Probe probe = point.probe;
  const Dimension dimension = locate::dimension_of(probe);
  const MeterFunction* function = function_for(how.meter, dimension);
  ObservedOptions options;
  options.contact_words = options.over_range = options.names_range_end = probe == Probe::ohms;
  options.lone_one_is_over = probe == Probe::ohms && function != nullptr && function->one_means_over_range;
  options.usual_unit = how.was_kept ? std::nullopt : unit_to_be_typed(how.appliance, point);
  if (!options.usual_unit) options.default_unit = unit_read(probe);
  const Observed observed = parse_observed(text, dimension, options);
  if (const auto* stated = std::get_if<StatedValue>(&observed)) how.units.prefer(stated->unit);
  return observed;
}

locate::TakenReading read_on_low_input(locate::Measurement measurement, std::string_view value,
                                       const std::string& label, const TypedReadings& how) {
  const TestPoint& point = how.appliance.test_points[measurement.test_point];
  const Probe probe = point.probe;
  if (probe != Probe::volts)
    throw InputError(label + ": the low-impedance input is one of volts; this test point reads " +
                     (probe == Probe::ohms ? "ohms" : "amperes"));
  measurement.low_impedance = true;
  return {measurement, observed_in(value, point, how), label};
}

}  // namespace

locate::TakenReading typed_reading(const locate::Measurement& measurement, const std::string& text,
                                   const std::string& label, const TypedReadings& how) {
  const TestPoint& point = how.appliance.test_points[measurement.test_point];
  const Probe probe = point.probe;
  const std::size_t on = text.rfind(on_range);
  const std::string_view value = std::string_view(text).substr(0, on);
  if (on != std::string::npos &&
      without_blanks_around(std::string_view(text).substr(on + on_range.size())) == low_input)
    return read_on_low_input(measurement, value, label, how);
  locate::TakenReading reading{measurement, observed_in(value, point, how), label};
  if (!how.was_kept) refuse_what_no_meter_shows(reading.observed, label);
  const auto* over = std::get_if<OverRange>(&reading.observed);
  if (on != std::string::npos)
    reading.range = range_of_words(std::string_view(text).substr(on + on_range.size()), probe);
  else if (over != nullptr)
    reading.range = over->unit || over->more_than ? locate::range_told_by(*over, how.meter) : how.range;
  locate::refuse_impossible_range(reading, probe, how.meter, label);
  return reading;
}

void refuse_what_no_meter_shows(const Observed& observed, const std::string& label) {
  const auto* stated = std::get_if<StatedValue>(&observed);
  if (stated == nullptr) return;
  const std::optional<double> most = most_shown(stated->value.dimension());
  if (most && std::abs(stated->value.value_in_si()) > *most)
    throw InputError(label + ": no instrument shows " + display_text(stated->value) +
                     "; past its range it shows OL: write OL, or look at the unit");
}

AnyQuantity typed_range(const std::string& text) { return range_of_words(text, Probe::ohms); }

std::optional<AnyQuantity> range_option(const Arguments& arguments, const Meter& meter) {
  if (!arguments.has("--range")) return std::nullopt;
  locate::TakenReading any{{}, OverRange{}, "--range"};
  any.range = typed_range(arguments.value("--range"));
  locate::refuse_impossible_range(any, Probe::ohms, meter, "--range");
  return any.range;
}

bool wants_a_range(const locate::TakenReading& reading, const TypedReadings& how) {
  return locate::is_of_unknown_range(reading, how.appliance.test_points[reading.measurement.test_point].probe,
                                     how.meter);
}

}  // namespace ohmwright::cli
