#include "check_readings.hpp"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <set>
#include <span>
#include <string>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/series_document.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/quantity/quoted.hpp>
#include <ohmwright/uncertainty/error_source.hpp>

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

Dimension dimension_of(const Reading& reading, const Descriptor& descriptor) {
  return descriptor.measurands[index_of(descriptor.measurands, reading.measurand)].dimension;
}

bool is_of_supply(Dimension dimension) { return dimension == Dimension::voltage || dimension == Dimension::current; }

/// Who has agreed to live measurement and says nothing else of the supply has measured the volts and amperes live. The
/// ohms of the same call are not touched: they were read before, unplugged.
void take_agreement_as_live(const Descriptor& descriptor, std::span<Reading> readings) {
  const auto is_live = [](const Reading& reading) { return reading.supply == Supply::live; };
  if (std::any_of(readings.begin(), readings.end(), is_live)) return;
  for (Reading& reading : readings) {
    const Dimension dimension = dimension_of(reading, descriptor);
    if (!is_of_supply(dimension)) continue;
    if (reading.supply != Supply::unstated)
      throw InputError(printable(reading.label) + " is a " + std::string(name_of(dimension)) +
                       " that is said to be read without supply, and --live-agreed says that it was taken live; say "
                       "--live of the readings that were, or leave one of both out (ohms need neither)");
    reading.supply = Supply::live;
  }
}

void refuse_ohms_on_a_live_part(const Reading& reading, Dimension dimension) {
  if (reading.supply != Supply::live) return;
  const std::string label = printable(reading.label);
  if (dimension == Dimension::resistance)
    throw InputError(label +
                     " is ohms on a live part: that means nothing and can injure you; unplug, prove dead, read again");
  if (dimension == Dimension::capacitance)
    throw InputError(label +
                     " is a capacitance on a live part: that can injure you and ruins the meter; unplug, prove "
                     "dead, discharge it through a resistor, read again");
}

void refuse_unsafe(const Reading& reading, Dimension dimension, bool agreed) {
  refuse_ohms_on_a_live_part(reading, dimension);
  const std::string label = printable(reading.label);
  const bool live = reading.supply == Supply::live;
  if (is_of_supply(dimension) && reading.supply == Supply::unstated)
    throw InputError(label + " is a " + std::string(name_of(dimension)) +
                     ": say whether the appliance was plugged in (--live) or not (--unplugged, --proved-dead)");
  if (live && !agreed)
    throw InputError(label +
                     " was taken live: live measurement is for those qualified for it, with insulated probes, one hand "
                     "at a time; if you are and have agreed to that, say --live-agreed");
}

/// Points that are dead carry no volts that could hurt; who reads them has been wrong about the supply.
void refuse_volts_at_dead_points(const Reading& reading, Dimension dimension) {
  constexpr double most_touchable_volts = 34.0;  // IEC 60335-1 (from memory)
  const auto* stated = std::get_if<StatedValue>(&reading.observed);
  const bool said_dead = reading.supply == Supply::proved_dead || reading.supply == Supply::unplugged;
  if (dimension != Dimension::voltage || stated == nullptr || !said_dead) return;
  if (std::abs(stated->value.value_in_si()) <= most_touchable_volts) return;
  throw InputError(printable(reading.label) + ": " + exact_text(stated->value) +
                   " at points that are said to be dead: STOP, they are live. Take the probes off, cut the supply and "
                   "prove it dead again; if it was read live, say --live");
}

/// Evidence numbers its error sources, of which each reading brings one or more, in a type that ends.
void refuse_too_many(std::span<const Reading> readings) {
  constexpr std::size_t of_meters = 64;  // scales and leads of all meters there are
  std::size_t own = of_meters;
  std::set<std::pair<std::string, std::string>> shared;
  for (const Reading& reading : readings) {
    own += reading.repeats.empty() ? 1 : 2;
    for (const Condition& condition : reading.conditions) {
      if (condition.error_source.empty())
        ++own;
      else
        shared.emplace(condition.id, condition.error_source);
    }
  }
  if (own + shared.size() > std::numeric_limits<SourceIndex>::max())
    throw InputError(std::to_string(readings.size()) +
                     " readings are more than one verdict can weigh; give a part of "
                     "them, or thin the series out");
}

/// The readings of `--series`, which may be given once: two series would not share their thermometer.
std::vector<Reading> series(const Arguments& arguments, const Descriptor& descriptor, const MeterSet& meters) {
  const auto given = arguments.options.find("--series");
  if (given == arguments.options.end()) return {};
  if (given->second.size() > 1) throw InputError("--series is given twice; check one series after the other");
  return read_series_file(given->second.front(), descriptor, &meters.named(""));
}

}  // namespace

void refuse_ohms_on_live_parts(std::span<const Reading> readings, const Descriptor& descriptor) {
  for (const Reading& reading : readings) refuse_ohms_on_a_live_part(reading, dimension_of(reading, descriptor));
}

void refuse_unsafe_readings(std::span<const Reading> readings, const Descriptor& descriptor, bool agreed) {
  for (const Reading& reading : readings) {
    refuse_unsafe(reading, dimension_of(reading, descriptor), agreed);
    refuse_volts_at_dead_points(reading, dimension_of(reading, descriptor));
  }
}

std::vector<Reading> gather_readings(const Arguments& arguments, const Descriptor& descriptor, const MeterSet& meters,
                                     UnitPreferences& units) {
  const TypedWords words = sort_reading_words(std::span(arguments.operands).subspan(1), descriptor);
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
  refuse_too_many(readings);
  const bool agreed = arguments.has("--live-agreed");
  if (agreed) take_agreement_as_live(descriptor, readings);
  refuse_unsafe_readings(readings, descriptor, agreed);
  return readings;
}

}  // namespace ohmwright::cli
