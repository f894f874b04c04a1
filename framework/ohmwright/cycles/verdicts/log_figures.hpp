#pragma once

#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/log_analysis.hpp>

namespace ohmwright::cycles {

/// Mean of a figure over the events of a log.
struct LogFigure {
  double mean = 0.0;     ///< SI unit of its row
  double scatter = 0.0;  ///< standard uncertainty of the mean, s/√n (GUM 4.2.3); 0 for one event
  std::size_t count = 0;
};

/// What a figure was before and after, and whether it changed.
struct FigureChange {
  std::string_view id;  ///< "heating", "heater_energy", …; points at a constant
  Dimension dimension = Dimension::ratio;
  std::optional<LogFigure> before;
  std::optional<LogFigure> after;
  /// P(the mean after is greater than the mean before), by Student's t of both scatters, and what rows so far apart
  /// show of durations; nothing where one side has fewer than two events, or neither scatters.
  std::optional<double> probability_greater;
};

/// The figures by which two logs are compared; those that neither log shows are left out.
std::vector<FigureChange> compare_figures(const LogAnalysis& before, const LogAnalysis& after);

}  // namespace ohmwright::cycles
