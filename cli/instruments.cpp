#include "instruments.hpp"

#include <algorithm>
#include <array>
#include <filesystem>
#include <optional>
#include <string_view>
#include <utility>
#include <variant>

#include <ohmwright/document/named_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "kind_files.hpp"

namespace ohmwright::cli {

namespace {

/// In the order in which they are asked: amperes of an appliance are read by the meter's own jack where they fit.
constexpr std::array<std::string_view, 3> shipped_by_default{"basic", "clamp", "insulation-tester"};

MeterSet named_meters(const Arguments& arguments, const Environment& environment) {
  const auto given = arguments.options.find("--meter");
  if (given == arguments.options.end()) return MeterSet({chosen_meter(environment, "")});
  std::vector<Meter> meters;
  for (const std::string& name_or_file : given->second) {
    Meter meter = chosen_meter(environment, name_or_file);
    for (const Meter& other : meters)
      if (other.name == meter.name)
        throw InputError("--meter names two instruments that are called " + ohmwright::quoted(meter.name) +
                         "; leave one out, or give them two names");
    meters.push_back(std::move(meter));
  }
  return MeterSet(std::move(meters));
}

const MeterFunction* function_for_reading(const Meter& meter, const Reading& reading, Dimension dimension) {
  return function_for(meter, dimension, dimension == Dimension::resistance && states_test_voltage(reading));
}

bool shows(const Meter& meter, const Reading& reading, Dimension dimension) {
  const MeterFunction* function = function_for_reading(meter, reading, dimension);
  if (function == nullptr) return false;
  if (const auto* stated = std::get_if<StatedValue>(&reading.observed))
    return range_for(*function, reading.range, stated->value) != nullptr;
  const auto* over = std::get_if<OverRange>(&reading.observed);
  const std::optional<AnyQuantity> end = over != nullptr && over->more_than ? over->more_than : reading.range;
  return !end || range_for(*function, end, *end) != nullptr;
}

/// A stated uncertainty stands in place of a meter's, and a contact and a watch have none.
bool needs_an_instrument(const Reading& reading, Dimension dimension) {
  const auto* stated = std::get_if<StatedValue>(&reading.observed);
  if (std::holds_alternative<ContactState>(reading.observed) || dimension == Dimension::duration) return false;
  return stated == nullptr || !stated->half_width;
}

}  // namespace

std::vector<std::pair<std::string, std::string>> meter_files(const Arguments& arguments,
                                                             const Environment& environment) {
  std::vector<std::pair<std::string, std::string>> files;
  const auto add = [&](const std::string& name_or_file) {
    const std::string path = meter_file(environment, name_or_file);
    const std::string what = is_path(name_or_file) ? "meter file " : "meter ";
    files.emplace_back(what + std::filesystem::path(path).stem().string(), path);
  };
  if (const auto given = arguments.options.find("--meter"); given != arguments.options.end())
    for (const std::string& name_or_file : given->second) add(name_or_file);
  for (const std::string_view name : shipped_by_default) add(std::string(name));
  return files;
}

Instruments::Instruments(const Arguments& arguments, const Environment& environment)
    : environment_(environment),
      meters_(named_meters(arguments, environment)),
      named_(meters_.all().size()),
      usual_assumed_(!arguments.has("--meter")) {}

bool Instruments::is_assumed(const std::string& name) const {
  if (name.empty()) return usual_assumed_;
  const auto all = meters_.all();
  for (std::size_t i = 0; i < all.size(); ++i)
    if (all[i].name == name) return i == 0 ? usual_assumed_ : i >= named_;
  return false;
}

void Instruments::choose(std::span<Reading> readings, const Descriptor& descriptor) {
  for (Reading& reading : readings) {
    const Dimension dimension = descriptor.measurands[index_of(descriptor.measurands, reading.measurand)].dimension;
    if (needs_an_instrument(reading, dimension)) choose_for(reading, dimension);
  }
}

void Instruments::choose_for(Reading& reading, Dimension dimension) {
  const auto named = meters_.all().first(named_);
  const bool names_its_own = !reading.meter.empty();
  bool read_by_none = true;
  for (std::size_t i = 0; i < named.size(); ++i) {
    if (names_its_own && named[i].name != reading.meter) continue;
    read_by_none = read_by_none && function_for_reading(named[i], reading, dimension) == nullptr;
    if (!shows(named[i], reading, dimension)) continue;
    if (!names_its_own && i > 0) reading.meter = named[i].name;
    return;
  }
  // A value past the ohms of the meter that was named cannot have been read with it; amperes are then a clamp's.
  if (read_by_none || dimension == Dimension::current) take_assumed(reading, dimension);
}

/// The shipped class that shows the reading, else the last that reads the quantity: its refusal names its range.
void Instruments::take_assumed(Reading& reading, Dimension dimension) {
  std::optional<Meter> reads_it;
  for (const std::string_view name : shipped_by_default) {
    const auto all = meters_.all();
    const auto named_alike = std::find_if(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(named_),
                                          [name](const Meter& meter) { return meter.name == name; });
    if (named_alike != all.begin() + static_cast<std::ptrdiff_t>(named_)) continue;
    Meter meter = chosen_meter(environment_, std::string(name));
    if (function_for_reading(meter, reading, dimension) == nullptr) continue;
    const bool fits = shows(meter, reading, dimension);
    reads_it = std::move(meter);
    if (fits) break;
  }
  if (!reads_it) return;
  reading.meter = reads_it->name;
  std::vector<Meter> meters(meters_.all().begin(), meters_.all().end());
  if (std::none_of(meters.begin(), meters.end(), [&](const Meter& m) { return m.name == reads_it->name; }))
    meters.push_back(*std::move(reads_it));
  meters_ = MeterSet(std::move(meters));
}

}  // namespace ohmwright::cli
