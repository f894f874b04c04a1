#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>

namespace ohmwright {

/// Most rows that a series may have. A warm-up read every second for a day is fewer.
inline constexpr std::size_t most_series_rows = 100'000;

/// A series of readings from a table (see `SeparatedText`), such as a thermostat that was watched while it warmed up.
///
/// The first line names the columns: a measurand of the kind by its id, a condition by its option or id, each perhaps
/// with the unit of its bare numbers, "at [degC]" or "at/degC"; "state" also means the first measurand that is a
/// contact's state; "time" is not read but must not run backwards. Cells hold what can be typed: numbers, with a unit
/// or without, "OL", "open", "closed", with ± for a doubt; with ";" between cells a number may have a decimal comma.
///
/// Each row becomes one reading for each measurand it states, in order, called "line 7". What is said of a condition in
/// all rows carries one error, since one instrument read it. `meter` says whether a lone 1 is over-range, null when
/// none is known. Throws DocumentError with all that is wrong, by line, up to a hundred.
std::vector<Reading> read_series(std::string_view text, const std::string& file, const Descriptor& descriptor,
                                 const Meter* meter);

/// The same for a file, or standard input for "-".
std::vector<Reading> read_series_file(const std::string& path, const Descriptor& descriptor, const Meter* meter);

}  // namespace ohmwright
