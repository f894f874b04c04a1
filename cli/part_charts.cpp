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

/// The request for the whole axis of the kind.
ChartRequest along_all(const LoadedKind& kind, ChartRequest request, std::size_t points) {
  const ChartAxis& row = kind.descriptor().charts[request.axis];
  request.from = row.from.value_in_si();
  request.to = row.to.value_in_si();
  request.points = points;
  return request;
}

/// Where a contact switches, looked for wherever parts of appliances get to: the usual span of a kind is that of its
/// usual parts. Only along a temperature; elsewhere along the usual span.
std::vector<SwitchingSpan> switching_anywhere(const LoadedKind& kind, const RatedPart& part, ChartRequest request) {
  const Descriptor& descriptor = kind.descriptor();
  const std::uint16_t along = index_of(descriptor.conditions, descriptor.charts[request.axis].condition);
  if (descriptor.conditions[along].dimension == Dimension::temperature) {
    request.from = Temperature::from_celsius(-70.0).kelvin();
    request.to = Temperature::from_celsius(400.0).kelvin();
    request.points = 471;  // every kelvin
  }
  std::vector<SwitchingSpan> all;
  for (const ChartLine& line : chart_of(kind, part, request).lines) {
    const std::vector<SwitchingSpan> spans = switching_spans(line);
    all.insert(all.end(), spans.begin(), spans.end());
  }
  return all;
}

/// The usual span if all the switching lies on it, else where it lies, with room on both sides.
AxisSpan span_of_contact(const std::vector<SwitchingSpan>& spans, AxisSpan usual) {
  if (spans.empty()) return usual;
  double first = spans.front().from;
  double last = spans.front().to;
  for (const SwitchingSpan& span : spans) {
    first = std::min(first, span.from);
    last = std::max(last, span.to);
  }
  if (first >= usual.from && last <= usual.to) return usual;
  constexpr double share_on_each_side = 0.4;
  const double least = 0.15 * (usual.to - usual.from);
  const double margin = std::max(least, share_on_each_side * (last - first));
  return {first - margin, last + margin};
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

AxisSpan usual_span(const LoadedKind& kind, const RatedPart& part, const ChartRequest& request,
                    const std::vector<ChartMark>& marks) {
  constexpr std::size_t points = 61;
  const ChartRequest whole = along_all(kind, request, points);
  AxisSpan span{whole.from, whole.to};
  if (is_of_contacts(chart_of(kind, part, whole))) span = span_of_contact(switching_anywhere(kind, part, whole), span);
  constexpr double share_beside_a_mark = 0.05;
  const double beside = share_beside_a_mark * (span.to - span.from);
  for (const ChartMark& mark : marks) {
    span.from = std::min(span.from, mark.condition - mark.condition_half_width - beside);
    span.to = std::max(span.to, mark.condition + mark.condition_half_width + beside);
  }
  return span;
}

std::vector<ChartMark> marks_on_axis(const LoadedKind& kind, const RatedPart& part, const ChartRequest& request,
                                     const Evidence& evidence) {
  constexpr std::size_t points = 21;
  return chart_marks(chart_of(kind, part, along_all(kind, request, points)), evidence);
}

std::optional<Chart> chart_with_readings(const LoadedKind& kind, const RatedPart& part, const Evidence& evidence) {
  const Descriptor& descriptor = kind.descriptor();
  for (std::size_t axis = 0; axis < descriptor.charts.size(); ++axis) {
    const ChartAxis& row = descriptor.charts[axis];
    ChartRequest request{.axis = axis,
                         .from = row.from.value_in_si(),
                         .to = row.to.value_in_si(),
                         .points = points_of_a_picture,
                         .conditions = other_conditions(descriptor, row, evidence)};
    std::vector<ChartMark> marks = marks_on_axis(kind, part, request, evidence);
    if (marks.empty()) continue;
    if (is_of_contacts(chart_of(kind, part, request))) {
      // A state tells nothing near itself: what it is held against are the trip points.
      const AxisSpan span = usual_span(kind, part, request, marks);
      request.from = span.from;
      request.to = span.to;
    } else {
      look_closely(marks, request);
    }
    Chart chart = chart_of(kind, part, request);
    if (!says_anything(chart)) continue;
    chart.marks = std::move(marks);
    return chart;
  }
  return std::nullopt;
}

}  // namespace ohmwright::cli
