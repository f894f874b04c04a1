// A reading in the conversation, with the temperature that it is judged by.

#include "job/talk_reading.hpp"

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>

#include "job/actions.hpp"
#include "job/appliance.hpp"
#include "job/reading_judged.hpp"
#include "job/search.hpp"
#include "job/temperatures.hpp"
#include "locate/readings.hpp"
#include "locate/words.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

void TalkReading::read_at(const std::string& place, const std::string& value, const TalkedJob::Options& options) {
  if (!value.empty() && read_once(place, value, options)) return;
  while (!screen_.has_stopped()) {
    const std::optional<std::string> typed =
        screen_.typed_value(say_(OHMWRIGHT_TEXT("What it shows (such as 32.1, 8k, OL; an empty line goes back)")));
    if (!typed || read_once(place, *typed, options)) return;
  }
}

bool TalkReading::read_once(const std::string& place, const std::string& value, const TalkedJob::Options& options) {
  const Appliance appliance = appliance_of(job_.call(), environment_);
  const bool of_part = part_named(appliance, place).has_value();
  const std::string word = place + "=" + value;
  if (!of_part && !ask_temperature(word)) return true;
  const bool is_taken =
      of_part ? job_.act(read_in_talk, {place, value}, options) : job_.act(read_in_talk, {word}, options);
  return is_taken;
}

bool TalkReading::ask_temperature(const std::string& word) {
  const Appliance appliance = appliance_of(job_.call(), environment_);
  const Meter meter = meter_of_call(job_.call(), environment_);
  UnitPreferences units;
  std::optional<ZoneToMeasure> hangs_on;
  std::string prompt;
  try {
    const locate::Site site = site_at(job_.call(), appliance, moment_now(job_.call()), units);
    const locate::TakenReading reading = typed_test_reading(word, TypedReadings{appliance, meter, units});
    hangs_on = zone_to_measure(appliance, site, reading, job_.call(), job_.arguments(), environment_);
    if (hangs_on) prompt = question_of_temperature(*hangs_on, appliance, site, units);
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    return true;  // who takes the reading says what is wrong with it
  }
  while (hangs_on) {
    const std::optional<std::string> answer = screen_.typed_value(prompt);
    if (!answer) return false;
    const bool was_said = hangs_on->form == ZoneToMeasure::Form::said_before;
    if ((was_said && *answer == "2") || (!was_said && *answer == "1")) return true;
    const std::string of_zone = appliance.zones[hangs_on->zone].id + "=" + (*answer == "1" ? "unknown" : *answer);
    try {
      (void)typed_zone(of_zone, appliance);
      job_.sign("--zone", of_zone);
      return true;
    } catch (const Error& error) {
      if (error.category() != ErrorCategory::input) throw;
      screen_.line(refusal_text(error));
    }
  }
  return true;
}

std::string TalkReading::question_of_temperature(const ZoneToMeasure& hangs_on, const Appliance& appliance,
                                                 const locate::Site& site, const UnitPreferences& units) const {
  const FindingArgument zone{"zone", appliance.zones[hangs_on.zone].title};
  switch (hangs_on.form) {
    case ZoneToMeasure::Form::said_before:
      return say_(OHMWRIGHT_TEXT("Temperature at the part, {zone} (such as 4C, or \"4C ± 0.5K\"; 1: not measured; 2: "
                                 "still {temperature}; an empty line goes back)"),
                  {zone, {"temperature", Sentences(units).quantity(site.zone_temperatures[hangs_on.zone].value)}});
    case ZoneToMeasure::Form::as_warm_as:
      return say_(OHMWRIGHT_TEXT("Temperature of the {zone} (such as 24C, or \"24C ± 1K\"; 1: not measured; an empty "
                                 "line goes back)"),
                  {zone});
    case ZoneToMeasure::Form::not_measured:
      break;
  }
  return say_(OHMWRIGHT_TEXT("Temperature at the part, {zone} (such as 4C, or \"4C ± 0.5K\"; 1: not measured; an empty "
                             "line goes back)"),
              {zone});
}

}  // namespace ohmwright::cli
