#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "heater_kind.hpp"
#include "part/heater_ratings.hpp"
#include "rules/names.hpp"

// Heaters, meters and readings for the tests of the kind.

namespace ohmwright::heater::testing_support {

/// Ratings as they stand in a file. Throws when they are refused.
inline HeaterRatings ratings(const std::string& json) {
  std::vector<Problem> problems;
  const Document document = parse_document(json, "ratings");
  const auto read = read_ratings(document.root, problems);
  if (!read) throw std::runtime_error(problems.empty() ? "refused" : problems.front().text);
  return *read;
}

inline std::vector<Problem> problems_of(const std::string& json) {
  std::vector<Problem> problems;
  const Document document = parse_document(json, "ratings");
  (void)read_ratings(document.root, problems);
  return problems;
}

/// 450 W at 120 V of unknown wire: 28.22 to 35.56 ohm cold, 405 to 472.5 W.
inline HeaterRatings plain() { return ratings(R"({"voltage": "120 V", "power": "450 W"})"); }
/// 600 W at 120 V, two equal elements: 24 ohm, 48 with one open.
inline HeaterRatings pair() { return ratings(R"({"voltage": "120 V", "power": "600 W", "elements": 2})"); }

/// 6000 counts, 0.9 % + 3, leads 0.2 ± 0.05 ohm.
MeterSet basic_meter();

/// How a reading is written in these tests.
struct Typed {
  std::string_view value;
  std::string_view measurand = "resistance";
  std::string_view at = {};
  std::string_view line = {};
  std::string_view test = {};
  Connection connection = Connection::lead_off;
  Supply supply = Supply::proved_dead;
  Moisture moisture = Moisture::unstated;
  std::string_view range = {};
};

/// Amperes around one of its own leads.
inline Typed clamp(std::string_view amperes, std::string_view line) {
  return {.value = amperes, .measurand = "current", .line = line, .supply = Supply::live};
}
/// Watts of a plug-in meter.
inline Typed plug(std::string_view watts, std::string_view line) {
  return {.value = watts, .measurand = "power", .line = line, .supply = Supply::live};
}
/// Volts across its own leads.
inline Typed across(std::string_view volts) {
  return {.value = volts, .measurand = "terminals", .supply = Supply::live};
}
/// To the frame, with a 500 V tester.
inline Typed tester(std::string_view megohms, Moisture moisture = Moisture::unstated) {
  return {.value = megohms, .measurand = "insulation", .test = "500 V", .moisture = moisture};
}
/// To the frame, with the ohms of a multimeter.
inline Typed ohmmeter(std::string_view megohms) { return {.value = megohms, .measurand = "insulation"}; }
inline Typed in_circuit_ohms(std::string_view value, std::string_view measurand = "resistance") {
  return {.value = value, .measurand = measurand, .connection = Connection::in_circuit};
}

const Descriptor& descriptor();
Evidence evidence_of(const std::vector<Typed>& typed, const MeterSet& meters = basic_meter());

/// The findings of a part on the readings; null ratings: nothing is known of it.
Findings judge(const HeaterRatings* ratings, const std::vector<Typed>& typed);
Findings judge(const HeaterRatings& ratings, const std::vector<Typed>& typed);
Outcome verdict_on(const HeaterRatings& ratings, const std::vector<Typed>& typed);

const Finding& finding_of(const Findings& findings, RuleIndex rule);
Outcome outcome_of(const Findings& findings, RuleIndex rule);
/// Id of the text that a rule chose.
std::string_view text_of(const Findings& findings, RuleIndex rule);
std::vector<std::string> advice_of(const Findings& findings);

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

}  // namespace ohmwright::heater::testing_support
