#pragma once

#include <optional>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// A compressor that stopped again and again and, but for defrosts, no longer does to the log's end.
struct RunsOn {
  double from_second = 0.0;
  double second = 0.0;
};
std::optional<RunsOn> runs_on(const LogAnalysis& analysis);

/// Heatings of one level, and from one on to the log's end of another [W, A].
struct HeaterStep {
  double from_second = 0.0;
  double load_before = 0.0;
  double load_after = 0.0;
};
std::optional<HeaterStep> heater_step(const LogAnalysis& analysis);

/// A cabinet that was colder in all days before the last than in that one, and at its end, too [K].
struct WarmerCabinet {
  double from_second = 0.0;
  double kelvin_before = 0.0;
  double kelvin_after = 0.0;
};
std::optional<WarmerCabinet> warmer_cabinet(const LogAnalysis& analysis);

}  // namespace ohmwright::cycles
