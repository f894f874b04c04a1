#pragma once

#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/search/heater_search.hpp>

namespace ohmwright::cycles {

/// The compressor's runs in a window.
struct CompressorSearch {
  std::vector<CompressorRun> runs;
  bool levels_found = false;  ///< running and standing could be told apart
  bool never_stops = false;   ///< but for defrosts
  bool is_modulated = false;  ///< what it draws wanders as an inverter's does, or is far more behind a heating
  bool speed_varies = false;  ///< what it draws within its runs, too
  bool may_run_at_rest =
      false;                  ///< what it rests at is far above what is drawn when all stands: it may run slowly there
  double on_threshold = 0.0;  ///< [W], [A] or [K] of swing
  double off_threshold = 0.0;
  double standing_load = 0.0;
  double running_load = 0.0;
  std::vector<double> short_pulse_seconds;  ///< when the runs of less than a minute began
  std::vector<double> short_pause_seconds;  ///< and the pauses
};

/// By the load, outside the heater's runs: two classes of the logarithm of the load (Otsu, IEEE Trans. SMC 9 (1979)
/// 62–66), with hysteresis between them.
CompressorSearch compressor_by_load(const Window& window, const HeaterSearch& heater);

/// By a temperature: it falls while the compressor runs. Turning points count when the temperature swung by the
/// threshold.
CompressorSearch compressor_by_temperature(const Window& window, const std::vector<double>& kelvin);

}  // namespace ohmwright::cycles
