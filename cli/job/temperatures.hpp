#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/job/service_call.hpp>
#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/quantity/unit_preferences.hpp>

#include "job/search.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

// A temperature that was said of a zone is that of the readings taken under it: from then on until it was thawed, a
// part was replaced or mended, a set-up or a forced defrost changed it, or another visit began.

/// The moment behind all that a call says so far; with a stated time (`time_text`), that time.
job::Told moment_now(const job::ServiceCall& call, const std::string& happened = {});

/// The words of a call for `locate`, of temperatures those that hold at that moment.
Arguments words_at(const job::ServiceCall& call, const Appliance& appliance, const job::Told& moment,
                   const TimeSpan& span = {});

/// The site at that moment. Units that were typed go to `units`.
locate::Site site_at(const job::ServiceCall& call, const Appliance& appliance, const job::Told& moment,
                     UnitPreferences& units);

/// What a reading was stated with (`MeasuredValue::zones`): ZONE=TEMPERATURE each.
std::vector<SetTemperature> stated_with(const std::vector<std::string>& words, const Appliance& appliance,
                                        UnitPreferences& units);

/// The set-up of a reading that was taken when the site was `then`, beside readings that are taken as it is `now`:
/// where the two differ, or a temperature was stated with the reading, one of its own (`circumstances_of`).
std::optional<std::size_t> set_up_then(const locate::Measurement& measurement, const locate::Site& then,
                                       const locate::Site& now, std::vector<SetTemperature> stated,
                                       Appliance& appliance);

}  // namespace ohmwright::cli
