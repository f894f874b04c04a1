#include "part/winding_fit.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>

#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>

#include "part/fan_motor_ratings.hpp"
#include "rules/names.hpp"

namespace ohmwright::fan_motor {

namespace {

/// A row farther than this from the middle one is another winding, another range, or a slip (common practice, no
/// source).
constexpr double widest_share_off = 0.1;
/// Where the ratings state it.
constexpr double reference_celsius = 25.0;
/// A hand-held meter's own error, where the rows agree better than it can know (generic class, no source).
constexpr double meter_share = 0.009;

struct Used {
  std::size_t row = 0;
  double ohms = 0.0;
  double kelvin = 0.0;
};

double middle_of(std::vector<Used> rows) {
  const auto half = static_cast<std::ptrdiff_t>(rows.size() / 2);
  std::nth_element(rows.begin(), rows.begin() + half, rows.end(),
                   [](const Used& a, const Used& b) { return a.ohms < b.ohms; });
  return rows[rows.size() / 2].ohms;
}

class WindingFit {
 public:
  explicit WindingFit(const FitRequest& request) : rows_(request.rows) {}

  Fitting fit() {
    for (std::size_t i = 0; i < rows_.size(); ++i) take(i);
    leave_out_strays();
    if (used_.empty())
      remark(all_rows, false, {"no-rows", OHMWRIGHT_TEXT("no row holds the ohms of a winding")});
    else
      add_form();
    return std::move(fitting_);
  }

 private:
  RowRemark& remark(std::size_t row, bool left_out, TextEntry text) {
    return fitting_.remarks.emplace_back(RowRemark{row, left_out, text, {}});
  }

  void take(std::size_t index) {
    const auto* stated = std::get_if<StatedValue>(&rows_[index].observed);
    const double kelvin = rows_[index].condition.value_in_si();
    if (stated == nullptr || !(stated->value.value_in_si() > 0.0)) {
      remark(index, true, {"no-value", OHMWRIGHT_TEXT("no ohms were shown")});
    } else {
      used_.push_back({index, at_reference(index, stated->value.value_in_si()), kelvin});
    }
  }

  double at_reference(std::size_t row, double ohms) const {
    const Temperature t = Temperature::from_kelvin(rows_[row].condition.value_in_si());
    return ohms * winding_factor(constant_of_copper, t, Temperature::from_celsius(reference_celsius));
  }

  void leave_out_strays() {
    if (used_.size() < 3) return;
    const double middle = middle_of(used_);
    std::erase_if(used_, [&](const Used& one) {
      if (std::abs(one.ohms / middle - 1.0) <= widest_share_off) return false;
      RowRemark& stray = remark(one.row, true,
                                {"stray", OHMWRIGHT_TEXT("{value}, where the others lie about {expected}: another "
                                                         "winding, another unit, or a slip")});
      stray.arguments.push_back({"value", AnyQuantity(Dimension::resistance, one.ohms)});
      stray.arguments.push_back({"expected", AnyQuantity(Dimension::resistance, middle)});
      return true;
    });
  }

  static std::string figure_text(AnyQuantity value) {
    return display_text(value, {.significant_digits = 4, .spelling = Spelling::ascii, .units = {}, .fixed_unit = {}});
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
    form.form = "winding";
    form.figures = {{"winding", mean, u, "ohm"}};
    form.ratings = ratings(mean, u);
    form.residuals.assign(rows_.size(), AnyQuantity(Dimension::resistance, 0.0));
    for (std::size_t i = 0; i < rows_.size(); ++i)
      if (const auto* stated = std::get_if<StatedValue>(&rows_[i].observed))
        form.residuals[i] = AnyQuantity(Dimension::resistance, at_reference(i, stated->value.value_in_si()) - mean);
    form.standard_deviation = AnyQuantity(Dimension::resistance, scatter);
    const auto [coldest, warmest] = std::minmax_element(
        used_.begin(), used_.end(), [](const Used& a, const Used& b) { return a.kelvin < b.kelvin; });
    form.from = AnyQuantity(Dimension::temperature, coldest->kelvin);
    form.to = AnyQuantity(Dimension::temperature, warmest->kelvin);
  }

  ValueNode ratings(double mean, double u) const {
    const std::string source = "fitted from " + std::to_string(used_.size()) + " rows of one part";
    const auto figure = [&](std::string value) {
      return ValueNode(
          ValueNode::Members{{"value", ValueNode(std::move(value), "", 0)}, {"source", ValueNode(source, "", 0)}}, "",
          0);
    };
    return {ValueNode::Members{{"construction", ValueNode(std::string("shaded-pole"), "", 0)},
                               {"winding", figure(figure_text({Dimension::resistance, mean}))},
                               {"winding_tolerance", figure(figure_text({Dimension::ratio, 2.0 * u / mean}))}},
            "", 0};
  }

  std::span<const MeasuredRow> rows_;
  std::vector<Used> used_;
  Fitting fitting_;
};

}  // namespace

Fitting fit_winding(const FitRequest& request) {
  if (request.measurand != winding || request.condition != part_temperature) return {};
  return WindingFit(request).fit();
}

}  // namespace ohmwright::fan_motor
