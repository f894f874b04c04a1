#include "job/temperatures.hpp"

#include <algorithm>
#include <limits>
#include <utility>

#include <ohmwright/appliance/appliance_readings.hpp>
#include <ohmwright/quantity/error.hpp>

#include "locate/words.hpp"

namespace ohmwright::cli {

namespace {

constexpr std::string_view after_every_time = "~";  // sorts behind every `time_text`

/// The set-up of the file that a reading of the book was taken after; null for none.
const SetUp* set_up_of(const job::MeasuredValue& reading, const Appliance& appliance) {
  const std::string place = reading.place_read();
  const std::size_t at = place.find('@');
  if (at == std::string::npos) return nullptr;
  const auto found = std::find_if(appliance.set_ups.begin(), appliance.set_ups.end(),
                                  [&](const SetUp& set_up) { return set_up.id == place.substr(at + 1); });
  return found == appliance.set_ups.end() ? nullptr : &*found;
}

/// What was said of temperatures, and what ends it.
class SaidTemperatures {
 public:
  SaidTemperatures(const job::ServiceCall& call, const Appliance& appliance)
      : call_(call), appliance_(appliance), unsaid_(locate::site_not_measured(appliance, false)) {}

  bool hold(const job::EvidenceWord& word, const job::Told& moment) const {
    if (word.visit != moment.visit) return false;
    const std::size_t zone = typed_zone(word.word, appliance_).zone;
    // A room stays as warm as it is, whatever is done to the appliance: said later, it was so before, too.
    if (!unsaid_.not_measured[zone]) return true;
    if (!word.happened_before(moment)) return false;
    const auto is_between = [&](const job::Told& told) {
      return word.happened_before(told) && told.happened_before(moment);
    };
    return std::none_of(call_.replaced.begin(), call_.replaced.end(), is_between) &&
           std::none_of(
               call_.evidence.begin(), call_.evidence.end(),
               [&](const job::EvidenceWord& other) { return other.option == "--thawed" && is_between(other); }) &&
           std::none_of(call_.checks.begin(), call_.checks.end(),
                        [&](const job::Check& check) {
                          return check.form == job::CheckForm::forced_defrost && is_between(check);
                        }) &&
           std::none_of(call_.readings.begin(), call_.readings.end(), [&](const job::MeasuredValue& reading) {
             return is_between(reading) && changes(set_up_of(reading, appliance_), zone);
           });
  }

 private:
  /// What needs the supply heats, too: a forced defrost.
  static bool changes(const SetUp* set_up, std::size_t zone) {
    return set_up != nullptr &&
           (set_up->live || std::any_of(set_up->temperatures.begin(), set_up->temperatures.end(),
                                        [zone](const SetTemperature& row) { return row.zone == zone; }));
  }

  const job::ServiceCall& call_;
  const Appliance& appliance_;
  locate::Site unsaid_;
};

bool is_same(const locate::Site& a, const locate::Site& b, std::size_t zone) {
  return a.zone_temperatures[zone].value == b.zone_temperatures[zone].value &&
         a.zone_temperatures[zone].half_width == b.zone_temperatures[zone].half_width &&
         a.not_measured[zone] == b.not_measured[zone];
}

}  // namespace

job::Told moment_now(const job::ServiceCall& call, const std::string& happened) {
  return {{},
          happened.empty() ? std::string(after_every_time) : happened,
          happened.empty() ? call.visits : call.visit_at(happened),
          std::numeric_limits<std::size_t>::max()};
}

Arguments words_at(const job::ServiceCall& call, const Appliance& appliance, const job::Told& moment,
                   const TimeSpan& span) {
  Arguments words = words_for(appliance, locate_words_of(call, span));
  const std::vector<std::string> of_zones = std::move(words.options["--zone"]);
  words.options.erase("--zone");
  const SaidTemperatures said(call, appliance);
  for (const job::EvidenceWord& word : call.evidence)
    if (word.option == "--zone" && std::find(of_zones.begin(), of_zones.end(), word.word) != of_zones.end() &&
        said.hold(word, moment))
      words.options["--zone"].push_back(word.word);
  return words;
}

locate::Site site_at(const job::ServiceCall& call, const Appliance& appliance, const job::Told& moment,
                     UnitPreferences& units) {
  return typed_site(words_at(call, appliance, moment), appliance, units);
}

std::vector<SetTemperature> stated_with(const std::vector<std::string>& words, const Appliance& appliance,
                                        UnitPreferences& units) {
  std::vector<SetTemperature> stated;
  for (const std::string& word : words) {
    const SaidOfZone said = typed_zone(word, appliance);
    if (!said.temperature) throw InputError("a reading is stated with a temperature, got " + word);
    units.prefer(said.temperature->unit);
    stated.push_back({said.zone, *said.temperature});
  }
  return stated;
}

std::optional<std::size_t> set_up_then(const locate::Measurement& measurement, const locate::Site& then,
                                       const locate::Site& now, std::vector<SetTemperature> stated,
                                       Appliance& appliance) {
  const locate::Site after_then = locate::after_set_up(appliance, then, measurement.set_up);
  const locate::Site after_now = locate::after_set_up(appliance, now, measurement.set_up);
  StatedReading reading;
  reading.test_point = measurement.test_point;
  reading.set_up = measurement.set_up;
  reading.temperatures = std::move(stated);
  for (std::size_t zone = 0; zone < appliance.zones.size(); ++zone) {
    const bool is_stated = std::any_of(reading.temperatures.begin(), reading.temperatures.end(),
                                       [zone](const SetTemperature& row) { return row.zone == zone; });
    if (!is_stated && !is_same(after_then, after_now, zone))
      reading.temperatures.push_back(
          {zone, after_then.zone_temperatures[zone], {}, 0.0, after_then.not_measured[zone]});
  }
  return circumstances_of(reading, appliance);
}

}  // namespace ohmwright::cli
