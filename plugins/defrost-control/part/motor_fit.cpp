#include "part/motor_fit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>

#include "part/motor.hpp"
#include "rules/names.hpp"

namespace ohmwright::defrost_control {

namespace {

/// A row farther than this from the middle one is another motor, another range, or a slip (common practice, no source).
constexpr double widest_share_off = 0.1;
/// A hand-held meter's own error, where the rows agree better than it can know (generic class, no source).
constexpr double meter_share = 0.009;

const Temperature reference = Temperature::from_celsius(25.0);

struct Used {
  std::size_t row = 0;
  double ohms = 0.0;  ///< at the reference
  double kelvin = 0.0;
};

class MotorFit {
 public:
  explicit MotorFit(const FitRequest& request) : rows_(request.rows) {}

  Fitting fit() {
    for (std::size_t i = 0; i < rows_.size(); ++i) take(i);
    leave_out_strays();
    if (used_.empty())
      remark(all_rows, false, {"no-rows", OHMWRIGHT_TEXT("no row holds the ohms of a motor")});
    else
      add_form();
    std::stable_sort(fitting_.remarks.begin(), fitting_.remarks.end(),
                     [](const RowRemark& a, const RowRemark& b) { return a.row < b.row; });
    return std::move(fitting_);
  }

 private:
  RowRemark& remark(std::size_t row, bool left_out, TextEntry text) {
    return fitting_.remarks.emplace_back(RowRemark{row, left_out, text, {}});
  }

  void take(std::size_t index) {
    const auto* stated = std::get_if<StatedValue>(&rows_[index].observed);
    if (stated == nullptr || !(stated->value.value_in_si() > 0.0)) {
      remark(index, true, {"no-value", OHMWRIGHT_TEXT("no ohms were shown")});
      return;
    }
    const double kelvin = rows_[index].condition.value_in_si();
    const double factor = copper_factor(Temperature::from_kelvin(kelvin), reference);
    used_.push_back({index, factor * stated->value.value_in_si(), kelvin});
  }

  double middle() const {
    std::vector<double> all;
    for (const Used& one : used_) all.push_back(one.ohms);
    const auto half = all.begin() + static_cast<std::ptrdiff_t>(all.size() / 2);
    std::nth_element(all.begin(), half, all.end());
    return *half;
  }

  void leave_out_strays() {
    if (used_.size() < 3) return;
    const double expected = middle();
    std::erase_if(used_, [&](const Used& one) {
      if (std::abs(one.ohms / expected - 1.0) <= widest_share_off) return false;
      RowRemark& stray =
          remark(one.row, true,
                 {"stray", OHMWRIGHT_TEXT("{value} at 25 °C, where the others lie about {expected}: another "
                                          "motor, another unit, or a slip")});
      stray.arguments.push_back({"value", AnyQuantity(Dimension::resistance, one.ohms)});
      stray.arguments.push_back({"expected", AnyQuantity(Dimension::resistance, expected)});
      return true;
    });
  }

  void add_form() {
    const auto count = static_cast<double>(used_.size());
    const double mean =
        std::accumulate(used_.begin(), used_.end(), 0.0, [](double sum, const Used& u) { return sum + u.ohms; }) /
        count;
    double squares = 0.0;
    for (const Used& one : used_) squares += (one.ohms - mean) * (one.ohms - mean);
    const double scatter = used_.size() > 1 ? std::sqrt(squares / (count - 1.0)) : 0.0;
    const double u = std::hypot(scatter / std::sqrt(count), meter_share * mean / std::sqrt(3.0));
    FittedRatings& form = fitting_.forms.emplace_back();
    form.form = "motor-winding";
    form.figures = {{"motor", mean, u, "ohm"}};
    form.ratings = ratings(mean - 2.0 * u, mean + 2.0 * u);
    form.residuals = residuals_in_kelvin(mean);
    form.standard_deviation = AnyQuantity(Dimension::temperature_difference, scatter / mean * inferred_kelvin());
    const auto [coldest, warmest] = std::minmax_element(
        used_.begin(), used_.end(), [](const Used& a, const Used& b) { return a.kelvin < b.kelvin; });
    form.from = AnyQuantity(Dimension::temperature, coldest->kelvin);
    form.to = AnyQuantity(Dimension::temperature, warmest->kelvin);
  }

  /// Kelvin in which copper gains as much as it has at the reference.
  static double inferred_kelvin() { return copper_inferred_zero + reference.celsius(); }

  std::vector<AnyQuantity> residuals_in_kelvin(double mean) const {
    std::vector<AnyQuantity> residuals(rows_.size(), AnyQuantity(Dimension::temperature_difference, 0.0));
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const auto* stated = std::get_if<StatedValue>(&rows_[i].observed);
      if (stated == nullptr) continue;
      const Temperature t = Temperature::from_kelvin(rows_[i].condition.value_in_si());
      const double off = stated->value.value_in_si() * copper_factor(t, reference) / mean - 1.0;
      residuals[i] = AnyQuantity(Dimension::temperature_difference, off * inferred_kelvin());
    }
    return residuals;
  }

  ValueNode ratings(double least, double most) const {
    const std::string source = "fitted from " + std::to_string(used_.size()) + " rows of one motor";
    const auto figure = [&](double ohm) {
      std::string text =
          display_text({Dimension::resistance, ohm},
                       {.significant_digits = 4, .spelling = Spelling::ascii, .units = {}, .fixed_unit = {}});
      return ValueNode(
          ValueNode::Members{{"value", ValueNode(std::move(text), "", 0)}, {"source", ValueNode(source, "", 0)}}, "",
          0);
    };
    return {ValueNode::Members{{"type", ValueNode(std::string("cam-timer"), "", 0)},
                               {"motor_least", figure(least)},
                               {"motor_most", figure(most)}},
            "", 0};
  }

  std::span<const MeasuredRow> rows_;
  std::vector<Used> used_;
  Fitting fitting_;
};

}  // namespace

Fitting fit_motor(const FitRequest& request) {
  if (request.measurand != motor || request.condition != part_temperature) return {};
  return MotorFit(request).fit();
}

}  // namespace ohmwright::defrost_control
