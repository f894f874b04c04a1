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

std::string csv_number(const std::optional<AnyQuantity>& value) {
  return value ? fmt::format("{}", value->value_in_si()) : std::string();
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

}  // namespace

std::string chart_csv(const Chart& chart) {
  const std::string condition = si_unit_of_condition(chart);
  const std::string measurand = si_unit_of_measurand(chart);
  std::string csv =
      fmt::format("{} [{}],state,nominal [{}],lower [{}],upper [{}],model_standard_error [{}],share_closed\n",
                  chart.axis.condition, condition, measurand, measurand, measurand, measurand);
  for (const ChartLine& line : chart.lines) {
    for (const ChartPoint& point : line.points) {
      csv += fmt::format("{:.10g},{},", point.condition, line.state);
      if (!point.expected)
        csv += ",,,,\n";
      else if (point.expected->share_closed)
        csv += fmt::format(",,,,{}\n", *point.expected->share_closed);
      else
        csv += fmt::format("{},{},{},{},\n", point.expected->nominal.value_in_si(),
                           csv_number(point.expected->limits.lower), csv_number(point.expected->limits.upper),
                           point.expected->model_standard_error);
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
  for (const ChartMark& mark : chart.marks)
    json["marks"].push_back({{"label", mark.label},
                             {"at", mark.condition},
                             {"at_half_width", mark.condition_half_width},
                             {"value", mark.value},
                             {"value_half_width", mark.value_half_width}});
  return json.dump(2) + '\n';
}

}  // namespace ohmwright
