#pragma once

#include <cstdint>
#include <optional>
#include <span>

#include <ohmwright/component/evidence.hpp>

namespace ohmwright::defrost_control {

/// Below this no heater runs, and volts may be a ghost through capacitance or a snubber (common practice, no source)
/// [A].
inline constexpr double least_load_ampere = 0.05;
/// A switched-on output loses less than this share of the line on its way; more than a few percent is a bad contact or
/// wiring (common practice, no source).
inline constexpr double least_share_on = 0.95;
/// Less than this share of the line: it is not switched on (common practice, no source).
inline constexpr double most_share_off = 0.5;

/// What a reading of volts at the defrost output says.
enum class OutputState : std::uint8_t { none, on, off, lossy, ghost_or_on };

/// Volts at the output as a share of the line; nothing where the line's volts are not known.
std::optional<Estimate> output_share(const PreparedReading& reading);

/// Whether a load surely drew through the output while it was read.
bool is_loaded(const PreparedReading& reading, std::span<const ErrorSource> sources, double confidence);

OutputState output_state(const PreparedReading& reading, std::span<const ErrorSource> sources, double confidence);

/// The output in both positions, as far as it was shown.
struct OutputSeen {
  bool on_in_defrost = false;  ///< under load
  bool off_in_run = false;
};

OutputSeen output_seen(const Evidence& evidence, double confidence);

}  // namespace ohmwright::defrost_control
