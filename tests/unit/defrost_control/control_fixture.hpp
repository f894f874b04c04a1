#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/document/document.hpp>
#include <ohmwright/quantity/stated_value.hpp>

#include "control_kind.hpp"
#include "part/control_ratings.hpp"
#include "rules/names.hpp"

// Controls, meters and readings for the tests of the kind.

namespace ohmwright::defrost_control::testing_support {

/// Ratings as they stand in a file. Throws when they are refused.
ControlRatings ratings(const std::string& json);
std::vector<Problem> problems_of(const std::string& json);

/// 120 V, 60 Hz, motor of 4 to 12 kohm, contacts of 0.2 ohm at most, 20 to 30 min after 6 to 12 h of compressor time.
ControlRatings timer();
/// 230 V, a relay, 45 min at most after 6 to 96 h of compressor time.
ControlRatings board();
/// The same with a sensor: 5 V, 10 %, 10 kohm of its own.
ControlRatings sensor_board();
/// 230 V, a solid-state switch.
ControlRatings solid_state_board();

/// How a reading is written in these tests. Live readings need no connection.
struct Typed {
  std::string_view measurand;
  std::string_view value;
  std::string_view position = {};
  std::string_view at = {};
  std::string_view line = {};
  std::string_view load = {};
  std::string_view hertz = {};
  std::string_view share = {};
  std::string_view stand_in = {};
  bool stood = false;
  bool shaft_stood = false;
  Connection connection = Connection::lead_off;
  Supply supply = Supply::proved_dead;
  std::string_view range = {};
};

inline Typed contact(std::string_view which, std::string_view value, std::string_view position,
                     Connection connection = Connection::lead_off) {
  return {.measurand = which, .value = value, .position = position, .connection = connection};
}
inline Typed output_at(std::string_view position, std::string_view value, std::string_view load = {},
                       std::string_view line = "120 V +- 0.5 V") {
  return {.measurand = "output",
          .value = value,
          .position = position,
          .line = line,
          .load = load,
          .connection = Connection::unstated,
          .supply = Supply::live};
}
inline Typed across(std::string_view value, std::string_view load) {
  return {
      .measurand = "drop", .value = value, .load = load, .connection = Connection::unstated, .supply = Supply::live};
}
inline Typed at_sensor(std::string_view value, std::string_view stand_in = {}) {
  return {.measurand = "sensor_supply",
          .value = value,
          .stand_in = stand_in,
          .connection = Connection::unstated,
          .supply = Supply::live};
}

const Descriptor& descriptor();
Evidence evidence_of(const std::vector<Typed>& typed);

/// The findings of a part on the readings; null ratings: nothing is known of it.
Findings judge(const ControlRatings* ratings, const std::vector<Typed>& typed);
Findings judge(const ControlRatings& ratings, const std::vector<Typed>& typed);
Outcome verdict_on(const ControlRatings& ratings, const std::vector<Typed>& typed);

const Finding& finding_of(const Findings& findings, RuleIndex rule);
Outcome outcome_of(const Findings& findings, RuleIndex rule);
/// Id of the text that a rule chose.
std::string_view text_of(const Findings& findings, RuleIndex rule);
std::vector<std::string> advice_of(const Findings& findings);

}  // namespace ohmwright::defrost_control::testing_support
