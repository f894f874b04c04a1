#pragma once

#include <cstdint>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

// Insulation is judged alike whatever the part: for the rules of kinds whose parts lie between the mains and a frame.

/// The texts that a rule on insulation begins with, in this order and with {measured} and {least} in them (those of
/// past the range with {least} alone); {volts} of the test are there where a tester was named. A kind's own texts
/// follow from `first_own` on.
struct InsulationText {
  enum : TextIndex {
    insulates,
    insulates_past_range,  ///< more than the tester's range
    leaks,
    leaks_while_wet,
    leaks_connection_unstated,
    not_told_apart,
    ohmmeter_is_no_tester,
    ohmmeter_past_range,
    few_volts,             ///< a tester, but with too few volts to prove anything against the mains
    few_volts_past_range,  ///< the same past its range
    leaks_at_more_volts,   ///< low at more volts than are asked of it, where a surge arrester may conduct
    repeats_differ,        ///< one of its repeats may have been too low, which their mean hides
    first_own,
  };
};

/// What a kind asks of the insulation of its part.
struct InsulationRule {
  std::uint16_t rule = 0;          ///< index into `Descriptor::rules`
  std::uint16_t measurand = 0;     ///< ohms to the frame
  std::uint16_t test_voltage = 0;  ///< condition: volts of the tester
  double least = 0.0;              ///< what it must have [ohm]
  /// Texts of the kind's own, {shown} in them, for a reading of "more than" less than the least; where there are none,
  /// those of past the range are said.
  std::uint16_t ohmmeter_more_than = InsulationText::ohmmeter_past_range;
  std::uint16_t tester_more_than = InsulationText::ohmmeter_past_range;
};

/// Whether it was read with a tester whose volts prove something: 250 V or more (EN 50699, EN 50678: 500 V, and 250 V
/// where a surge arrester would conduct; from memory).
OHMWRIGHT_CORE_API bool by_insulation_tester(const PreparedReading& reading, const InsulationRule& rule);

/// What the instrument showed [ohm]: test leads are nothing beside megohms, and zero is not less than nothing.
OHMWRIGHT_CORE_API Estimate insulation_shown(const PreparedReading& reading);

/// The reading that counts, or null. A leak at one terminal is a leak, whatever another terminal reads; of readings
/// that are no leak one by a tester counts before one by an ohmmeter. What was read wet gives way to what was read
/// later and no longer wet. Live readings are none.
OHMWRIGHT_CORE_API const PreparedReading* decisive_insulation_reading(const Evidence& evidence,
                                                                      const InsulationRule& rule);

/// Whether somebody read it on a live part, which means nothing.
OHMWRIGHT_CORE_API bool insulation_was_read_live(const Evidence& evidence, const InsulationRule& rule);

/// Judges that reading and adds the finding. Only a tester passes it. A leak condemns where it was read with the leads
/// off, not wet, and with no more volts than are asked; else, and where it is too near the least to tell, and by an
/// ohmmeter, it is undecided and holds the part back.
OHMWRIGHT_CORE_API void judge_insulation_reading(const PreparedReading& reading, const InsulationRule& rule,
                                                 const Evidence& evidence, const JudgeSettings& settings,
                                                 Findings& findings);

}  // namespace ohmwright
