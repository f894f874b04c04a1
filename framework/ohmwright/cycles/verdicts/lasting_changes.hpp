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

/// A temperature that was colder, or warmer, in all days before the last than in that one, and at its end, too [K].
struct OtherTemperature {
  double from_second = 0.0;
  double kelvin_before = 0.0;
  double kelvin_after = 0.0;
  bool is_warmer() const { return kelvin_after > kelvin_before; }
};
std::optional<OtherTemperature> other_cabinet(const LogAnalysis& analysis);
std::optional<OtherTemperature> other_coil(const LogAnalysis& analysis);

/// What does not get cold in the log's last half day, though it runs, as far as the load was logged [K].
struct NoCold {
  double coil_kelvin = 0.0;
  std::optional<double> cabinet_kelvin;
  bool coil_is_warm = false;  ///< above the melting point all the time: it frosts no more and needs no defrost
  bool is_seen_to_run = false;
};
std::optional<NoCold> no_cold(const LogAnalysis& analysis);

/// The middle temperature of a cabinet that from the first day on on is too warm for a freezer and too cold for a
/// refrigerator, the coil logged beside it [K].
std::optional<double> cabinet_of_neither(const LogAnalysis& analysis);

}  // namespace ohmwright::cycles
