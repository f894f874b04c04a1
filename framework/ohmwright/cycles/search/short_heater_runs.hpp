#pragma once

#include <ohmwright/cycles/search/heater_search.hpp>

namespace ohmwright::cycles {

/// How far a load may be from that of like runs, as a share of it.
inline constexpr double like_load = 0.12;
/// Rows that are further apart show a short heating in one or two of them.
inline constexpr double coarse_spacing_second = 150.0;

/// Medians of the runs told to be the heater's.
struct UsualRun {
  double load = 0.0;
  double second = 0.0;
};
UsualRun usual_run_of(const HeaterSearch& found);

/// Where rows are so far apart that an ice maker's heater fills one or parts of two, such short runs count only beside
/// as many longer ones, or where they are like runs that are trusted: of their level, with a drip time behind them.
void drop_single_rows(double spacing_second, HeaterSearch& found);

/// What is both much weaker and shorter than the rest is not the same heater.
void drop_weak_and_short(HeaterSearch& found);

}  // namespace ohmwright::cycles
