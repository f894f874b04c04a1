#pragma once

#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/report/locate_report.hpp>

namespace ohmwright {

// Words for the things of an appliance. Between source files of this area.

/// "the back panel", "L and N": as the appliance's file says it.
std::string test_point_title(const Appliance& appliance, const locate::Measurement& measurement, const Sentences& say);

/// The part whose first two terminals the probes are at, directly or by the nodes there.
std::optional<std::size_t> part_between_probes(const Appliance& appliance, std::size_t test_point);

/// What was read, in the unit that was typed, and the range where it was stated.
std::string shown_reading(const locate::TakenReading& reading, const Sentences& say);

/// A value that an instrument may show, in two digits: "32 Ω", or "near 0".
std::string shown_value_text(double value_in_si, Probe probe, const Sentences& say);

/// What the meter would show in that way, or in any of these ways where the first, the likeliest, is a value: "about
/// 11 kΩ", "9.0 kΩ to 240 kΩ"; of a part whose class nobody knows no number. At least one way.
std::string shown_text(std::span<const locate::PredictedOutcome> ways, Probe probe, const Sentences& say);

/// A temperature [K] in the reader's unit, to a kelvin.
std::string temperature_text(double kelvin, const Sentences& say);

/// A caution's text: the framework's, or that of whatever kind of the appliance has it.
std::string caution_words(const Appliance& appliance, std::string_view id, bool brief, const Sentences& say);

/// "Defrost heater: element open", or with several parts "…; and …".
std::string candidate_label(const locate::FaultList& faults, std::size_t candidate, const Sentences& say);

/// The title of a fault mode in the reader's language.
std::string fault_title(const locate::FaultList& faults, std::size_t fault, const Sentences& say);

/// "4 min".
std::string minutes_text(double minutes);

}  // namespace ohmwright
