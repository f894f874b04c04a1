#pragma once

#include <optional>
#include <string>
#include <vector>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/quantity/observed.hpp>
#include <ohmwright/quantity/stated_value.hpp>

namespace ohmwright {

/// How the part was connected when it was read.
enum class Connection : std::uint8_t {
  unstated,
  lead_off,    ///< at least one lead of the part lifted: no parallel path
  in_circuit,  ///< still connected: a parallel path can only lower a resistance
};

/// Whether the part was wet when it was read.
enum class Moisture : std::uint8_t { unstated, dry, wet };

/// Whether the circuit around the part had power. Nothing is assumed silently: `unstated` is a state of its own.
enum class Supply : std::uint8_t { unstated, unplugged, proved_dead, live };

/// A circumstance of a reading: the part's temperature, the line voltage.
struct Condition {
  std::string id;  ///< as declared by the kind: "part_temperature", "line_voltage"
  StatedValue value;
  /// Name of the error that the value carries. Conditions of the same name share it: several readings in one ice bath
  /// are wrong together. Empty: an error of its own.
  std::string error_source = {};
  bool uncertainty_assumed = false;  ///< no uncertainty was stated: the kind's default was taken
};

/// A state that the part was in when it was read, as declared by the kind: position = defrost.
struct NamedState {
  std::string state;
  std::string value;

  friend bool operator==(const NamedState&, const NamedState&) = default;
};

/// One value off an instrument with its circumstances.
struct Reading {
  std::string label = {};  ///< how messages call it: "reading 2"
  std::string measurand;   ///< as declared by the kind: "resistance", "speed"
  Observed observed;
  /// Further values of the same quantity read again under the same circumstances, SI; their scatter is estimated.
  std::vector<double> repeats = {};
  std::vector<Condition> conditions = {};
  Connection connection = Connection::unstated;
  Moisture moisture = Moisture::unstated;
  Supply supply = Supply::unstated;
  std::vector<NamedState> states = {};
  std::string meter = {};                 ///< name of the meter; empty: the call's default meter
  std::optional<AnyQuantity> range = {};  ///< range that was set; empty: the smallest that shows the value
  /// Resistance that the shorted probes showed, 0 of a meter that was zeroed with them; empty: what the meter's file
  /// says. Without ± it repeats as well as that of the meter's file.
  std::optional<StatedValue> leads = {};
};

/// Whether it was read with the volts of an insulation tester, which are said with it.
OHMWRIGHT_CORE_API bool states_test_voltage(const Reading& reading);

}  // namespace ohmwright
