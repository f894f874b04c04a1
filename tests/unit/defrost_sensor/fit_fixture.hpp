#pragma once

#include <stdexcept>
#include <string>
#include <utility>
#include <vector>

#include <ohmwright/component/fitting.hpp>

#include "fit/fit_sensor.hpp"
#include "sensor_fixture.hpp"

// Rows to fit, and what is looked up in a fitting.

namespace ohmwright::defrost_sensor::testing_support {

/// °C and ohms.
using Chart = std::vector<std::pair<double, double>>;

/// The published 3977 K material to four digits, -40 to 50 °C by ten kelvin.
inline Chart published_chart() {
  return {{-40, 332100}, {-30, 175200}, {-20, 96360}, {-10, 55050}, {0, 32550},
          {10, 19870},   {20, 12490},   {30, 8059},   {40, 5330},   {50, 3605}};
}

inline StatedValue stated_ohms(double ohms, double half_width = 0.0) {
  const std::optional<double> doubt = half_width > 0.0 ? std::optional(half_width) : std::nullopt;
  return {AnyQuantity(Dimension::resistance, ohms), doubt, Unit::si(Dimension::resistance)};
}

inline MeasuredRow measured(double at_celsius, Observed observed, double half_width_kelvin = 0.0) {
  return {AnyQuantity(celsius(at_celsius)), half_width_kelvin, observed};
}

inline std::vector<MeasuredRow> rows_of(const Chart& chart, double half_width_kelvin = 0.0) {
  std::vector<MeasuredRow> rows;
  for (const auto& [t, r] : chart) rows.push_back(measured(t, stated_ohms(r), half_width_kelvin));
  return rows;
}

inline Fitting fit(const std::vector<MeasuredRow>& rows) { return fit_sensor({resistance, part_temperature, rows}); }
inline Fitting fit(const Chart& chart) { return fit(rows_of(chart)); }

inline const FittedRatings& form_of(const Fitting& fitting, std::string_view name) {
  for (const FittedRatings& form : fitting.forms)
    if (form.form == name) return form;
  throw std::logic_error("no form " + std::string(name));
}

inline const FittedFigure& figure_of(const FittedRatings& form, std::string_view name) {
  for (const FittedFigure& figure : form.figures)
    if (figure.name == name) return figure;
  throw std::logic_error("no figure " + std::string(name));
}

inline std::vector<std::string> forms_of(const Fitting& fitting) {
  std::vector<std::string> names;
  for (const FittedRatings& form : fitting.forms) names.push_back(form.form);
  return names;
}

inline std::string row_of(const RowRemark& remark) {
  return remark.row == all_rows ? "all" : std::to_string(remark.row);
}

/// "row id" of every remark, with a minus before the row where it was left out.
inline std::vector<std::string> remarks_of(const Fitting& fitting) {
  std::vector<std::string> found;
  for (const RowRemark& remark : fitting.remarks)
    found.push_back((remark.left_out ? "-" : "") + row_of(remark) + " " + std::string(remark.text.id));
  return found;
}

/// A named argument in SI.
template <class Told>
double told(const Told& remark, std::string_view name) {
  for (const FindingArgument& argument : remark.arguments) {
    if (argument.name != name) continue;
    if (const auto* quantity = std::get_if<AnyQuantity>(&argument.value)) return quantity->value_in_si();
    return std::get<double>(argument.value);
  }
  throw std::logic_error("no argument " + std::string(name));
}

}  // namespace ohmwright::defrost_sensor::testing_support
