#pragma once

#include <cstdlib>

namespace ohmwright::testing {

/// Whether the longest tests take all of their cases, as `sh tests/run.sh --all` asks by OHMWRIGHT_THOROUGH; without it
/// they take the share that fits into ten minutes with all the others.
inline bool is_thorough() { return std::getenv("OHMWRIGHT_THOROUGH") != nullptr; }

}  // namespace ohmwright::testing
