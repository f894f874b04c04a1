#pragma once

#include <string_view>
#include <vector>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit::testing_support {

/// The circuit of a timer, a defrost thermostat and a defrost heater with the compressor and fan it shares a cabinet
/// with.
///
/// Ohms: L-D defrost contact 0.05, L-R run contact 0.05, D-X bimetal 0.05 (cold), X-H1 splice 0.05, H1-H2 heater 32,
/// H2-N lead 0.05, L-N timer motor 8000, R-N compressor 6, R-N fan 120, H1-G insulation 50 M. One contact at a time.
struct DefrostCircuit {
  /// `live`: 120 V between L and S, the neutral at the outlet, and 0.05 ohm of the cord from N to S.
  explicit DefrostCircuit(bool live = false);

  /// Node of "L", "D", "R", "X", "H1", "H2", "N", "G" or "S".
  static NodeIndex node(std::string_view name);

  Network network;
  BranchIndex defrost_contact, run_contact, bimetal, splice, heater, heater_lead, timer_motor, neutral_lead = 0;
};

}  // namespace ohmwright::circuit::testing_support
