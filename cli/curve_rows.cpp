#include "curve_rows.hpp"

#include <algorithm>
#include <iterator>
#include <span>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/document/series_document.hpp>
#include <ohmwright/quantity/article.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/safety/live_readings.hpp>

#include "reading_words.hpp"
#include "typed_readings.hpp"

namespace ohmwright::cli {

namespace {

std::vector<Reading> all_readings(const Arguments& arguments, const Descriptor& descriptor, const Meter& meter,
                                  UnitPreferences& units) {
  const TypedWords words =
      sort_reading_words(std::span(arguments.operands).subspan(1), descriptor, arguments.option_names);
  std::vector<Reading> readings = make_readings(words.readings, descriptor, meter, units);
  if (arguments.has("--series")) {
    std::vector<Reading> rows = read_series_file(arguments.value("--series"), descriptor, &meter);
    std::move(rows.begin(), rows.end(), std::back_inserter(readings));
  }
  if (readings.empty())
    throw InputError("a curve needs rows: name a table with --series FILE, or type them, such as 32.7k@0C 10.0k@25C");
  return readings;
}

std::uint16_t chosen_measurand(const Arguments& arguments, const Descriptor& descriptor, const Reading& first) {
  if (!arguments.has("--of")) return index_of(descriptor.measurands, first.measurand);
  const std::string name = arguments.value("--of");
  const std::uint16_t index = index_of(descriptor.measurands, name);
  if (index != not_found) return index;
  std::string list;
  for (const MeasurandDescriptor& measurand : descriptor.measurands)
    list += (list.empty() ? "" : ", ") + std::string(measurand.id);
  throw InputError(with_article(descriptor.id) + " has no reading called " + ohmwright::quoted(name) +
                   "; it has: " + list);
}

/// What the measurand is charted along; the kind's first condition where it has no chart.
std::uint16_t condition_of(const Descriptor& descriptor, std::string_view measurand) {
  for (const ChartAxis& axis : descriptor.charts)
    if (axis.measurand == measurand) return index_of(descriptor.conditions, axis.condition);
  if (descriptor.conditions.empty())
    throw InputError(with_article(descriptor.id) + " depends on nothing that a curve could be drawn along");
  return 0;
}

/// The row of a reading as `prepared` it, by its meter and leads.
MeasuredRow row_of(const Reading& reading, const PreparedReading& prepared, const ConditionDescriptor& condition) {
  const auto found = std::find_if(reading.conditions.begin(), reading.conditions.end(),
                                  [&](const Condition& one) { return one.id == condition.id; });
  if (found == reading.conditions.end())
    throw InputError(printable(reading.label) + " stands without --" + std::string(condition.option) +
                     ", and a row of a curve needs it");
  if (!reading.repeats.empty())
    throw InputError(printable(reading.label) + " is " + std::to_string(reading.repeats.size() + 1) +
                     " values at one --" + std::string(condition.option) +
                     "; write each with its own, such as 32.7k@0C 10.0k@25C");
  MeasuredRow row{found->value.value, found->value.half_width.value_or(0.0), reading.observed};
  row.half_width_assumed = found->uncertainty_assumed;
  if (prepared.shown == Shown::value) {
    row.value_in_si = prepared.value.value();
    row.meter_standard_uncertainty = prepared.value.standard_uncertainty();
  }
  return row;
}

void prefer_units_of(const Reading& reading, UnitPreferences& units) {
  if (const auto* stated = std::get_if<StatedValue>(&reading.observed)) units.prefer(stated->unit);
  for (const Condition& condition : reading.conditions) units.prefer(condition.value.unit);
}

}  // namespace

CurveRows gather_rows(const Arguments& arguments, const Descriptor& descriptor, Instruments& instruments,
                      UnitPreferences& units) {
  std::vector<Reading> readings = all_readings(arguments, descriptor, instruments.meters().named(""), units);
  refuse_ohms_on_live_parts(readings, descriptor);
  instruments.choose(readings, descriptor);
  CurveRows rows;
  rows.measurand = chosen_measurand(arguments, descriptor, readings.front());
  const std::string_view measurand = descriptor.measurands[rows.measurand].id;
  rows.condition = condition_of(descriptor, measurand);
  std::erase_if(readings, [&](const Reading& one) { return one.measurand != measurand && arguments.has("--of"); });
  if (readings.empty()) throw InputError("no row is of " + std::string(measurand));
  const Evidence evidence(descriptor, readings, instruments.meters());
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const Reading& reading = readings[i];
    if (reading.measurand != measurand)
      throw InputError(printable(reading.label) + " is of " + reading.measurand + ", others are of " +
                       std::string(measurand) + "; say which with --of");
    prefer_units_of(reading, units);
    rows.rows.push_back(row_of(reading, evidence.readings()[i], descriptor.conditions[rows.condition]));
    rows.names.push_back(reading.label);
  }
  return rows;
}

}  // namespace ohmwright::cli
