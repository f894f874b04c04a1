#include "check_readings.hpp"

#include <algorithm>
#include <iterator>
#include <span>
#include <string>
#include <string_view>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/document/readings_document.hpp>
#include <ohmwright/document/series_document.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
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

bool says(std::span<const CircumstanceWord> said, std::string_view option) {
  return std::any_of(said.begin(), said.end(), [option](const CircumstanceWord& one) { return one.option == option; });
}

/// What was said of one measurand alone and found none: dropped without a word it would seem to count.
void refuse_what_holds_for_none(const TypedWords& words, const Descriptor& descriptor,
                                std::span<const Reading> readings) {
  for (const ConditionDescriptor& condition : descriptor.conditions) {
    const auto is_its_own = [&condition](const Reading& reading) {
      return says_something_of(condition, reading.measurand);
    };
    if (condition.of.empty() || std::any_of(readings.begin(), readings.end(), is_its_own)) continue;
    const bool typed = says(words.said_for_all, condition.option) ||
                       std::any_of(words.readings.begin(), words.readings.end(), [&](const ReadingWords& reading) {
                         return says(reading.circumstances, condition.option);
                       });
    if (!typed) continue;
    throw InputError(
        "--" + std::string(condition.option) + " holds for " + listed(condition.of) +
        ", and none was given; leave it out, or write what was read: " + std::string(condition.of.front()) + "=…");
  }
}

/// A part that is fed has its leads on; what was said of the ohms beside does not hold for it.
void forget_connection_of_live_readings(std::span<Reading> readings) {
  for (Reading& reading : readings)
    if (reading.supply == Supply::live) reading.connection = Connection::unstated;
}

}  // namespace

std::vector<Reading> gather_readings(const Arguments& arguments, const Descriptor& descriptor, const MeterSet& meters,
                                     UnitPreferences& units, const std::optional<Reading>& from_instrument) {
  const TypedWords words =
      sort_reading_words(std::span(arguments.operands).subspan(1), descriptor, arguments.option_names);
  std::vector<Reading> readings = make_readings(words.readings, descriptor, meters.named(""), units);
  const auto add = [&](std::vector<Reading> more) {
    prefer_units_of(more, units);
    apply_to_all(words.said_for_all, descriptor, units, more);
    std::move(more.begin(), more.end(), std::back_inserter(readings));
  };
  if (arguments.has("--readings"))
    add(read_readings(read_document_to_check(arguments.value("--readings")), descriptor, &meters));
  add(series(arguments, descriptor, meters));
  if (from_instrument) add({*from_instrument});
  if (readings.empty())
    throw InputError(
        "no reading was given; type what the meter showed, such as 11.0k or OL, or name a file with --readings or "
        "--series");
  refuse_what_holds_for_none(words, descriptor, readings);
  const bool agreed = arguments.has("--live-agreed");
  if (agreed) take_agreement_as_live(descriptor, readings);
  refuse_unsafe_readings(readings, descriptor, agreed);
  forget_connection_of_live_readings(readings);
  return readings;
}

}  // namespace ohmwright::cli
