#include "job_search.hpp"

#include <algorithm>
#include <array>
#include <limits>

#include <ohmwright/appliance/appliance_readings.hpp>
#include <ohmwright/document/reading_record.hpp>
#include <ohmwright/job/closing.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

#include "job_appliance.hpp"
#include "job_reading_judged.hpp"
#include "kind_files.hpp"
#include "locate_words.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::string_view out_of_reach = "--cannot-reach";
/// What holds of the place and the instruments, whatever is repaired.
constexpr std::array<std::string_view, 4> lasting_words{"--meter", "--zone", "--state", out_of_reach};

bool lasts(std::string_view option) {
  return std::find(lasting_words.begin(), lasting_words.end(), option) != lasting_words.end();
}

std::string meter_of(const job::ServiceCall& call) {
  std::string meter;
  for (const job::EvidenceWord& word : call.evidence)
    if (word.option == "--meter") meter = word.word;
  return meter;
}

/// A reading of a part as one at the test point that reads it alone, at the temperature it was read at.
std::optional<locate::TakenReading> as_test_reading(const job::MeasuredValue& value, Appliance& appliance) {
  if (value.part.empty() || value.records.empty()) return std::nullopt;
  for (const Reading& reading : readings_from_record(value.records)) {
    const std::optional<std::size_t> point = test_point_of_part(appliance, value.part, reading.measurand);
    if (!point || reading.connection == Connection::in_circuit || reading.supply == Supply::live) continue;
    StatedReading stated;
    stated.test_point = *point;
    stated.observed = reading.observed;
    const PlacedPart& part = appliance.parts[*part_named(appliance, value.part)];
    for (const Condition& condition : reading.conditions)
      if (condition.id == "part_temperature" && part.zone) stated.temperatures.push_back({*part.zone, condition.value});
    const std::optional<std::size_t> set_up = circumstances_of(stated, appliance);
    locate::TakenReading taken{{*point, set_up}, reading.observed, appliance.test_points[*point].id};
    taken.range = reading.range;
    return taken;
  }
  return std::nullopt;
}

/// Every fault of the parts that were replaced, as weights that take it out of the search.
void take_new_parts_for_good(const job::ServiceCall& call, const Appliance& appliance,
                             locate::SearchSettings& settings) {
  for (const job::ReplacedPart& replaced : call.replaced) {
    const std::optional<std::size_t> part = part_named(appliance, replaced.part);
    if (!part) continue;
    for (const FaultModeDescriptor& mode : appliance.parts[*part].kind->descriptor().fault_modes)
      settings.weights[replaced.part + "." + std::string(mode.id)] = 0.0;
  }
}

bool insulation_is_good(const job::ServiceCall& call) {
  return job::obstacles(call).empty() &&
         std::any_of(call.readings.begin(), call.readings.end(),
                     [](const job::MeasuredValue& reading) { return !reading.safety.empty(); });
}

}  // namespace

Meter meter_of_call(const job::ServiceCall& call, const Environment& environment) {
  return chosen_meter(environment, meter_of(call));
}

Arguments locate_words_of(const job::ServiceCall& call, std::size_t from, std::size_t to) {
  Arguments words;
  for (const job::EvidenceWord& word : call.evidence) {
    if (word.option.substr(0, 2) != "--" || (!lasts(word.option) && (word.order < from || word.order >= to))) continue;
    std::vector<std::string>& values = words.options[word.option];
    values.push_back(word.word);
  }
  return words;
}

JobSearch::JobSearch(const job::ServiceCall& call, const Arguments& typed, const Environment& environment, Reach reach)
    : appliance_(appliance_of(call, environment)), meter_(meter_of_call(call, environment)) {
  std::size_t from = 0;
  std::size_t to = std::numeric_limits<std::size_t>::max();
  if (!call.replaced.empty() && reach == Reach::now) from = call.replaced.back().order;
  if (!call.replaced.empty() && reach == Reach::diagnosis) to = call.replaced.front().order;
  const Arguments words = locate_words_of(call, from, to);
  locate::SearchSettings settings = typed_settings(words, appliance_);
  settings.steps.allow_live = typed.has("--allow-live") || call.agreed_to_live_work();
  settings.steps.insulation_is_good = insulation_is_good(call);
  if (reach == Reach::now) take_new_parts_for_good(call, appliance_, settings);
  add_readings(call, reach, from, to);
  search_.emplace(appliance_, meter_, typed_site(words, appliance_, units_), settings);
  for (const locate::TakenReading& reading : readings_) search_->add(reading);
  search_->signs() = typed_signs(words, appliance_);
  const auto unreachable = words.options.find(out_of_reach);
  if (unreachable != words.options.end())
    for (const std::string& id : unreachable->second)
      if (const std::optional<std::size_t> point = test_point_named(appliance_, id)) search_->cannot_reach(*point);
  search_->think();
}

void JobSearch::add_readings(const job::ServiceCall& call, Reach reach, std::size_t from, std::size_t to) {
  if (reach == Reach::signs) return;
  for (const job::MeasuredValue& value : call.readings) {
    if (value.order < from || value.order >= to) continue;
    if (!value.word.empty())
      readings_.push_back(typed_test_reading(value.word, TypedReadings{appliance_, meter_, units_}));
    else if (std::optional<locate::TakenReading> reading = as_test_reading(value, appliance_))
      readings_.push_back(*std::move(reading));
  }
}

}  // namespace ohmwright::cli
