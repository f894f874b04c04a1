#include "fit/forward_search.hpp"

#include <algorithm>
#include <limits>
#include <numeric>

#include <ohmwright/uncertainty/distribution.hpp>

#include "fit/working_model.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr std::size_t fewest_rows = 6;
constexpr double false_alarm = 0.01;
constexpr double smallest_scatter_kelvin = 1e-6;  ///< keeps the ratios finite for rows that were computed
/// Of many rows several move at once: one at a time would take a second for each thousand.
constexpr std::size_t rows_a_step = 200;

class Search {
 public:
  Search(std::span<const FitRow> rows, const ThermistorLine& line) : rows_(rows), line_(line), outside_(rows.size()) {}

  std::vector<bool> run() {
    const std::size_t base = std::max(WorkingModel::parameters + 2, (6 * rows_.size() + 9) / 10);
    while (inside() > base) put_aside(std::min(inside() - base, 1 + rows_.size() / rows_a_step));
    while (inside() < rows_.size() && take_back(1 + rows_.size() / rows_a_step)) continue;
    return outside_;
  }

 private:
  std::size_t inside() const { return static_cast<std::size_t>(std::count(outside_.begin(), outside_.end(), false)); }

  WorkingModel model() const {
    FitRows kept;
    for (std::size_t i = 0; i < rows_.size(); ++i)
      if (!outside_[i]) kept.push_back(rows_[i]);
    return {kept, line_};
  }

  /// The rows on one side, by their figure; least first.
  template <class Figure>
  std::vector<std::size_t> sorted(bool outside, Figure figure) const {
    std::vector<double> figures(rows_.size());
    std::vector<std::size_t> order;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      if (outside_[i] != outside) continue;
      figures[i] = figure(rows_[i]);
      order.push_back(i);
    }
    std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) { return figures[a] < figures[b]; });
    return order;
  }

  void put_aside(std::size_t count) {
    const WorkingModel fitted = model();
    const auto freedom = static_cast<double>(fitted.degrees_of_freedom());
    const double squares = freedom * fitted.scatter() * fitted.scatter();
    // The row's error against the scatter of the others, as if it had not been fitted.
    const std::vector<std::size_t> order = sorted(false, [&](const FitRow& row) {
      const double free = 1.0 - fitted.leverage(row);
      if (!(free > 1e-9) || freedom < 2.0) return 0.0;
      const double square = fitted.kelvin_off(row) * fitted.kelvin_off(row) / free;
      const double others = std::max((squares - square) / (freedom - 1.0), 0.0);
      return square / std::max(others, smallest_scatter_kelvin * smallest_scatter_kelvin);
    });
    for (std::size_t k = 0; k < count; ++k) outside_[order[order.size() - 1 - k]] = true;
  }

  /// Whether any came back.
  bool take_back(std::size_t count) {
    const WorkingModel fitted = model();
    const double scatter = std::max(fitted.scatter(), smallest_scatter_kelvin);
    const double share = false_alarm / static_cast<double>(rows_.size());
    const double largest = student_t_quantile(
        1.0 - 0.5 * share, static_cast<double>(std::max<std::size_t>(fitted.degrees_of_freedom(), 1)));
    const auto ratio = [&](const FitRow& row) {
      return std::abs(fitted.kelvin_off(row)) / (scatter * std::sqrt(1.0 + fitted.leverage(row)));
    };
    bool any = false;
    for (const std::size_t i : sorted(true, ratio)) {
      if (count == 0) break;
      if (ratio(rows_[i]) > largest && std::abs(fitted.kelvin_off(rows_[i])) > harmless_kelvin) continue;
      outside_[i] = false;
      any = true;
      --count;
    }
    return any;
  }

  std::span<const FitRow> rows_;
  const ThermistorLine& line_;
  std::vector<bool> outside_;
};

}  // namespace

std::vector<bool> not_borne_out(std::span<const FitRow> rows, const ThermistorLine& line) {
  std::vector<bool> none(rows.size(), false);
  return rows.size() < fewest_rows ? none : Search(rows, line).run();
}

}  // namespace ohmwright::defrost_sensor
