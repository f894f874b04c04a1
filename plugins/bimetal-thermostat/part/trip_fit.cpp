#include "part/trip_fit.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <ohmwright/component/contact_seen.hpp>
#include <ohmwright/component/mean_fit.hpp>
#include <ohmwright/component/reading_questions.hpp>
#include <ohmwright/quantity/message.hpp>
#include <ohmwright/quantity/print.hpp>

#include "part/passages.hpp"
#include "part/trip_finder.hpp"
#include "rules/names.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

ContactSeen contact_seen_in(const Observed& observed) {
  if (const auto* contact = std::get_if<ContactState>(&observed))
    return *contact == ContactState::closed ? ContactSeen::closed : ContactSeen::open;
  if (std::holds_alternative<OverRange>(observed)) return ContactSeen::open;
  return contact_seen(std::get<StatedValue>(observed).value.value_in_si());
}

/// How far good thermostats of one type lie about the one that was measured [K] (common practice, no source).
constexpr double between_thermostats = 3.0;

/// One trip point of the fitted part [K].
struct FittedTrip {
  Passages passages;
  double thermometer_half_width = 0.0;

  double uncertainty() const {
    return std::hypot(0.5 * passages.width(), thermometer_half_width) / std::numbers::sqrt3;
  }
  double doubt() const { return 2.0 * uncertainty(); }
};

/// A row that was used.
struct Used {
  std::size_t index = 0;
  bool closed = false;
  double kelvin = 0.0;
};

/// Goes through the rows and finds what can be found.
class TripFit {
 public:
  explicit TripFit(const FitRequest& request) : rows_(request.rows) {}

  Fitting fit() {
    for (std::size_t i = 0; i < rows_.size(); ++i) take(i);
    if (!rows_.empty()) conclude();
    return std::move(fitting_);
  }

 private:
  void take(std::size_t index) {
    const MeasuredRow& row = rows_[index];
    const ContactSeen seen = contact_seen_in(row.observed);
    const bool closed = seen == ContactSeen::closed;
    if (!closed && !is_not_closed(seen)) {
      remark(index, true, {"neither", OHMWRIGHT_TEXT("neither a closed contact nor an open one; left out")});
      return;
    }
    const double kelvin = row.condition.value_in_si();
    const auto passage = finder_.take({closed, kelvin, row.condition_half_width, index});
    used_.push_back({index, closed, kelvin});
    if (passage) add(*passage);
  }

  void add(const Passage& passage) {
    if (passage.worth == PassageWorth::far_apart) {
      RowRemark& made =
          remark(passage.after.index, false,
                 {"far-apart", OHMWRIGHT_TEXT("changed between {before} and {after}: too far apart to say "
                                              "where; this change does not count")});
      tell_temperatures(made, passage);
      return;
    }
    if (passage.worth == PassageWorth::no_change_of_temperature) {
      RowRemark& made = remark(
          passage.after.index, false,
          {"by-itself", OHMWRIGHT_TEXT("changed between {before} and {after} with nothing to warm or cool it: the "
                                       "contact comes and goes, or a reading is wrong; this change does not count")});
      tell_temperatures(made, passage);
      return;
    }
    if (passage.worth == PassageWorth::backwards) {
      RowRemark& made = remark(
          passage.after.index, false,
          passage.opens ? TextEntry{"opened-backwards",
                                    OHMWRIGHT_TEXT("opened while it cooled from {before} to "
                                                   "{after}: out of order, or too fast; this change does not count")}
                        : TextEntry{"closed-backwards",
                                    OHMWRIGHT_TEXT("closed while it warmed from {before} to "
                                                   "{after}: out of order, or too fast; this change does not count")});
      tell_temperatures(made, passage);
      return;
    }
    FittedTrip& trip = passage.opens ? opening_ : closing_;
    trip.passages.add(passage.colder(), passage.warmer());
    trip.thermometer_half_width =
        std::max({trip.thermometer_half_width, passage.before.half_width, passage.after.half_width});
  }

  RowRemark& remark(std::size_t row, bool left_out, TextEntry text) {
    RowRemark& made = fitting_.remarks.emplace_back();
    made.row = row;
    made.left_out = left_out;
    made.text = text;
    return made;
  }

  static void tell_temperatures(RowRemark& made, const Passage& passage) {
    made.arguments.push_back({"before", AnyQuantity(Dimension::temperature, passage.before.kelvin)});
    made.arguments.push_back({"after", AnyQuantity(Dimension::temperature, passage.after.kelvin)});
  }

  void conclude() {
    const bool opened = opening_.passages.count() > 0;
    const bool closed = closing_.passages.count() > 0;
    if (!opened && !closed) {
      remark(all_rows, false,
             {"never-moved", OHMWRIGHT_TEXT("the contact never changes from closed to open or back: no trip point")});
      return;
    }
    if (!closed)
      remark(all_rows, false,
             {"never-closed", OHMWRIGHT_TEXT("the contact is never seen to close; for ratings cool it until it does")});
    if (!opened)
      remark(all_rows, false,
             {"never-opened", OHMWRIGHT_TEXT("the contact is never seen to open; for ratings warm it until it does")});
    remark_on_scatter();
    add_form();
  }

  void remark_on_scatter() {
    if (opening_.passages.scatter())
      remark(all_rows, false,
             {"opening-scatters", OHMWRIGHT_TEXT("no one temperature fits all openings: the contact sticks or the "
                                                 "thermometer lags; the span of all is given")});
    if (closing_.passages.scatter())
      remark(all_rows, false,
             {"closing-scatters", OHMWRIGHT_TEXT("no one temperature fits all closings: the contact sticks or the "
                                                 "thermometer lags; the span of all is given")});
  }

  static std::string celsius_text(double kelvin) {
    DisplayOptions options;
    options.significant_digits = 6;
    options.fixed_unit = Unit::named("degC", Dimension::temperature);
    return display_text({Dimension::temperature, kelvin}, options);
  }

  static std::string kelvin_text(double kelvin) {
    DisplayOptions options;
    options.significant_digits = 4;
    options.fixed_unit = Unit::si(Dimension::temperature_difference);
    return display_text({Dimension::temperature_difference, kelvin}, options);
  }

  ValueNode ratings_of(const FittedTrip& trip) const {
    return {ValueNode::Members{
                {"temperature",
                 sourced_figure(celsius_text(trip.passages.middle()), fitted_from(used_.size()) + " of one part")},
                {"tolerance", sourced_figure(kelvin_text(between_thermostats),
                                             "between good thermostats of one type: common practice, no source")}},
            "", 0};
  }

  /// Limits about a point that is less sure than good parts differ would pass and condemn by luck.
  bool is_sure_enough(double doubt_kelvin) {
    if (doubt_kelvin <= between_thermostats) return true;
    RowRemark& made =
        remark(all_rows, false,
               {"too-doubtful", OHMWRIGHT_TEXT("no ratings are made: a trip point is known to ± {doubt}, and "
                                               "good ones differ by {between} themselves; read closer steps "
                                               "by a better thermometer")});
    made.arguments.push_back({"doubt", AnyQuantity(Dimension::temperature_difference, doubt_kelvin)});
    made.arguments.push_back({"between", AnyQuantity(Dimension::temperature_difference, between_thermostats)});
    return false;
  }

  bool opens_warmer_than_it_closes() {
    if (opening_.passages.middle() > closing_.passages.middle()) return true;
    remark(
        all_rows, false,
        {"closes-warmer",
         OHMWRIGHT_TEXT("no ratings are made: by these rows it closes warmer than it opens; were the two swapped, or "
                        "is it a switch that closes as it warms?")});
    return false;
  }

  void add_form() {
    FittedRatings& form = fitting_.forms.emplace_back();
    form.form = "trip-points";
    const bool opened = opening_.passages.count() > 0;
    const bool closed = closing_.passages.count() > 0;
    const double zero = Temperature::kelvin_at_zero_celsius;
    if (opened) form.figures.push_back({"opening", opening_.passages.middle() - zero, opening_.uncertainty(), "degC"});
    if (closed) form.figures.push_back({"closing", closing_.passages.middle() - zero, closing_.uncertainty(), "degC"});
    if (opened && closed) {
      // The thermometer's own error is in both and drops out of the difference.
      const double gaps =
          std::hypot(opening_.passages.width(), closing_.passages.width()) / (2.0 * std::numbers::sqrt3);
      form.figures.push_back({"differential", opening_.passages.middle() - closing_.passages.middle(), gaps, "K"});
      if (opens_warmer_than_it_closes() && is_sure_enough(std::max(opening_.doubt(), closing_.doubt())))
        form.ratings =
            ValueNode(ValueNode::Members{{"opening", ratings_of(opening_)}, {"closing", ratings_of(closing_)}}, "", 0);
    }
    add_residuals(form);
  }

  /// A residual is how far a row lies on the wrong side of the trip point: 0 where the fitted part shows the same.
  void add_residuals(FittedRatings& form) const {
    form.residuals.assign(rows_.size(), AnyQuantity(Dimension::temperature_difference, 0.0));
    double squares = 0.0;
    double coldest = used_.front().kelvin;
    double warmest = coldest;
    for (const Used& used : used_) {
      const double off = residual(used);
      form.residuals[used.index] = AnyQuantity(Dimension::temperature_difference, off);
      squares += off * off;
      coldest = std::min(coldest, used.kelvin);
      warmest = std::max(warmest, used.kelvin);
    }
    form.standard_deviation =
        AnyQuantity(Dimension::temperature_difference,
                    std::sqrt(squares / static_cast<double>(std::max<std::size_t>(used_.size(), 2) - 1)));
    form.from = AnyQuantity(Dimension::temperature, coldest);
    form.to = AnyQuantity(Dimension::temperature, warmest);
  }

  double residual(const Used& used) const {
    if (used.closed)
      return opening_.passages.count() == 0 ? 0.0 : std::max(0.0, used.kelvin - opening_.passages.middle());
    return closing_.passages.count() == 0 ? 0.0 : std::min(0.0, used.kelvin - closing_.passages.middle());
  }

  std::span<const MeasuredRow> rows_;
  TripFinder finder_;
  FittedTrip opening_;
  FittedTrip closing_;
  std::vector<Used> used_;
  Fitting fitting_;
};

}  // namespace

Fitting fit_trip_points(const FitRequest& request) {
  if (request.measurand != contact_state || request.condition != part_temperature) return {};
  return TripFit(request).fit();
}

}  // namespace ohmwright::bimetal_thermostat
