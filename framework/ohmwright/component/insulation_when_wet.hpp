#pragma once

#include <cstdint>

#include <ohmwright/component/insulation.hpp>

namespace ohmwright {

/// For the rules of kinds, after insulation was judged: where what was read dry passes, and the last wet reading leaks
/// with no good wet test by an insulation tester after it (500 V, or as many volts as found the leak), the finding of
/// `asked.rule` that stands last becomes undecided, holds the part back, and says `text` with "wet" and "least" [ohm]:
/// dried it insulates, and it is wet again soon. Live readings and readings in circuit are none. Does nothing where
/// nothing passed.
OHMWRIGHT_CORE_API void hold_back_for_a_wet_leak(const Evidence& evidence, const InsulationRule& asked,
                                                 std::uint16_t text, Findings& findings);

// Advice on what was read wet, worded alike for every kind: its texts are the framework's.

/// "say-if-it-was-wet": of a leak by which the rule condemns, and of which nobody said whether it was wet or dry.
OHMWRIGHT_CORE_API AdviceDescriptor say_if_it_was_wet_advice();
/// "wet-with-more-volts": of a wet test that was right after a leak, but with too few volts to lift it. `procedure`:
/// the kind's own of that test.
OHMWRIGHT_CORE_API AdviceDescriptor wet_with_more_volts_advice(std::string_view procedure);

/// Adds the first of them, at its place `advice` in the kind's list, where there is such a leak; a leak that is metal
/// on metal is none.
OHMWRIGHT_CORE_API void advise_if_it_was_wet(const Evidence& evidence, const InsulationRule& asked,
                                             std::uint16_t advice, Findings& findings);
/// Adds the second, where there is such a test.
OHMWRIGHT_CORE_API void advise_on_weak_wet_test(const Evidence& evidence, const InsulationRule& asked,
                                                std::uint16_t advice, Findings& findings);

}  // namespace ohmwright
