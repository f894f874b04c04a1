#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <ohmwright/report/chart.hpp>

namespace ohmwright {

namespace {

using Json = nlohmann::ordered_json;

std::string si_unit_of_condition(const Chart& chart) {
  const std::uint16_t condition = index_of(chart.descriptor.conditions, chart.axis.condition);
  return std::string(si_unit_of(chart.descriptor.conditions[condition].dimension));
}

std::string si_unit_of_measurand(const Chart& chart) {
  const std::uint16_t measurand = index_of(chart.descriptor.measurands, chart.axis.measurand);
  return std::string(si_unit_of(chart.descriptor.measurands[measurand].dimension));
}

/// Nine digits tell a value apart from any that a meter shows, and none of what a change of units leaves.
/// Nor is a nought one that is written as 1e-14.
std::string csv_number(double value) {
  constexpr double rounding = 1e-9;
  return fmt::format("{:.9g}", std::abs(value) < rounding ? 0.0 : value);
}

std::string csv_number(const std::optional<AnyQuantity>& value, Unit unit) {
  return value ? csv_number(unit.from_si(value->value_in_si())) : std::string();
}

/// One unit for the whole column: that of its largest value.
Unit csv_unit_of_measurand(const Chart& chart, const Sentences& say) {
  const std::uint16_t measurand = index_of(chart.descriptor.measurands, chart.axis.measurand);
  if (is_of_contacts(chart)) return Unit::si(chart.descriptor.measurands[measurand].dimension);  // shares alone
  double largest = 0.0;
  for (const ChartLine& line : chart.lines)
    for (const ChartPoint& point : line.points)
      if (point.expected) largest = std::max(largest, std::abs(point.expected->nominal.value_in_si()));
  return say.unit_for({chart.descriptor.measurands[measurand].dimension, largest});
}

Unit csv_unit_of_condition(const Chart& chart, const Sentences& say) {
  const std::uint16_t condition = index_of(chart.descriptor.conditions, chart.axis.condition);
  return say.unit_for({chart.descriptor.conditions[condition].dimension, chart.lines.front().points.back().condition});
}

Json point_json(const ChartPoint& point) {
  Json json{{"at", point.condition}};
  if (!point.expected) return json;
  const Expectation& expected = *point.expected;
  if (expected.share_closed) {
    json["share_closed"] = *expected.share_closed;
    return json;
  }
  json["nominal"] = expected.nominal.value_in_si();
  if (expected.limits.lower) json["lower"] = expected.limits.lower->value_in_si();
  if (expected.limits.upper) json["upper"] = expected.limits.upper->value_in_si();
  if (expected.model_standard_error > 0.0) json["model_standard_error"] = expected.model_standard_error;
  return json;
}

std::string_view seen_in_words(double share) {
  if (share >= 1.0) return "closed";
  return share <= 0.0 ? "open" : "neither";
}

Json mark_json(const Chart& chart, const ChartMark& mark) {
  Json json{{"label", mark.label}, {"at", mark.condition}, {"at_half_width", mark.condition_half_width}};
  if (is_of_contacts(chart)) {
    json["seen"] = seen_in_words(mark.value);
    return json;
  }
  json["value"] = mark.value;
  json["value_half_width"] = mark.value_half_width;
  return json;
}

}  // namespace

std::string chart_csv(const Chart& chart, const Sentences& say) {
  const Unit condition = csv_unit_of_condition(chart, say);
  const Unit measurand = csv_unit_of_measurand(chart, say);
  const std::string symbol = measurand.symbol(Spelling::ascii);
  std::string csv = fmt::format(
      "{} [{}],state,nominal [{}],lower [{}],upper [{}],model_standard_error [{}],share_closed\n", chart.axis.condition,
      condition.symbol(Spelling::ascii), symbol, symbol, symbol, measurand.of_differences().symbol(Spelling::ascii));
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      csv += csv_number(condition.from_si(point.condition)) + ',' + line.state + ',';
      if (!point.expected)
        csv += ",,,,\n";
      else if (point.expected->share_closed)
        csv += ",,,," + csv_number(*point.expected->share_closed) + '\n';
      else
        csv += fmt::format("{},{},{},{},\n", csv_number(point.expected->nominal, measurand),
                           csv_number(point.expected->limits.lower, measurand),
                           csv_number(point.expected->limits.upper, measurand),
                           csv_number(measurand.of_differences().from_si(point.expected->model_standard_error)));
    }
  }
  return csv;
}

std::string chart_json(const Chart& chart) {
  Json json{{"kind", chart.descriptor.id},
            {"part", chart.part_title},
            {"measurand", chart.axis.measurand},
            {"condition", chart.axis.condition},
            {"unit", si_unit_of_measurand(chart)},
            {"condition_unit", si_unit_of_condition(chart)},
            {"lines", Json::array()},
            {"marks", Json::array()}};
  for (const ChartLine& line : chart.lines) {
    Json entry{{"state", line.state}, {"points", Json::array()}};
    for (const ChartPoint& point : line.points) entry["points"].push_back(point_json(point));
    json["lines"].push_back(std::move(entry));
  }
  for (const ChartMark& mark : chart.marks) json["marks"].push_back(mark_json(chart, mark));
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
