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

/// The last wet test that was right after such a leak, but with too few volts to lift it. Null: none.
OHMWRIGHT_CORE_API const PreparedReading* wet_test_of_too_few_volts(const Evidence& evidence,
                                                                    const InsulationRule& asked);

/// The leak by which `asked.rule` condemns, where nobody said whether it was wet or dry: then no test once it was dried
/// lifts it. Null: it does not condemn so, that was said, or it is metal on metal.
OHMWRIGHT_CORE_API const PreparedReading* leak_of_unsaid_moisture(const Evidence& evidence, const InsulationRule& asked,
                                                                  const Findings& findings);

}  // namespace ohmwright
