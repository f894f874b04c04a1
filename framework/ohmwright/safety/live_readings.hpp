#pragma once

#include <span>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/reading.hpp>

namespace ohmwright {

/// Notes the agreement to live measurement on the readings: volts and amperes of which nothing is said were taken live.
/// The ohms of the same call are not touched: they were read before, unplugged. Throws InputError where a reading is
/// said to be read without supply.
void take_agreement_as_live(const Descriptor& descriptor, std::span<Reading> readings);

/// Throws InputError for ohms or a capacitance on a live part.
void refuse_ohms_on_live_parts(std::span<const Reading> readings, const Descriptor& descriptor);

/// Throws InputError for readings that nobody should have taken, or that say that a life is at risk: ohms on a live
/// part; volts and amperes of which it is not said whether the appliance was plugged in; live readings without
/// `agreed`; dangerous volts at points that are said to be dead. Every one of the program's ways to take a reading goes
/// through here.
void refuse_unsafe_readings(std::span<const Reading> readings, const Descriptor& descriptor, bool agreed);

}  // namespace ohmwright
