#pragma once

#include <cstdint>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// Adds what a finished analysis cannot show, and what is odd about it, to its findings. `rows` that were read;
/// `has_levels`: running and standing were told apart.
void tell_findings(const LogRatings& ratings, std::uint64_t rows, bool has_levels, LogAnalysis& analysis);

}  // namespace ohmwright::cycles
