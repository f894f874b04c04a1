#include "part/drop_fit.hpp"

#include <algorithm>
#include <cmath>

#include <ohmwright/quantity/message.hpp>

#include "rules/names.hpp"

namespace ohmwright::wiring {

namespace {

/// Below this nothing of a drop can be seen (common practice, no source) [A].
constexpr double least_ampere = 0.05;
/// A hand-held meter and a clamp, where the rows agree better than these can know (generic classes, no source).
constexpr double instruments_share = 0.02;
/// Rows off the line by more than this share of the largest drop bend it (common practice, no source).
constexpr double bend_share = 0.05;

/// No meter shows less: what is below is rounding of doubles [V].
constexpr double rounding_volt = 1e-12;

struct Used {
  double ampere = 0.0;
  double volt = 0.0;
};

/// volt = slope·ampere + zero
struct Line {
  double slope = 0.0;
  double zero = 0.0;
  double scatter = 0.0;            ///< standard deviation of the residuals [V]
  double slope_uncertainty = 0.0;  ///< standard [ohm]
};

bool currents_differ(const std::vector<Used>& rows) {
  const auto [least, most] =
      std::minmax_element(rows.begin(), rows.end(), [](const Used& a, const Used& b) { return a.ampere < b.ampere; });
  return rows.size() >= 3 && most->ampere > 1.2 * least->ampere;
}

/// Ordinary least squares; through zero where the rows cannot tell the meter's zero.
Line line_through(const std::vector<Used>& rows) {
  const auto n = static_cast<double>(rows.size());
  const bool with_zero = currents_differ(rows);
  double mean_i = 0.0;
  double mean_u = 0.0;
  if (with_zero)
    for (const Used& row : rows) {
      mean_i += row.ampere / n;
      mean_u += row.volt / n;
    }
  double squares = 0.0;
  double products = 0.0;
  for (const Used& row : rows) {
    squares += (row.ampere - mean_i) * (row.ampere - mean_i);
    products += (row.ampere - mean_i) * (row.volt - mean_u);
  }
  Line line;
  line.slope = products / squares;
  line.zero = mean_u - line.slope * mean_i;
  double residual_squares = 0.0;
  for (const Used& row : rows) {
    const double residual = row.volt - line.slope * row.ampere - line.zero;
    residual_squares += residual * residual;
  }
  const double freedom = n - (with_zero ? 2.0 : 1.0);
  line.scatter = freedom > 0.0 ? std::sqrt(residual_squares / freedom) : 0.0;
  if (line.scatter < rounding_volt) line.scatter = 0.0;
  line.slope_uncertainty =
      std::hypot(line.scatter / std::sqrt(squares), instruments_share * line.slope / std::sqrt(3.0));
  return line;
}

class DropFit {
 public:
  explicit DropFit(const FitRequest& request) : rows_(request.rows) {}

  Fitting fit() {
    for (std::size_t i = 0; i < rows_.size(); ++i) take(i);
    if (used_.empty()) {
      remark(all_rows, false,
             {"no-rows", OHMWRIGHT_TEXT("no row holds volts across it and the current that made them")});
      return std::move(fitting_);
    }
    const Line line = line_through(used_);
    const double largest = std::max_element(used_.begin(), used_.end(), [](const Used& a, const Used& b) {
                             return a.volt < b.volt;
                           })->volt;
    if (line.scatter > bend_share * largest)
      remark(
          all_rows, false,
          {"no-line", OHMWRIGHT_TEXT("the drop does not grow in step with the current: the joint changes as it warms "
                                     "up, or it comes and goes")});
    add_form(line);
    return std::move(fitting_);
  }

 private:
  void remark(std::size_t row, bool left_out, TextEntry text) {
    fitting_.remarks.push_back(RowRemark{row, left_out, text, {}});
  }

  void take(std::size_t index) {
    const auto* stated = std::get_if<StatedValue>(&rows_[index].observed);
    const double ampere = rows_[index].condition.value_in_si();
    if (stated == nullptr)
      remark(index, true, {"no-value", OHMWRIGHT_TEXT("no volts were shown")});
    else if (!(ampere >= least_ampere))
      remark(index, true, {"no-current", OHMWRIGHT_TEXT("no current flowed that could make a drop")});
    else
      used_.push_back({ampere, std::abs(stated->value.value_in_si())});
  }

  void add_form(const Line& line) {
    FittedRatings& form = fitting_.forms.emplace_back();
    form.form = "resistance";
    form.figures = {{"resistance", line.slope, line.slope_uncertainty, "ohm"}};
    form.residuals.assign(rows_.size(), AnyQuantity(Dimension::voltage, 0.0));
    for (std::size_t i = 0; i < rows_.size(); ++i)
      if (const auto* stated = std::get_if<StatedValue>(&rows_[i].observed))
        form.residuals[i] =
            AnyQuantity(Dimension::voltage, std::abs(stated->value.value_in_si()) -
                                                line.slope * rows_[i].condition.value_in_si() - line.zero);
    form.standard_deviation = AnyQuantity(Dimension::voltage, line.scatter);
    const auto [least, most] = std::minmax_element(used_.begin(), used_.end(),
                                                   [](const Used& a, const Used& b) { return a.ampere < b.ampere; });
    form.from = AnyQuantity(Dimension::current, least->ampere);
    form.to = AnyQuantity(Dimension::current, most->ampere);
  }

  std::span<const MeasuredRow> rows_;
  std::vector<Used> used_;
  Fitting fitting_;
};

}  // namespace

Fitting fit_drop(const FitRequest& request) {
  if (request.measurand != drop || request.condition != load_current) return {};
  return DropFit(request).fit();
}

}  // namespace ohmwright::wiring
