#include <algorithm>
#include <cmath>
#include <numbers>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/report/chart.hpp>

namespace ohmwright {

namespace {

ChartLine line_of(const Part& part, const Descriptor& descriptor, const ChartRequest& request,
                  std::span<const StateValue> states) {
  const ChartAxis& axis = descriptor.charts[request.axis];
  const std::uint16_t measurand = index_of(descriptor.measurands, axis.measurand);
  std::vector<ConditionValue> conditions = request.conditions;
  conditions.push_back({index_of(descriptor.conditions, axis.condition), 0.0});
  ChartLine line;
  line.points.reserve(request.points);
  for (std::size_t i = 0; i < request.points; ++i) {
    const double share = static_cast<double>(i) / static_cast<double>(request.points - 1);
    const double at = std::lerp(request.from, request.to, share);
    conditions.back().value_in_si = at;
    line.points.push_back({at, part.expect(measurand, {conditions, states})});
  }
  return line;
}

struct MarkedValue {
  double value = 0.0;
  double half_width = 0.0;
};

std::optional<MarkedValue> value_of(const PreparedReading& reading) {
  if (reading.shown != Shown::value) return std::nullopt;
  return MarkedValue{reading.value.value(), std::numbers::sqrt3 * reading.value.standard_uncertainty()};
}

/// On a chart of shares: what conducts badly stands midway, as neither a closed contact nor an open one.
std::optional<MarkedValue> seen_of_contact(const PreparedReading& reading) {
  const ContactSeen seen = contact_seen(reading);
  if (seen == ContactSeen::nothing) return std::nullopt;
  if (seen == ContactSeen::closed) return MarkedValue{1.0, 0.0};
  return MarkedValue{is_not_closed(seen) ? 0.0 : 0.5, 0.0};
}

/// Where a run of shares that ends with point `last` reaches none or all, between it and the next point on that side:
/// trip points spread evenly have a straight line, so two of its points tell where it ends.
double edge_beside(const std::vector<ChartPoint>& points, std::size_t last, int side) {
  const bool at_end = side < 0 ? last == 0 : last + 1 == points.size();
  if (at_end) return points[last].condition;
  const ChartPoint& beyond = side < 0 ? points[last - 1] : points[last + 1];
  if (!beyond.expected || !beyond.expected->share_closed) return points[last].condition;
  const bool has_inner = side < 0 ? last + 1 < points.size() : last > 0;
  const ChartPoint& inner = !has_inner ? points[last] : side < 0 ? points[last + 1] : points[last - 1];
  const double share = *points[last].expected->share_closed;
  const double slope = inner.expected && inner.expected->share_closed ? share - *inner.expected->share_closed : 0.0;
  const double rest = *beyond.expected->share_closed - share;
  const double part_of_step = slope * rest > 0.0 ? std::min(1.0, rest / slope) : 1.0;
  return std::lerp(points[last].condition, beyond.condition, part_of_step);
}

/// A line along which the part says nothing is none.
void add_if_known(ChartLine line, Chart& chart) {
  const bool known = std::any_of(line.points.begin(), line.points.end(),
                                 [](const ChartPoint& point) { return point.expected.has_value(); });
  if (known) chart.lines.push_back(std::move(line));
}

}  // namespace

Chart make_chart(const Part& part, const Descriptor& descriptor, const ChartRequest& request) {
  Chart chart{descriptor, descriptor.charts[request.axis], {}, {}, {}};
  if (chart.axis.state.empty()) {
    add_if_known(line_of(part, descriptor, request, {}), chart);
    return chart;
  }
  const std::uint16_t state = index_of(descriptor.states, chart.axis.state);
  const std::vector<TextEntry>& values = descriptor.states[state].values;
  for (std::size_t value = 0; value < values.size(); ++value) {
    const StateValue set{state, static_cast<std::uint16_t>(value)};
    ChartLine line = line_of(part, descriptor, request, {&set, 1});
    line.state = std::string(values[value].id);
    add_if_known(std::move(line), chart);
  }
  return chart;
}

std::vector<ChartMark> chart_marks(const Chart& chart, const Evidence& evidence) {
  const std::uint16_t measurand = index_of(chart.descriptor.measurands, chart.axis.measurand);
  const std::uint16_t condition = index_of(chart.descriptor.conditions, chart.axis.condition);
  const bool of_contacts = is_of_contacts(chart);
  std::vector<ChartMark> marks;
  for (const PreparedReading& reading : evidence.readings()) {
    const Estimate* at = reading.condition(condition);
    if (reading.measurand != measurand || at == nullptr) continue;
    const std::optional<MarkedValue> value = of_contacts ? seen_of_contact(reading) : value_of(reading);
    if (value)
      marks.push_back({evidence.label(reading), at->value(), std::numbers::sqrt3 * at->standard_uncertainty(),
                       value->value, value->half_width});
  }
  return marks;
}

std::vector<SwitchingSpan> switching_spans(const ChartLine& line) {
  constexpr double none = 1e-3;
  const auto switches = [](const ChartPoint& point) {
    return point.expected && point.expected->share_closed && *point.expected->share_closed > none &&
           *point.expected->share_closed < 1.0 - none;
  };
  const auto are_closed = [](const ChartPoint& point) { return point.expected->share_closed.value_or(0.0) > 0.5; };
  std::vector<SwitchingSpan> spans;
  const std::vector<ChartPoint>& points = line.points;
  for (std::size_t i = 0; i < points.size(); ++i) {
    const bool jumps = i > 0 && !switches(points[i]) && !switches(points[i - 1]) && points[i].expected &&
                       points[i - 1].expected && are_closed(points[i]) != are_closed(points[i - 1]);
    if (jumps) spans.push_back({points[i - 1].condition, points[i].condition});
    if (!switches(points[i])) continue;
    const std::size_t first = i;
    while (i + 1 < points.size() && switches(points[i + 1])) ++i;
    spans.push_back({edge_beside(points, first, -1), edge_beside(points, i, 1)});
  }
  return spans;
}

bool limits_are_in_doubt(const ChartPoint& point) {
  constexpr double much = 0.3;  // as a standard error; rectangular, its half-width is then half of the limits'
  if (!is_past_the_span(point)) return false;
  const Limits& limits = point.expected->limits;
  if (!limits.lower || !limits.upper) return true;
  const double half_width = 0.5 * std::abs(limits.upper->value_in_si() - limits.lower->value_in_si());
  return point.expected->model_standard_error > much * half_width;
}

std::string remark_on_span(const Chart& chart, const Sentences& say) {
  const bool any = std::any_of(chart.lines.begin(), chart.lines.end(), [](const ChartLine& line) {
    return std::any_of(line.points.begin(), line.points.end(), is_past_the_span);
  });
  if (!any) return {};
  return say(
      OHMWRIGHT_TEXT("~ past the span that its ratings state: the curve itself is in doubt there, and where that doubt "
                     "is large the limits are not drawn firmly"));
}

double round_step(double span, std::size_t most) {
  const double least = span / static_cast<double>(most);
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double multiple : {1.0, 2.0, 5.0})
    if (multiple * power >= least * (1.0 - 1e-9)) return multiple * power;
  return 10.0 * power;
}

bool is_of_contacts(const Chart& chart) {
  return std::any_of(chart.lines.begin(), chart.lines.end(), [](const ChartLine& line) {
    return std::any_of(line.points.begin(), line.points.end(), [](const ChartPoint& point) {
      return point.expected && point.expected->share_closed.has_value();
    });
  });
}

}  // namespace ohmwright
