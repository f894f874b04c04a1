#pragma once

#include <span>
#include <string_view>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/reading.hpp>

namespace ohmwright {

/// Whether it is read while the appliance has power: volts and amperes, and whatever every procedure of its kind reads
/// under the caution for live measurement.
bool is_read_live(const Descriptor& descriptor, std::string_view measurand);

/// Notes the agreement to live measurement on the readings: what is read live and of which nothing is said was
/// taken so.
/// The ohms of the same call are not touched: they were read before, unplugged. Throws InputError where a reading is
/// said to be read without supply.
void take_agreement_as_live(const Descriptor& descriptor, std::span<Reading> readings);

/// Throws InputError for ohms or a capacitance on a live part.
void refuse_ohms_on_live_parts(std::span<const Reading> readings, const Descriptor& descriptor);

/// Throws InputError for readings that nobody should have taken, or that say that a life is at risk: ohms on a live
/// part; what is read live and of which it is not said whether the appliance was plugged in; live readings without
/// `agreed`; volts above 0.1 V (but for the drop of a current that is stated with them), and any current, where all is
/// said to be dead. Every one of the program's ways to take a
/// reading goes through here.
void refuse_unsafe_readings(std::span<const Reading> readings, const Descriptor& descriptor, bool agreed);

}  // namespace ohmwright
