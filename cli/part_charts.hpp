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

/// Part of an axis [SI].
struct AxisSpan {
  double from = 0.0;
  double to = 0.0;
};

/// The span of an axis that is drawn unless another is asked for: the kind's usual one; of a contact that switches
/// beyond it, where this part does; and so wide that the marks lie on it. The request says which axis, and the
/// conditions along it.
AxisSpan usual_span(const LoadedKind& kind, const RatedPart& part, const ChartRequest& request,
                    const std::vector<ChartMark>& marks);

/// The readings that can be marked on that axis of the part, which decides whether a value is drawn or what was seen of
/// a contact.
std::vector<ChartMark> marks_on_axis(const LoadedKind& kind, const RatedPart& part, const ChartRequest& request,
                                     const Evidence& evidence);

/// The picture that stands beside a verdict: the first chart on which one of the readings can be marked, or nothing.
std::optional<Chart> chart_with_readings(const LoadedKind& kind, const RatedPart& part, const Evidence& evidence);

}  // namespace ohmwright::cli
