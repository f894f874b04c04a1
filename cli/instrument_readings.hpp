#pragma once

#include <functional>
#include <optional>
#include <string>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/instrument/readout.hpp>
#include <ohmwright/instrument/settling.hpp>

#include "environment.hpp"
#include "verb.hpp"

namespace ohmwright::cli {

/// Label of what an instrument read.
inline constexpr const char* instrument_label = "instrument";

/// Time that an instrument has for each answer, `--timeout`, or five seconds. Throws InputError for no such time.
std::chrono::milliseconds typed_patience(const Arguments& arguments);

/// Whether what is wanted may be read with this instrument; volts and amperes of a live part only where the meter file
/// of `--meter` says so (`instrument::refuse_live_inputs`). Throws InputError.
void refuse_live_instrument(const Arguments& arguments, const Environment& environment, const std::string& address);

/// What is asked of an instrument of the meter file of `--meter` (the first, or the basic one): ohms by four wires with
/// `--four-wire`, which nothing else has; a little below zero is zero where that meter is good for no more. Throws
/// InputError, and as `chosen_meter` does.
instrument::Wanted wanted_of(const Arguments& arguments, const Environment& environment, Dimension dimension);

/// Says of a reading of ohms by four wires that no leads are in it.
void note_four_wires(const Arguments& arguments, Reading& reading);

/// What the instrument of `--from ADDRESS[#MEASURAND]` shows once it has settled, as a reading of the kind; nothing
/// without `--from`. Throws InputError for all that can go wrong on the way.
std::optional<Reading> reading_from_instrument(const Arguments& arguments, const Environment& environment,
                                               const Descriptor& descriptor);

/// Whether what `--from` reads of the kind is read live, by its measurand or by what is said beside it (--live).
bool is_read_live_from_instrument(const Arguments& arguments, const Descriptor& descriptor);

/// What was observed as a meter shows it: "11450 ohm", "OL".
std::string text_shown(const Observed& observed);

/// Takes one settled value of a quantity from the instrument of `--from`; empty without it.
using ValueSource = std::function<Observed(Dimension dimension)>;
ValueSource value_source(const Arguments& arguments, const Environment& environment);

/// What the source shows at a test point, as it would be typed. Throws InputError for ohms at a live one.
std::string shown_by_instrument(const ValueSource& source, Probe probe, bool live);

}  // namespace ohmwright::cli
