#include <algorithm>
#include <cmath>
#include <numbers>

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

std::vector<ChartMark> chart_marks(const Descriptor& descriptor, const ChartAxis& axis, const Evidence& evidence) {
  const std::uint16_t measurand = index_of(descriptor.measurands, axis.measurand);
  const std::uint16_t condition = index_of(descriptor.conditions, axis.condition);
  std::vector<ChartMark> marks;
  for (const PreparedReading& reading : evidence.readings()) {
    const Estimate* at = reading.condition(condition);
    if (reading.measurand != measurand || reading.shown != Shown::value || at == nullptr) continue;
    marks.push_back({evidence.label(reading), at->value(), std::numbers::sqrt3 * at->standard_uncertainty(),
                     reading.value.value(), std::numbers::sqrt3 * reading.value.standard_uncertainty()});
  }
  return marks;
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
