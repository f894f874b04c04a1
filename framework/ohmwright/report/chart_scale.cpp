#include <algorithm>
#include <cmath>
#include <limits>

#include <ohmwright/report/chart_scale.hpp>

namespace ohmwright {

namespace {

class Reach {
 public:
  explicit Reach(bool only_positive) : only_positive_(only_positive) {}

  void take(double value) {
    if (!std::isfinite(value) || (only_positive_ && value <= 0.0)) return;
    lowest_ = std::min(lowest_, value);
    highest_ = std::max(highest_, value);
  }
  void take(const std::optional<AnyQuantity>& value) {
    if (value) take(value->value_in_si());
  }
  bool empty() const { return lowest_ > highest_; }
  double lowest() const { return lowest_; }
  double highest() const { return highest_; }

 private:
  bool only_positive_;
  double lowest_ = std::numeric_limits<double>::infinity();
  double highest_ = -std::numeric_limits<double>::infinity();
};

}  // namespace

double drawn_value(const Expectation& expected) {
  return expected.share_closed ? *expected.share_closed : expected.nominal.value_in_si();
}

ChartScale scale_of(const Chart& chart) {
  if (is_of_contacts(chart)) return {0.0, 1.0, false};
  Reach reach(chart.axis.logarithmic);
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      if (!point.expected) continue;
      reach.take(point.expected->nominal);
      reach.take(point.expected->limits.lower);
      reach.take(point.expected->limits.upper);
    }
  }
  for (const ChartMark& mark : chart.marks) {
    reach.take(mark.value - mark.value_half_width);
    reach.take(mark.value + mark.value_half_width);
  }
  if (reach.empty()) return {1.0, 2.0, chart.axis.logarithmic};
  if (reach.lowest() < reach.highest()) {
    constexpr double decades_worth_it = 20.0;  // less than this reads better on a straight axis
    const bool logarithmic = chart.axis.logarithmic && reach.highest() > decades_worth_it * reach.lowest();
    return {reach.lowest(), reach.highest(), logarithmic};
  }
  const double size = std::max(std::abs(reach.lowest()), 1e-12);
  return {reach.lowest() - 0.5 * size, reach.lowest() + 0.5 * size, chart.axis.logarithmic};
}

std::string vertical_title(const Chart& chart, const Sentences& say) {
  if (is_of_contacts(chart)) return say(OHMWRIGHT_TEXT("Share of good parts that are closed"));
  const std::uint16_t measurand = index_of(chart.descriptor.measurands, chart.axis.measurand);
  return say.in_domain(chart.descriptor.text_domain, chart.descriptor.measurands[measurand].title);
}

std::string horizontal_title(const Chart& chart, const Sentences& say) {
  const std::uint16_t condition = index_of(chart.descriptor.conditions, chart.axis.condition);
  return say.in_domain(chart.descriptor.text_domain, chart.descriptor.conditions[condition].title);
}

std::string line_title(const Chart& chart, const ChartLine& line, const Sentences& say) {
  return line.state.empty() ? vertical_title(chart, say) : state_title(chart, line, say);
}

std::string state_title(const Chart& chart, const ChartLine& line, const Sentences& say) {
  const std::uint16_t state = index_of(chart.descriptor.states, chart.axis.state);
  if (line.state.empty() || state == not_found) return line.state;
  const std::vector<TextEntry>& values = chart.descriptor.states[state].values;
  const std::uint16_t value = index_of(values, line.state);
  return value == not_found ? line.state : say.in_domain(chart.descriptor.text_domain, values[value].english);
}

}  // namespace ohmwright
