#include <algorithm>
#include <cmath>
#include <numeric>
#include <optional>
#include <utility>

#include <ohmwright/component/mean_fit.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>

namespace ohmwright {

namespace {

/// A row farther than this from the median is another part, another range, or a slip (common practice, no source).
constexpr double widest_share_off = 0.1;

constexpr TextEntry no_rows{"no-rows", OHMWRIGHT_TEXT("no row holds ohms that could be used")};
constexpr TextEntry no_ohms{"no-value", OHMWRIGHT_TEXT("no ohms were shown")};
constexpr TextEntry too_warm{"not-cold", OHMWRIGHT_TEXT("the part was not cold")};
constexpr TextEntry stray{"stray", OHMWRIGHT_TEXT("{value}, where the others lie about {expected}: another part, "
                                                  "another range, or a slip")};
constexpr TextEntry slipped{"slipped", OHMWRIGHT_TEXT("{value}, a thousand times off the {expected} of the others: its "
                                                      "unit has slipped")};
constexpr TextEntry contradict{
    "contradict", OHMWRIGHT_TEXT("the rows contradict each other: {least} to {most}; read the part again")};
constexpr TextEntry contradict_by_unit{
    "contradict-by-unit", OHMWRIGHT_TEXT("a thousand lies between {least} and {most}: one of the units has slipped")};
constexpr TextEntry too_doubtful{
    "too-doubtful",
    OHMWRIGHT_TEXT(
        "no ratings are made: the mean is known to ± {doubt_percent} %, and good parts differ by {between_percent} "
        "% themselves; read it on a finer range, with the leads zeroed or by four wires")};

/// Whether two values are a prefix of the SI apart.
bool a_prefix_apart(double a, double b) {
  const double ratio = std::max(a, b) / std::min(a, b);
  return std::abs(ratio / 1e3 - 1.0) <= widest_share_off || std::abs(ratio / 1e6 - 1.0) <= widest_share_off;
}

struct UsedRow {
  std::size_t row = 0;
  double ohms = 0.0;  ///< at the reference
  double kelvin = 0.0;
  double meter_uncertainty = 0.0;
};

double median_of(const std::vector<UsedRow>& rows) {
  std::vector<double> sorted;
  for (const UsedRow& one : rows) sorted.push_back(one.ohms);
  std::sort(sorted.begin(), sorted.end());
  const std::size_t half = sorted.size() / 2;
  return sorted.size() % 2 == 1 ? sorted[half] : 0.5 * (sorted[half - 1] + sorted[half]);
}

/// From the rows to the form, with a remark on each that is left out.
class MeanOfRows {
 public:
  MeanOfRows(const FitRequest& request, const MeanFit& fit) : rows_(request.rows), fit_(fit) {}

  Fitting fit(FunctionRef<ValueNode(const FittedMean&)> ratings) {
    for (std::size_t i = 0; i < rows_.size(); ++i) take(i);
    if (used_.empty()) {
      remark(all_rows, false, no_rows);
    } else if (!tell_contradiction()) {
      leave_out_strays();
      add_form(ratings);
    }
    std::stable_sort(fitting_.remarks.begin(), fitting_.remarks.end(),
                     [](const RowRemark& a, const RowRemark& b) { return a.row < b.row; });
    return std::move(fitting_);
  }

 private:
  RowRemark& remark(std::size_t row, bool left_out, const TextEntry& text) {
    return fitting_.remarks.emplace_back(RowRemark{row, left_out, text, {}});
  }

  void take(std::size_t index) {
    const std::optional<double> read = value_in_si(rows_[index]);
    const double kelvin = rows_[index].condition.value_in_si();
    if (!read || !(*read > 0.0)) {
      remark(index, true, no_ohms);
    } else if (kelvin > fit_.warmest_kelvin) {
      remark(index, true, too_warm);
    } else {
      const double factor = fit_.factor(kelvin);
      used_.push_back({index, factor * *read, kelvin, factor * rows_[index].meter_standard_uncertainty});
    }
  }

  static bool lies_near(double value, double median) { return std::abs(value / median - 1.0) <= widest_share_off; }

  /// True where the rows have no majority that a mean could stand for.
  bool tell_contradiction() {
    const double median = median_of(used_);
    const auto near =
        std::count_if(used_.begin(), used_.end(), [&](const UsedRow& one) { return lies_near(one.ohms, median); });
    if (2 * static_cast<std::size_t>(near) > used_.size()) return false;
    const auto [least, most] = std::minmax_element(used_.begin(), used_.end(),
                                                   [](const UsedRow& a, const UsedRow& b) { return a.ohms < b.ohms; });
    RowRemark& made =
        remark(all_rows, false, a_prefix_apart(least->ohms, most->ohms) ? contradict_by_unit : contradict);
    made.arguments.push_back({"least", ohms(least->ohms)});
    made.arguments.push_back({"most", ohms(most->ohms)});
    return true;
  }

  void leave_out_strays() {
    const double median = median_of(used_);
    std::erase_if(used_, [&](const UsedRow& one) {
      if (lies_near(one.ohms, median)) return false;
      RowRemark& made = remark(one.row, true, a_prefix_apart(one.ohms, median) ? slipped : stray);
      made.arguments.push_back({"value", ohms(one.ohms)});
      made.arguments.push_back({"expected", ohms(median)});
      return true;
    });
  }

  double mean() const {
    const double sum = std::accumulate(used_.begin(), used_.end(), 0.0,
                                       [](double so_far, const UsedRow& one) { return so_far + one.ohms; });
    return sum / static_cast<double>(used_.size());
  }

  /// Experimental standard deviation of the rows; 0 for one.
  double scatter_about(double middle) const {
    if (used_.size() < 2) return 0.0;
    double squares = 0.0;
    for (const UsedRow& one : used_) squares += (one.ohms - middle) * (one.ohms - middle);
    return std::sqrt(squares / static_cast<double>(used_.size() - 1));
  }

  double meter_uncertainty() const {
    double most = 0.0;
    for (const UsedRow& one : used_) most = std::max(most, one.meter_uncertainty);
    return most;
  }

  /// Whether ratings may stand on the mean; says so where not.
  bool is_sure_enough(const FittedMean& fitted) {
    const double doubt = 2.0 * fitted.standard_uncertainty / fitted.ohms;
    if (doubt <= fit_.between_parts) return true;
    RowRemark& made = remark(all_rows, false, too_doubtful);
    made.arguments.push_back({"doubt_percent", 100.0 * doubt});
    made.arguments.push_back({"between_percent", 100.0 * fit_.between_parts});
    return false;
  }

  void add_form(FunctionRef<ValueNode(const FittedMean&)> ratings) {
    const double middle = mean();
    const double scatter = scatter_about(middle);
    const FittedMean fitted{
        middle, std::hypot(scatter / std::sqrt(static_cast<double>(used_.size())), meter_uncertainty()), used_.size()};
    FittedRatings& form = fitting_.forms.emplace_back();
    form.form = fit_.form;
    form.figures = {{std::string(fit_.figure), middle, fitted.standard_uncertainty, "ohm"}};
    if (fit_.reference_kelvin)
      form.figures.push_back(
          {"reference_temperature", Temperature::from_kelvin(*fit_.reference_kelvin).celsius(), 0.0, "degC"});
    if (is_sure_enough(fitted)) form.ratings = ratings(fitted);
    form.residuals.assign(rows_.size(), ohms(0.0));
    for (std::size_t i = 0; i < rows_.size(); ++i)
      if (const auto read = value_in_si(rows_[i]))
        form.residuals[i] = ohms(*read * fit_.factor(rows_[i].condition.value_in_si()) - middle);
    form.standard_deviation = ohms(scatter);
    const auto [coldest, warmest] = std::minmax_element(
        used_.begin(), used_.end(), [](const UsedRow& a, const UsedRow& b) { return a.kelvin < b.kelvin; });
    form.from = {Dimension::temperature, coldest->kelvin};
    form.to = {Dimension::temperature, warmest->kelvin};
  }

  std::span<const MeasuredRow> rows_;
  const MeanFit& fit_;
  std::vector<UsedRow> used_;
  Fitting fitting_;
};

}  // namespace

std::optional<double> value_in_si(const MeasuredRow& row) {
  if (row.value_in_si) return row.value_in_si;
  const auto* stated = std::get_if<StatedValue>(&row.observed);
  return stated == nullptr ? std::nullopt : std::optional(stated->value.value_in_si());
}

Fitting fit_mean(const FitRequest& request, const MeanFit& fit, FunctionRef<ValueNode(const FittedMean&)> ratings) {
  return MeanOfRows(request, fit).fit(ratings);
}

std::string fitted_from(std::size_t rows) {
  return rows == 1 ? "fitted from one row" : "fitted from " + std::to_string(rows) + " rows";
}

ValueNode sourced_figure(std::string value, std::string source) {
  return {ValueNode::Members{{"value", ValueNode(std::move(value), "", 0)},
                             {"source", ValueNode(std::move(source), "", 0)}},
          "", 0};
}

std::string ratings_text(AnyQuantity value) {
  return display_text(value, {.significant_digits = 4, .spelling = Spelling::ascii, .units = {}, .fixed_unit = {}});
}

}  // namespace ohmwright
