#pragma once

#include <cstddef>
#include <optional>
#include <span>

#include <ohmwright/locate/standing.hpp>

namespace ohmwright::locate {

/// The zone, measured by nobody, that may well have a temperature at which a part that `standing` names is no longer
/// likely to be at fault; nothing where the part does not change with temperature, or where none clears it. Or one that
/// was measured since, where what names the part was read before that.
///
/// Asks for a diagnosis at each of several temperatures: for a search that is about to name a part.
std::optional<std::size_t> zone_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                               const Signs& signs, const Standing& standing,
                                               const NextStepSettings& settings);

/// Of the parts of `standing` one that warms by running, and that is no longer likely to be at fault where it ran a
/// moment ago.
std::optional<std::size_t> part_that_may_be_warm(Reasoner& reasoner, std::span<const TakenReading> readings,
                                                 const Signs& signs, const Standing& standing,
                                                 const NextStepSettings& settings);

/// One of `Site::states_not_said`, by index, as which a good appliance would show what makes `standing` name its parts;
/// nothing where they are named however it stands.
std::optional<std::size_t> state_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                                const Signs& signs, const Standing& standing,
                                                const NextStepSettings& settings);

/// Whether good appliances that differ in one part show otherwise at some of the readings, and the `other` one just
/// what was read at each of these.
bool fits_the_other(Reasoner& as_stated, Reasoner& other, std::span<const TakenReading> readings);

/// Whether a test point reads a part from one of its terminals to another.
bool is_between_terminals_of(const TestPoint& point, std::size_t part);

/// Whether a set-up turns a part to stand otherwise than so.
bool turns_away(const SetUp& set_up, const SetState& from);

/// The slip after which `standing` would not name its parts: a thousand or ten times too much or too little, made in
/// every reading that is off a good one by just that.
std::optional<UnitSlip> slip_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                            const Signs& signs, const Standing& standing,
                                            const NextStepSettings& settings);

}  // namespace ohmwright::locate
