// A reading in the conversation, with the temperature that it is judged by.

#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/message.hpp>

#include "job_actions.hpp"
#include "job_appliance.hpp"
#include "job_reading_judged.hpp"
#include "job_search.hpp"
#include "job_talk.hpp"
#include "locate_readings.hpp"
#include "locate_words.hpp"
#include "refusal_text.hpp"

namespace ohmwright::cli {

void CallTalk::read_at(const std::string& place, std::vector<std::pair<std::string, std::string>> options) {
  const std::optional<std::string> value =
      typed_value(say_(OHMWRIGHT_TEXT("What it shows (such as 32.1, 8k, OL; an empty line goes back)")));
  if (!value) return;
  const Appliance appliance = appliance_of(job_.call, environment_);
  if (part_named(appliance, place)) {
    chosen_ = 0;
    act(read_in_talk, {place, *value}, std::move(options));
    return;
  }
  const std::string word = place + "=" + *value;
  if (!ask_temperature(word)) return;
  chosen_ = 0;
  act(read_in_talk, {word}, std::move(options));
}

bool CallTalk::ask_temperature(const std::string& word) {
  const Appliance appliance = appliance_of(job_.call, environment_);
  const Meter meter = meter_of_call(job_.call, environment_);
  UnitPreferences units;
  std::optional<std::size_t> zone;
  try {
    const locate::Site site = typed_site(locate_words_of(job_.call), appliance, units);
    const locate::TakenReading reading = typed_test_reading(word, TypedReadings{appliance, meter, units});
    zone = zone_to_measure(appliance, site, reading, job_.call, arguments_, environment_);
  } catch (const Error& error) {
    if (error.category() != ErrorCategory::input) throw;
    return true;  // who takes the reading says what is wrong with it
  }
  while (zone) {
    const std::optional<std::string> answer = typed_value(
        say_(OHMWRIGHT_TEXT("Temperature at the part, {zone} (such as 4C; 1: not measured; an empty line goes back)"),
             {{"zone", appliance.zones[*zone].title}}));
    if (!answer) return false;
    if (*answer == "1") return true;
    Arguments said;
    const std::string of_zone = appliance.zones[*zone].id + "=" + *answer;
    said.options["--zone"] = {of_zone};
    try {
      (void)typed_site(said, appliance, units);
      sign("--zone", of_zone);
      return true;
    } catch (const Error& error) {
      if (error.category() != ErrorCategory::input) throw;
      line(refusal_text(error));
    }
  }
  return true;
}

}  // namespace ohmwright::cli
