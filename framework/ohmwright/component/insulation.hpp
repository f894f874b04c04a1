#pragma once

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string_view>
#include <vector>

#include <ohmwright/component/descriptor.hpp>
#include <ohmwright/component/evidence.hpp>
#include <ohmwright/component/kind.hpp>
#include <ohmwright/quantity/units.hpp>
#include <ohmwright/uncertainty/estimate.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright {

// Insulation is judged alike whatever the part: for the rules of kinds whose parts lie between the mains and a frame.

/// Protection against shock: by earth (I), by double insulation (II), by extra-low voltage (III).
enum class EarthClass : std::uint8_t { unstated, one, two, three };

/// "I", "II", "III" as ratings write it; every other word is unstated.
OHMWRIGHT_CORE_API EarthClass earth_class_named(std::string_view name);

/// Least insulation to the frame of a class [ohm]: I 1 Mohm, of heating above 3.5 kW 0.3 Mohm; II 2 Mohm; III 0.25
/// Mohm; where it is not stated, 1 Mohm. `heating` is the rated power of what heats; of other parts there is none.
/// Source: EN 50699, EN 50678 (before them DIN VDE 0701-0702).
OHMWRIGHT_CORE_API Resistance least_insulation(EarthClass earth_class, std::optional<Power> heating = std::nullopt);

/// The texts that a rule on insulation begins with (`insulation_texts`), with {measured} and {least} in them (those of
/// past the range with {least} and {shown}); {volts} of the test are there where a tester was named. A kind's own texts
/// follow from `first_own` on.
struct InsulationText {
  enum : TextIndex {
    insulates,
    insulates_past_range,                 ///< more than the tester's range
    insulates_at_fewer_volts,             ///< tested with 250 V or more, but not with the 500 V that are asked
    insulates_past_range_at_fewer_volts,  ///< the same past its range
    leaks,
    touches_frame,  ///< so little that it is metal on metal: no drying mends it
    leaks_while_wet,
    leaks_connection_unstated,
    leaks_lead_off_of_another,  ///< the same, where a lead off was said of another reading
    leaks_in_circuit,
    not_told_apart,
    ohmmeter_is_no_tester,
    ohmmeter_past_range,
    ohmmeter_more_than,  ///< "more than" less than the least
    tester_more_than,
    few_volts,             ///< a tester, but with too few volts to prove anything against the mains
    few_volts_past_range,  ///< the same past its range
    leaks_at_more_volts,   ///< low at more volts than are asked of it, where a surge arrester may conduct
    repeats_differ,        ///< one of its repeats may have been too low, which their mean hides
    only_live,             ///< silent: nothing was read but on a live part
    first_own,
  };
};

/// Between what a part and its insulation is read.
enum class InsulationPlace : std::uint8_t {
  frame,
  frame_or_wire,  ///< the frame, or the wire that lies beside it
};

/// Those texts, worded for the place, and then the kind's own. They are core's: one catalogue, the framework's,
/// translates them for every kind, and a kind's own catalogue may word them anew.
OHMWRIGHT_CORE_API std::vector<TextEntry> insulation_texts(InsulationPlace place,
                                                           std::initializer_list<TextEntry> own = {});

/// What a kind asks of the insulation of its part.
struct InsulationRule {
  std::uint16_t rule = 0;          ///< index into `Descriptor::rules`
  std::uint16_t measurand = 0;     ///< ohms to the frame
  std::uint16_t test_voltage = 0;  ///< condition: volts of the tester
  double least = 0.0;              ///< what it must have [ohm]
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

/// Whether that rule found metal on metal, which no drying mends.
OHMWRIGHT_CORE_API bool touches_frame(const Findings& findings, std::uint16_t rule);

}  // namespace ohmwright
