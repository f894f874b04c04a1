#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "part/wiring_ratings.hpp"
#include "rules/names.hpp"
#include "wiring_kind.hpp"

// Leads, meters and readings for the tests of the kind.

namespace ohmwright::wiring::testing_support {

/// Ratings as they stand in a file. Throws when they are refused.
inline WiringRatings ratings(const std::string& json) {
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

/// 0.1 ohm at most, 10 A.
inline WiringRatings splice() {
  return ratings(R"({"form": "splice", "contact_resistance": "0.1 ohm", "rated_current": "10 A"})");
}
/// 1 m of 1 mm², 0.12 ohm at most at 20 °C.
inline WiringRatings lead() {
  return ratings(R"({"form": "lead", "cross_section": "1", "length": "1 m", "contact_resistance": "0.1 ohm"})");
}
/// The same, of a length that nobody knows.
inline WiringRatings lead_without_length() {
  return ratings(R"({"form": "lead", "cross_section": "1", "contact_resistance": "0.1 ohm"})");
}
/// 50 m of 0.5 mm² on a drum: 2.105 ohm at most, more than what test leads leave open.
inline WiringRatings drum() {
  return ratings(R"({"form": "lead", "cross_section": "0.5", "length": "50 m", "contact_resistance": "0.1 ohm"})");
}

/// 6000 counts, 0.9 % + 3, leads 0.2 ± 0.05 ohm.
MeterSet basic_meter();

/// How a reading is written in these tests.
struct Typed {
  std::string_view value;
  std::string_view measurand = "resistance";
  std::string_view at = {};
  std::string_view load = {};
  std::string_view test = {};
  std::string_view length = {};
  std::string_view probes = {};
  Connection connection = Connection::lead_off;
  Supply supply = Supply::proved_dead;
  Moisture moisture = Moisture::unstated;
  std::string_view range = {};
};

/// Volts across it while so many amperes flow.
inline Typed across(std::string_view volts, std::string_view amperes = "3.75 A +- 0.02 A") {
  return {
      .value = volts, .measurand = "drop", .load = amperes, .connection = Connection::unstated, .supply = Supply::live};
}
inline Typed clipped(std::string_view ohms) { return {.value = ohms, .probes = "clipped"}; }
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
Findings judge(const WiringRatings* ratings, const std::vector<Typed>& typed);
Findings judge(const WiringRatings& ratings, const std::vector<Typed>& typed);
Outcome verdict_on(const WiringRatings& ratings, const std::vector<Typed>& typed);

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

}  // namespace ohmwright::wiring::testing_support
