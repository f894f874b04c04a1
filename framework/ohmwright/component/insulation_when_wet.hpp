#pragma once

#include <cstdint>

#include <ohmwright/component/insulation.hpp>

namespace ohmwright {

/// For the rules of kinds, after insulation was judged: where what was read dry passes, and the last wet reading leaks
/// with no good wet test by an insulation tester after it, the finding of `asked.rule` that stands last becomes
/// undecided, holds the part back, and says `text` with "wet" and "least" [ohm]: dried it insulates, and it is wet
/// again soon. Live readings and readings in circuit are none. Does nothing where nothing passed.
OHMWRIGHT_CORE_API void hold_back_for_a_wet_leak(const Evidence& evidence, const InsulationRule& asked,
                                                 std::uint16_t text, Findings& findings);

}  // namespace ohmwright
