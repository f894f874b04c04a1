#include "locate_readings.hpp"

#include <utility>

#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cli {

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

Observed observed_in(std::string_view text, Probe probe, const Meter& meter, UnitPreferences& units) {
  const Dimension dimension = locate::dimension_of(probe);
  const MeterFunction* function = function_for(meter, dimension);
  ObservedOptions options;
  options.contact_words = options.over_range = options.names_range_end = probe == Probe::ohms;
  options.lone_one_is_over = probe == Probe::ohms && function != nullptr && function->one_means_over_range;
  options.default_unit = unit_read(probe);
  const Observed observed = parse_observed(text, dimension, options);
  if (const auto* stated = std::get_if<StatedValue>(&observed)) units.prefer(stated->unit);
  return observed;
}

locate::TakenReading read_on_low_input(locate::Measurement measurement, std::string_view value,
                                       const std::string& label, const TypedReadings& how) {
  const Probe probe = how.appliance.test_points[measurement.test_point].probe;
  if (probe != Probe::volts)
    throw InputError(label + ": the low-impedance input is one of volts; this test point reads " +
                     (probe == Probe::ohms ? "ohms" : "amperes"));
  measurement.low_impedance = true;
  return {measurement, observed_in(value, probe, how.meter, how.units), label};
}

}  // namespace

locate::TakenReading typed_reading(const locate::Measurement& measurement, const std::string& text,
                                   const std::string& label, const TypedReadings& how) {
  const Probe probe = how.appliance.test_points[measurement.test_point].probe;
  const std::size_t on = text.rfind(on_range);
  const std::string_view value = std::string_view(text).substr(0, on);
  if (on != std::string::npos &&
      without_blanks_around(std::string_view(text).substr(on + on_range.size())) == low_input)
    return read_on_low_input(measurement, value, label, how);
  locate::TakenReading reading{measurement, observed_in(value, probe, how.meter, how.units), label};
  const auto* over = std::get_if<OverRange>(&reading.observed);
  if (on != std::string::npos)
    reading.range = range_of_words(std::string_view(text).substr(on + on_range.size()), probe);
  else if (over != nullptr)
    reading.range = over->unit || over->more_than ? locate::range_told_by(*over, how.meter) : how.range;
  locate::refuse_impossible_range(reading, probe, how.meter, label);
  return reading;
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
