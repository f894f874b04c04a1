#pragma once

#include <ohmwright/component/descriptor.hpp>

#include "rules/scene.hpp"

namespace ohmwright::fan_motor {

RuleDescriptor describe_fed_but_still();
void judge_fed_but_still(const Scene& scene);

/// A direct-current one is fed the wrong way round, or was read so.
bool shows_minus(const Scene& scene);

/// It stands still at its volts, and a protector that opened in the heat explains that as well.
bool may_be_hot_while_fed(const Scene& scene);

/// It stands still at its volts, turns too slowly or draws too much, and its run capacitor explains that as well.
bool waits_for_its_capacitor(const Scene& scene);

/// A control may feed a direct-current fan in tries, and rest between them: it was not watched through one.
bool needs_a_retry(const Scene& scene);

/// What its control signal tells it, by all readings (`SignalIndex`); where they differ, to stand, which condemns
/// nothing.
std::uint16_t signal_told(const Scene& scene);

/// It may have a wire for a control signal, and nobody said what that tells it.
bool needs_its_signal(const Scene& scene);

}  // namespace ohmwright::fan_motor
