#pragma once

#include <optional>

#include <ohmwright/cycles/verdicts/log_rules.hpp>

namespace ohmwright::cycles {

/// What the ends of most defrosts leave open, as a question of the rule "defrost-end": equal lengths that a time limit
/// makes, or a strong heater on little frost; ends past the rated temperature that are alike in time and temperature;
/// ends hardly past the melting point, where ice may be left. Nothing where they leave nothing open.
std::optional<LogVerdict> open_ends(const JudgedLog& log);

}  // namespace ohmwright::cycles
