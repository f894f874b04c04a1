#pragma once

#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/search/window.hpp>

namespace ohmwright::cycles {

/// Fills in what the coil's temperature shows of a defrost whose start and end are known: plateau, peak, end
/// temperature, and whether the coil rose at all.
void describe_coil(const Window& window, Defrost& defrost);

/// Fills in mass of frost, where heater and plateau are known.
void weigh_frost(const LogRatings& ratings, double spacing_second, bool load_is_current, Defrost& defrost);

/// Fills in drip time and recovery from the compressor's runs (in order of time).
void describe_pause(const std::vector<CompressorRun>& runs, double spacing_second, Defrost& defrost);

}  // namespace ohmwright::cycles
