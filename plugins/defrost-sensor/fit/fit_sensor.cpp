#include "fit/fit_sensor.hpp"

#include <algorithm>

#include "curves/slope_change.hpp"
#include "fit/doubts.hpp"
#include "fit/form.hpp"
#include "fit/read_rows.hpp"
#include "fit/remarks.hpp"
#include "fit/screen_rows.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry other_quantity{"other-quantity",
                                   OHMWRIGHT_TEXT("Only the resistance at the temperature of the part makes a curve.")};
constexpr TextEntry too_few_rows{"too-few-rows",
                                 OHMWRIGHT_TEXT("Usable rows: {count}. A beta needs two, Steinhart-Hart three.")};
constexpr TextEntry two_rows{
    "two-rows", OHMWRIGHT_TEXT("Two usable rows make a beta, exact in these two and a guess elsewhere; Steinhart-Hart "
                               "needs three.")};
constexpr TextEntry goes_through{
    "goes-through",
    OHMWRIGHT_TEXT("Steinhart-Hart goes exactly through three rows, right or wrong: a fourth would show "
                   "how far it is off.")};
constexpr TextEntry turns_back{
    "turns-back",
    OHMWRIGHT_TEXT("Steinhart-Hart through these rows would turn back on itself (b or c not above 0): not "
                   "offered. They scatter too much or lie too close, or the part follows a beta.")};
constexpr TextEntry uneven_step{
    "uneven-step", OHMWRIGHT_TEXT("From the row before to {value} at {temperature} the step is no thermistor's: too "
                                  "close for their digits. No chart is made of these rows.")};
constexpr TextEntry too_long_for_a_chart{
    "too-long-for-a-chart", OHMWRIGHT_TEXT("Usable rows: {count}. A chart takes {most} at most: none is made.")};

constexpr TextEntry rows_disagree{
    "rows-disagree",
    OHMWRIGHT_TEXT(
        "No thermistor's curve runs through these rows: of three neighbours the middle one misses it by {off}, and the "
        "others do not tell which of them is wrong. No ratings are made of them: read each once more, or add rows.")};

constexpr TextEntry rests_on_itself{
    "rests-on-itself",
    OHMWRIGHT_TEXT(
        "The row at {temperature} lies so far from the others that no one would see it was wrong. No ratings are made "
        "of these rows: add one near it.")};

constexpr TextEntry slope_unsure{
    "slope-unsure",
    OHMWRIGHT_TEXT(
        "These rows lie too close together: they tell the beta to ± {percent} % at best, and elsewhere a good "
        "part would be condemned. No ratings are made of them: add a row 20 K away.")};

/// Past this, 20 K away from the rows, two standard uncertainties of the slope use up the 5 % of the tolerance.
constexpr double largest_slope_doubt = 0.03;

constexpr TextEntry two_alone{
    "two-alone",
    OHMWRIGHT_TEXT("That one of two rows was wrong no one would see. No ratings are made of them: add a third row, or "
                   "give both their ±.")};

constexpr TextEntry scattered{
    "scattered",
    OHMWRIGHT_TEXT(
        "These rows scatter by {scatter} about every curve, so that it is not known to the 5 % that a good "
        "part may be off. No ratings are made of them: read each once more, ten minutes at each temperature, "
        "or add rows.")};

/// Two standard uncertainties of a curve that is known no better than this [K] use up the 5 % of the tolerance.
constexpr double largest_curve_doubt_kelvin = 1.1;

/// What a sensor of that curve would say, less what the row says [K].
double residual(const Curve& curve, const FitRow& row) {
  if (const std::optional<Temperature> seen = curve.temperature(row.resistance))
    return (*seen - row.temperature).value();
  // A slipped row may lie past any temperature: along the slope there.
  return (row.log_resistance() - curve.log_resistance(row.temperature)) / curve.log_slope(row.temperature);
}

/// What the ten digits of the figures leave of a row that lies on its curve.
constexpr double rounding_kelvin = 1e-6;

class SensorFit {
 public:
  explicit SensorFit(const FitRequest& request) : request_(request), rows_(read_rows(request, fitting_.remarks)) {}

  Fitting run() {
    if (rows_.size() < 2) {
      remark_on_count(rows_.size());
    } else {
      ScreenedRows screened = screen_rows(rows_, fitting_.remarks);
      good_ = std::move(screened.good);
      if (screened.beta_kelvin > 0.0) add_forms(stated_doubts(good_, screened.beta_kelvin));
      if (good_.size() > 1 && screened.disagree_kelvin == 0.0) add_chart();
      if (!fitting_.forms.empty()) withhold_what_is_unsure(screened);
    }
    std::stable_sort(fitting_.remarks.begin(), fitting_.remarks.end(),
                     [](const RowRemark& a, const RowRemark& b) { return a.row < b.row; });
    return std::move(fitting_);
  }

 private:
  RowRemark& remark_at_the_end(const TextEntry& text) {
    return fitting_.remarks.emplace_back(remark_on(all_rows, text, false));
  }

  void remark_on_count(std::size_t count) {
    if (request_.rows.empty()) return;
    tell(remark_at_the_end(too_few_rows), "count", static_cast<double>(count));
  }

  void withhold_what_is_unsure(const ScreenedRows& screened) {
    const double slope = slope_doubt(good_, screened.beta_kelvin);
    if (screened.disagree_kelvin > 0.0)
      tell(withhold_ratings(rows_disagree), "off", kelvins(screened.disagree_kelvin));
    else if (screened.unsupported)
      tell(withhold_ratings(rests_on_itself), "temperature", AnyQuantity(*screened.unsupported));
    else if (good_.size() == 2 && stated_doubts(good_, screened.beta_kelvin).empty())
      withhold_ratings(two_alone);
    else if (2.0 * doubt_of_best_form() > largest_curve_doubt_kelvin || bends_no_beta())
      tell(withhold_ratings(scattered), "scatter", fitting_.forms.front().standard_deviation);
    else if (slope > largest_slope_doubt)
      tell(withhold_ratings(slope_unsure), "percent", std::ceil(100.0 * slope));
  }

  /// Rows of which no Steinhart-Hart can be made, and that lie farther from a beta than a beta's own bend explains:
  /// something else bends them.
  bool bends_no_beta() const {
    constexpr double largest_scatter_kelvin = 0.4;  // ours: a good thermometer's and some bend
    const FittedRatings& best = fitting_.forms.front();
    return best.form == "beta" && good_.size() > 3 && best.standard_deviation.value_in_si() > largest_scatter_kelvin;
  }

  /// Of the curve that fits best, on the average of the rows: σ·√(parameters/rows) [K].
  double doubt_of_best_form() const {
    constexpr double parameters = 3.0;
    return fitting_.forms.front().standard_deviation.value_in_si() *
           std::sqrt(parameters / static_cast<double>(good_.size()));
  }

  /// The figures and residuals stay, for who looks for the wrong row by them.
  RowRemark& withhold_ratings(const TextEntry& why) {
    for (FittedRatings& form : fitting_.forms) form.ratings = ValueNode();
    return remark_at_the_end(why);
  }

  void add_forms(const std::vector<double>& doubts) {
    if (good_.size() < 2) return remark_on_count(good_.size());
    if (good_.size() == 2) remark_at_the_end(two_rows);
    const std::optional<Form> steinhart_hart = fit_steinhart_hart(good_, doubts);
    if (steinhart_hart)
      add(*steinhart_hart);
    else if (good_.size() > 2)
      remark_at_the_end(turns_back);
    if (steinhart_hart && good_.size() == 3) remark_at_the_end(goes_through);
    if (const std::optional<Form> beta = fit_beta(good_, doubts)) add(*beta);
    std::stable_sort(fitting_.forms.begin(), fitting_.forms.end(), [](const FittedRatings& a, const FittedRatings& b) {
      return a.standard_deviation.value_in_si() < b.standard_deviation.value_in_si();
    });
  }

  void add_chart() {
    std::optional<std::size_t> trouble;
    if (const std::optional<Form> chart = chart_of(good_, trouble)) {
      add(*chart);
    } else if (trouble) {
      RowRemark& remark = fitting_.remarks.emplace_back(remark_on(good_[*trouble].row, uneven_step, false));
      tell(remark, "temperature", AnyQuantity(good_[*trouble].temperature));
      tell(remark, "value", AnyQuantity(good_[*trouble].resistance));
    } else if (good_.size() > most_chart_rows) {
      RowRemark& remark = remark_at_the_end(too_long_for_a_chart);
      tell(remark, "count", static_cast<double>(good_.size()));
      tell(remark, "most", static_cast<double>(most_chart_rows));
    }
  }

  void add(const Form& form) {
    FittedRatings& fitted = fitting_.forms.emplace_back();
    fitted.form = form.name;
    fitted.ratings = ratings_node(form.curve_node);
    fitted.figures = form.figures;
    fitted.from = AnyQuantity(good_.front().temperature);
    fitted.to = AnyQuantity(good_.back().temperature);
    fitted.residuals.assign(request_.rows.size(), kelvins(0.0));
    for (const FitRow& row : rows_) {
      const double off = residual(*form.curve, row);
      if (std::abs(off) > rounding_kelvin) fitted.residuals[row.row] = kelvins(off);
    }
    double squares = 0.0;
    for (const FitRow& row : good_) squares += std::pow(residual(*form.curve, row), 2);
    const bool exact = good_.size() <= form.parameters || form.parameters == 0;
    fitted.standard_deviation =
        kelvins(exact ? 0.0 : std::sqrt(squares / static_cast<double>(good_.size() - form.parameters)));
  }

  const FitRequest& request_;
  Fitting fitting_;
  FitRows rows_;
  FitRows good_;
};

}  // namespace

Fitting fit_sensor(const FitRequest& request) {
  if (request.measurand == resistance && request.condition == part_temperature) return SensorFit(request).run();
  Fitting nothing;
  if (!request.rows.empty()) nothing.remarks.push_back(remark_on(all_rows, other_quantity, true));
  return nothing;
}

}  // namespace ohmwright::defrost_sensor
