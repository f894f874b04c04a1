#pragma once

#include <memory>

#include <ohmwright/plugin/loaded_kind.hpp>

// Kinds of our own for tests of fault finding, which knows no real kind by name.

namespace ohmwright::locate::testing {

/// A resistance of `ohm` ± `tolerance` between its two terminals. Fault modes: open, high (half as much again to
/// twice), leaks (from "a" to "frame"). Of null, nothing is known.
class ResistorPart final : public Part {
 public:
  ResistorPart(double ohm, double tolerance) : ohm_(ohm), tolerance_(tolerance) {}
  void judge(const Evidence& /*evidence*/, const JudgeSettings& /*settings*/, Findings& /*findings*/) const override {}
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

 private:
  double ohm_;
  double tolerance_;
};

/// A contact: closed while its state is `closed_in`, or, of one that follows temperature, below 273 K. Fault modes:
/// stuck-open, welded, burnt (5 to 50 ohm while closed).
class ContactPart final : public Part {
 public:
  /// `closed_in` is a value of the state "position"; not_found for a contact that follows temperature.
  explicit ContactPart(std::uint16_t closed_in) : closed_in_(closed_in) {}
  void judge(const Evidence& /*evidence*/, const JudgeSettings& /*settings*/, Findings& /*findings*/) const override {}
  ModelAnswer electrical_model(std::uint16_t fault_mode, const Situation& situation,
                               std::vector<Element>& elements) const override;

 private:
  std::uint16_t closed_in_;
};

enum ResistorFault : std::uint16_t { resistor_open, resistor_high, resistor_leaks };
enum ContactFault : std::uint16_t { contact_stuck_open, contact_welded, contact_burnt };
enum Position : std::uint16_t { position_run, position_defrost };

/// The two kinds, as the registry would give them.
const LoadedKind& resistor_kind();
const LoadedKind& contact_kind();

}  // namespace ohmwright::locate::testing
