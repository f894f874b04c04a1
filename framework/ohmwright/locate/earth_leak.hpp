#pragma once

#include <optional>
#include <span>
#include <vector>

#include <ohmwright/locate/diagnosis.hpp>

namespace ohmwright::locate {

/// Whether something is read between the protective earth and a conductor: insulation, or what is left of it.
bool is_to_earth(const Appliance& appliance, const Measurement& measurement);

/// Below which ohms it is not to be energised [on the scale of ohms]: to the protective earth a megohm, between the two
/// sides of the supply what blows the breaker. Nothing for what is read anywhere else.
std::optional<double> least_to_energise(const Appliance& appliance, const Measurement& measurement);

/// Whether a reading of ohms finds a way to the protective earth where insulation belongs: energised, it may make the
/// frame live. Below `least_to_energise` it does, and so does a class of
/// readings of a plan that begins below it; that it does not proves no insulation.
bool tells_of_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter);

bool any_tells_of_leak(const Appliance& appliance, std::span<const TakenReading> readings, const Meter& meter);

/// Whether a reading of ohms between the two sides of the supply is so low that plugging it in blows the breaker.
bool tells_of_short(const Appliance& appliance, const TakenReading& reading, const Meter& meter);

/// Whether a sign that is there speaks of leakage, a short or burning: it is not energised before its insulation was
/// read.
bool speaks_of_leak_or_burning(const Signs& signs);
/// The same of those that burn or overheat alone.
bool speaks_of_burning(const Signs& signs);

/// By index into `FaultList::faults`, whether the fault joins a conductor to the protective earth.
std::vector<bool> faults_that_leak(const FaultList& faults, const Site& site);

/// Probability that one of these is there [0…1].
double probability_of_leak(const FaultList& faults, const std::vector<bool>& leaks, const Diagnosis& diagnosis);

/// What is known of the insulation beside the readings at hand.
struct Insulation {
  bool was_found_good = false;       ///< by what was read elsewhere, of all that is energised
  double probability_of_leak = 1.0;  ///< that is left, anywhere in the appliance [0…1]
};

/// Whether it may be plugged in by all that is known: no leak and no short was read, and where a sign speaks of either,
/// insulation to the protective earth was read and what is believed of a leak anywhere is next to nothing. A reading
/// clears what hangs on its conductor; a heater behind an open thermostat is not seen from the wire that feeds it, but
/// gets the line at the next defrost.
bool may_be_energised(const Appliance& appliance, std::span<const TakenReading> readings, const Signs& signs,
                      const Insulation& insulation, const Meter& meter);

}  // namespace ohmwright::locate
