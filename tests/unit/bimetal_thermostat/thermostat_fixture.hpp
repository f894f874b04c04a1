#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>

#include "part/thermostat_ratings.hpp"
#include "rules/names.hpp"

// Thermostats, meters and readings for the tests of the kind.

namespace ohmwright::bimetal_thermostat::testing_support {

inline Temperature celsius(double t) { return Temperature::from_celsius(t); }
inline TemperatureDifference kelvin(double t) { return TemperatureDifference::from_value(t); }

/// Opens at 13 ± 3 °C, closes at -5 ± 5 °C, contact of 0.2 ohm at most.
ThermostatRatings plain_ratings();
/// The same of type 1.
ThermostatRatings type_1_ratings();
/// The same with a thermal link for 77 °C, on that many leads.
ThermostatRatings ratings_with_link(int leads);
/// Opens at 13 ± 3 °C, closes 18 ± 4 K below.
ThermostatRatings differential_ratings();

/// 6000 counts, 0.9 % + 3, leads 0.2 ± 0.05 ohm.
MeterSet basic_meter();
/// Milliohms, leads of 0 ohm.
MeterSet fine_meter();

/// How a reading is written in these tests.
struct Typed {
  std::string_view value;
  std::string_view at = {};
  Connection connection = Connection::lead_off;
  Supply supply = Supply::proved_dead;
  std::string_view measurand = "state";
  std::string_view thermometer = {};  ///< name of the temperature's error
  std::string_view load = {};
  std::string_view ramp = {};
  std::string_view lag = {};
};

/// Readings of one thermometer, "C" closed and "O" open at degrees Celsius ± `half_width`: a series in time.
struct Step {
  char state;
  double celsius;
};
std::vector<Reading> series(const std::vector<Step>& steps, double half_width = 0.5);

const Descriptor& descriptor();
std::vector<Reading> readings_of(const std::vector<Typed>& typed);

Findings judge(const ThermostatRatings* ratings, const std::vector<Reading>& readings,
               const MeterSet& meters = basic_meter());
Findings judge(const ThermostatRatings& ratings, const std::vector<Typed>& typed,
               const MeterSet& meters = basic_meter());
/// With nothing known of the part.
Findings judge_unrated(const std::vector<Typed>& typed);
Verdict verdict_on(const ThermostatRatings& ratings, const std::vector<Reading>& readings);

const Finding& finding_of(const Findings& findings, RuleIndex rule);
Outcome outcome_of(const Findings& findings, RuleIndex rule);
/// Id of the text that a rule chose.
std::string_view text_of(const Findings& findings, RuleIndex rule);
std::vector<std::string> advice_of(const Findings& findings);
const Advice& advice_named(const Findings& findings, AdviceIndex index);

/// A named argument as a number in SI.
template <class Told>
double argument(const Told& told, std::string_view name) {
  for (const FindingArgument& argument : told.arguments) {
    if (argument.name != name) continue;
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) return quantity->value_in_si();
    return std::get<double>(argument.value);
  }
  throw std::logic_error("no argument " + std::string(name));
}

}  // namespace ohmwright::bimetal_thermostat::testing_support
