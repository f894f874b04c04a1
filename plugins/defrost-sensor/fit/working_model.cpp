#include "fit/working_model.hpp"

#include <algorithm>
#include <array>
#include <optional>

#include <ohmwright/quantity/error.hpp>

namespace ohmwright::defrost_sensor {

namespace {

std::array<double, WorkingModel::parameters> powers(double z) { return {1.0, z, z * z}; }

}  // namespace

WorkingModel::WorkingModel(std::span<const FitRow> rows, const ThermistorLine& line) : line_(line) {
  if (rows.size() <= parameters) return;
  const auto [hot, cold] = std::minmax_element(rows.begin(), rows.end(), [](const FitRow& a, const FitRow& b) {
    return a.inverse_kelvin() < b.inverse_kelvin();
  });
  middle_ = 0.5 * (hot->inverse_kelvin() + cold->inverse_kelvin());
  reach_ = 0.5 * (cold->inverse_kelvin() - hot->inverse_kelvin());
  std::vector<double> design;
  std::vector<double> observed;
  std::vector<double> weights;
  for (const FitRow& row : rows) {
    for (const double power : powers(scaled(row.temperature))) design.push_back(power);
    observed.push_back(row.log_resistance());
    weights.push_back(kelvin_per_log(row) * kelvin_per_log(row));
  }
  try {
    fit_ = fit_linear(design, parameters, observed, weights, WeightMeaning::inverse_variance);
  } catch (const InputError&) {
    // Fewer than three temperatures that differ tell no bend: the line stands.
  }
}

double WorkingModel::kelvin_per_log(const FitRow& row) const {
  return row.temperature.kelvin() * row.temperature.kelvin() / line_.beta_kelvin;
}

double WorkingModel::log_resistance(Temperature t) const {
  if (!fit_) return line_.log_resistance(t);
  const double z = scaled(t);
  return fit_->parameters[0] + z * (fit_->parameters[1] + z * fit_->parameters[2]);
}

double WorkingModel::kelvin_off(const FitRow& row) const {
  return -kelvin_per_log(row) * (row.log_resistance() - log_resistance(row.temperature));
}

double WorkingModel::scatter() const {
  return fit_ && fit_->degrees_of_freedom > 0 ? fit_->residual_standard_deviation() : 0.0;
}

double WorkingModel::leverage(const FitRow& row) const {
  if (!fit_) return 0.0;
  const double kelvin = kelvin_per_log(row);
  return kelvin * kelvin * fit_->variance_of_combination(powers(scaled(row.temperature)));
}

}  // namespace ohmwright::defrost_sensor
