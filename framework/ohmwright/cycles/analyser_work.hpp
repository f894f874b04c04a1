#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>
#include <ohmwright/cycles/search/held_values.hpp>
#include <ohmwright/cycles/search/sampler.hpp>
#include <ohmwright/cycles/search/window.hpp>
#include <ohmwright/cycles/search/window_search.hpp>
#include <ohmwright/cycles/unlogged_time.hpp>
#include <ohmwright/cycles/watched_columns.hpp>
#include <ohmwright/uncertainty/function_ref.hpp>

namespace ohmwright::cycles {

/// What a plot shows of a sample.
PlotPoint plot_point(const Window& window, std::size_t i);

/// Of fewer samples a usual interval says little.
inline constexpr std::size_t fewest_telling_samples = 100;
/// The shortest defrosts that are known (common practice, no source).
inline constexpr double shortest_defrost_second = 480.0;

/// What an analysis has in hand between two blocks of rows.
struct LogAnalyser::Work {
  LogRatings ratings;
  HeldValues held;
  LogSampler sampler;
  std::vector<LogSample> samples;
  LogAnalysis result;
  UnloggedTime unwatched;  ///< nothing that shows defrosts
  UnloggedTime runs_unseen;
  std::array<Moves, log_quantity_count> moves;
  QuickChanges coil_changes;
  Thaws coil_thaws;
  std::vector<float> run_seconds;
  std::vector<float> pause_seconds;
  double told_up_to = -1.0;  ///< events that begin before it are told [s]
  double cabinet_kelvin_second = 0.0;
  double last_run_end = -1.0;
  double sample_spacing_second = 0.0;
  bool any_levels = false;
  bool always_on = true;
  bool may_run_at_rest = false;

  void take(std::span<const LogRow> rows);
  void search(bool is_last);
  void tell(const Window& window, const WindowEvents& events, double until);
  void tell_runs(const WindowEvents& events, double until);
  void cover(const Window& window, double until);
  void cover_sample(const Window& window, std::size_t i);
  /// Finds heat that does not end, and takes it out of the compressor's runs and the defrosts.
  void set_lasting_heat();
  /// Takes out of the list, and of the traces, what is no defrost after all.
  void forget_defrosts(FunctionRef<bool(const Defrost&)> is_none);
  void set_intervals();
  double running_within(double from_second, double to_second) const;
  OpenInterval open_interval(double from_second, double to_second) const;
  void set_figures();
  void forget_standing_coil();
  void leave_out_what_never_moves();
};

}  // namespace ohmwright::cycles
