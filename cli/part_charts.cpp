#include "part_charts.hpp"

#include <algorithm>

namespace ohmwright::cli {

namespace {

/// Conditions of the readings beside that of the axis: they stay as they are along it.
std::vector<ConditionValue> other_conditions(const Descriptor& descriptor, const ChartAxis& axis,
                                             const Evidence& evidence) {
  const std::uint16_t along = index_of(descriptor.conditions, axis.condition);
  std::vector<ConditionValue> others;
  for (const PreparedReading& reading : evidence.readings()) {
    for (const PreparedCondition& condition : reading.conditions) {
      const bool known = std::any_of(others.begin(), others.end(), [&](const ConditionValue& other) {
        return other.condition == condition.condition;
      });
      if (condition.condition != along && !known) others.push_back({condition.condition, condition.value.value()});
    }
  }
  return others;
}

/// Only the part of the axis where the readings lie: on the whole of it a reading and its limits are one dot.
void look_closely(const std::vector<ChartMark>& marks, ChartRequest& request) {
  constexpr double share_on_each_side = 0.1;
  const double margin = share_on_each_side * (request.to - request.from);
  double first = marks.front().condition - marks.front().condition_half_width;
  double last = first;
  for (const ChartMark& mark : marks) {
    first = std::min(first, mark.condition - mark.condition_half_width);
    last = std::max(last, mark.condition + mark.condition_half_width);
  }
  request.from = first - margin;
  request.to = last + margin;
}

bool says_anything(const Chart& chart) {
  return std::any_of(chart.lines.begin(), chart.lines.end(), [](const ChartLine& line) {
    return std::any_of(line.points.begin(), line.points.end(),
                       [](const ChartPoint& point) { return point.expected.has_value(); });
  });
}

}  // namespace

Chart chart_of(const LoadedKind& kind, const RatedPart& part, const ChartRequest& request) {
  Chart chart = kind.call("expecting its readings", [&] { return make_chart(*part.part, kind.descriptor(), request); });
  chart.part_title = part.title;
  return chart;
}

std::optional<Chart> chart_with_readings(const LoadedKind& kind, const RatedPart& part, const Evidence& evidence) {
  const Descriptor& descriptor = kind.descriptor();
  for (std::size_t axis = 0; axis < descriptor.charts.size(); ++axis) {
    const ChartAxis& row = descriptor.charts[axis];
    std::vector<ChartMark> marks = chart_marks(descriptor, row, evidence);
    if (marks.empty()) continue;
    ChartRequest request{.axis = axis,
                         .from = row.from.value_in_si(),
                         .to = row.to.value_in_si(),
                         .points = points_of_a_picture,
                         .conditions = other_conditions(descriptor, row, evidence)};
    look_closely(marks, request);
    Chart chart = chart_of(kind, part, request);
    if (!says_anything(chart)) continue;
    chart.marks = std::move(marks);
    return chart;
  }
  return std::nullopt;
}

}  // namespace ohmwright::cli
