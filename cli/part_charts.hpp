#pragma once

#include <optional>

#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/report/chart.hpp>

#include "kind_files.hpp"

namespace ohmwright::cli {

/// Points of a chart that is drawn as a picture.
inline constexpr std::size_t points_of_a_picture = 241;

/// A chart of a part, asked of its plugin under guard.
Chart chart_of(const LoadedKind& kind, const RatedPart& part, const ChartRequest& request);

/// The picture that stands beside a verdict: the first chart on which one of the readings can be marked, or nothing.
std::optional<Chart> chart_with_readings(const LoadedKind& kind, const RatedPart& part, const Evidence& evidence);

}  // namespace ohmwright::cli
