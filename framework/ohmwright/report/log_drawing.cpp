// What the picture of a log is drawn from, as a job keeps it.

#include <algorithm>
#include <cmath>

#include <nlohmann/json.hpp>

#include <ohmwright/report/log_picture.hpp>

namespace ohmwright {

namespace {

using DrawingJson = nlohmann::ordered_json;

std::string field_of_quantity(std::size_t quantity) {
  return std::string(name_of(cycles::log_quantities.at(quantity)));
}

/// Digits enough for any picture, and no more: a float is written as if it were a double.
double to_the_thousandth(double value) { return std::round(value * 1000.0) / 1000.0; }

/// [least, greatest] of each column, null where nothing was logged.
DrawingJson extents_record(const cycles::PlotColumns& columns, std::size_t quantity) {
  DrawingJson list = DrawingJson::array();
  for (const auto& column : columns)
    list.push_back(column[quantity].is_empty()
                       ? DrawingJson()
                       : DrawingJson{to_the_thousandth(static_cast<double>(column[quantity].least)),
                                     to_the_thousandth(static_cast<double>(column[quantity].most))});
  return list;
}

/// Two finite numbers, the second not below the first.
std::optional<LogDrawing::Stretch> stretch_in(const DrawingJson& record) {
  if (!record.is_array() || record.size() != 2 || !record[0].is_number() || !record[1].is_number()) return std::nullopt;
  const LogDrawing::Stretch stretch{record[0].get<double>(), record[1].get<double>()};
  constexpr double most = 1e12;
  const bool is_one = std::abs(stretch.from_second) < most && std::abs(stretch.to_second) < most &&
                      stretch.from_second <= stretch.to_second;
  return is_one ? std::optional(stretch) : std::nullopt;
}

std::optional<double> finite_number_in(const DrawingJson& record, const char* name) {
  const auto found = record.find(name);
  if (found == record.end() || !found->is_number()) return std::nullopt;
  constexpr double most = 1e12;
  const double number = found->get<double>();
  return std::abs(number) < most ? std::optional(number) : std::nullopt;
}

/// Whether all that is said of that quantity could be read.
bool take_extents(const DrawingJson& record, std::size_t quantity, cycles::PlotColumns& columns) {
  const auto found = record.find(field_of_quantity(quantity));
  if (found == record.end()) return true;
  if (!found->is_array() || found->size() > cycles::LogOutline::most_columns) return false;
  columns.resize(std::max(columns.size(), found->size()));
  for (std::size_t i = 0; i < found->size(); ++i) {
    if ((*found)[i].is_null()) continue;
    const std::optional<LogDrawing::Stretch> extent = stretch_in((*found)[i]);
    if (!extent) return false;
    columns[i][quantity].take(static_cast<float>(extent->from_second));
    columns[i][quantity].take(static_cast<float>(extent->to_second));
  }
  return true;
}

}  // namespace

std::string drawing_record(const LogDrawing& drawing) {
  DrawingJson record;
  if (drawing.start_second) record["start_second"] = *drawing.start_second;
  record["column_second"] = drawing.column_second;
  DrawingJson defrosts = DrawingJson::array();
  for (const LogDrawing::Stretch& defrost : drawing.defrosts)
    defrosts.push_back({to_the_thousandth(defrost.from_second), to_the_thousandth(defrost.to_second)});
  record["defrosts"] = std::move(defrosts);
  for (std::size_t q = 0; q < cycles::log_quantity_count; ++q) {
    const bool is_logged = std::any_of(drawing.columns.begin(), drawing.columns.end(),
                                       [q](const auto& column) { return !column[q].is_empty(); });
    if (is_logged) record[field_of_quantity(q)] = extents_record(drawing.columns, q);
  }
  return record.dump();
}

std::optional<LogDrawing> drawing_from_record(std::string_view text) {
  const DrawingJson record = DrawingJson::parse(text, nullptr, false);
  if (!record.is_object()) return std::nullopt;
  LogDrawing drawing;
  drawing.start_second = finite_number_in(record, "start_second");
  const std::optional<double> column = finite_number_in(record, "column_second");
  if (!column || !(*column > 0.0)) return std::nullopt;
  drawing.column_second = *column;
  for (std::size_t q = 0; q < cycles::log_quantity_count; ++q)
    if (!take_extents(record, q, drawing.columns)) return std::nullopt;
  const auto defrosts = record.find("defrosts");
  if (defrosts == record.end() || !defrosts->is_array()) return drawing;
  for (const DrawingJson& one : *defrosts) {
    const std::optional<LogDrawing::Stretch> stretch = stretch_in(one);
    if (!stretch) return std::nullopt;
    drawing.defrosts.push_back(*stretch);
  }
  return drawing;
}

}  // namespace ohmwright
