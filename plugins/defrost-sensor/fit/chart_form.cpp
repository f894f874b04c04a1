#include "curves/chart_curve.hpp"
#include "fit/form.hpp"

namespace ohmwright::defrost_sensor {

std::optional<Form> chart_of(const FitRows& rows, std::optional<std::size_t>& trouble) {
  if (rows.size() < 2 || rows.size() > most_chart_rows) return std::nullopt;
  std::vector<CurvePoint> points;
  ValueNode::Array nodes;
  for (const FitRow& row : rows) {
    points.push_back({row.temperature, row.resistance});
    nodes.push_back(
        object_node({{"temperature", celsius_node(row.temperature)}, {"resistance", resistance_node(row.resistance)}}));
  }
  if (const std::optional<ChartTrouble> found = ChartCurve::trouble(points)) {
    trouble = found->row;
    return std::nullopt;
  }
  Form form;
  form.name = "chart";
  form.curve = std::make_shared<ChartCurve>(std::move(points));
  form.curve_node = object_node({{"form", text_node(form.name)}, {"rows", ValueNode(std::move(nodes), "", 0)}});
  return form;
}

}  // namespace ohmwright::defrost_sensor
