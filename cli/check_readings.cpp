#include "check_readings.hpp"

#include <algorithm>
#include <iterator>
#include <span>
#include <string>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/series_document.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/safety/live_readings.hpp>

#include "reading_words.hpp"
#include "typed_readings.hpp"

namespace ohmwright::cli {

namespace {

void prefer_units_of(std::span<const Reading> readings, UnitPreferences& units) {
  for (const Reading& reading : readings) {
    if (const auto* stated = std::get_if<StatedValue>(&reading.observed)) units.prefer(stated->unit);
    for (const Condition& condition : reading.conditions) units.prefer(condition.value.unit);
  }
}

/// The readings of `--series`, which may be given once: two series would not share their thermometer.
std::vector<Reading> series(const Arguments& arguments, const Descriptor& descriptor, const MeterSet& meters) {
  const auto given = arguments.options.find("--series");
  if (given == arguments.options.end()) return {};
  if (given->second.size() > 1) throw InputError("--series is given twice; check one series after the other");
  return read_series_file(given->second.front(), descriptor, &meters.named(""));
}

}  // namespace

std::vector<Reading> gather_readings(const Arguments& arguments, const Descriptor& descriptor, const MeterSet& meters,
                                     UnitPreferences& units) {
  const TypedWords words =
      sort_reading_words(std::span(arguments.operands).subspan(1), descriptor, arguments.option_names);
  std::vector<Reading> readings = make_readings(words.readings, descriptor, meters.named(""), units);
  const auto add = [&](std::vector<Reading> more) {
    prefer_units_of(more, units);
    apply_to_all(words.said_for_all, descriptor, units, more);
    std::move(more.begin(), more.end(), std::back_inserter(readings));
  };
  if (arguments.has("--readings"))
    add(read_readings(read_document(arguments.value("--readings")), descriptor, &meters));
  add(series(arguments, descriptor, meters));
  if (readings.empty())
    throw InputError(
        "no reading was given; type what the meter showed, such as 11.0k or OL, or name a file with --readings or "
        "--series");
  const bool agreed = arguments.has("--live-agreed");
  if (agreed) take_agreement_as_live(descriptor, readings);
  refuse_unsafe_readings(readings, descriptor, agreed);
  return readings;
}

}  // namespace ohmwright::cli
