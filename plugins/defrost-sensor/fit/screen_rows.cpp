#include "fit/screen_rows.hpp"

#include <algorithm>

#include "fit/end_rows.hpp"
#include "fit/few_rows.hpp"
#include "fit/forward_search.hpp"
#include "fit/pattern.hpp"
#include "fit/remarks.hpp"
#include "fit/slips.hpp"
#include "fit/working_model.hpp"

namespace ohmwright::defrost_sensor {

namespace {

constexpr TextEntry rises{
    "rises", OHMWRIGHT_TEXT("The resistance rises by {percent} % a kelvin; a thermistor (NTC) falls. A platinum sensor "
                            "rises by about 0.4 %: name its class, IEC 60751, in place of its rows.")};
constexpr TextEntry no_curve{
    "no-curve",
    OHMWRIGHT_TEXT("No thermistor's curve runs through more than half of the rows: check the units of both columns.")};
constexpr TextEntry one_temperature{
    "one-temperature", OHMWRIGHT_TEXT("All rows have one temperature, {temperature}: a curve needs two at least.")};
constexpr TextEntry repeats{
    "repeats", OHMWRIGHT_TEXT("{temperature} stands twice: {first} in the row that is kept, {value} here; the other "
                              "rows ask for {expected}.")};
constexpr TextEntry does_not_fall{
    "does-not-fall",
    OHMWRIGHT_TEXT("The resistance must fall as it gets warmer: {value} at {temperature} beside {neighbour_value} at "
                   "{neighbour_temperature}. The other rows ask for {expected}.")};
constexpr TextEntry one_does_not_fall{
    "one-does-not-fall",
    OHMWRIGHT_TEXT("The resistance must fall as it gets warmer: {value} at {temperature} beside {neighbour_value} at "
                   "{neighbour_temperature}. One of the two is wrong, and so few rows do not tell which.")};

/// Moves the rows with a flag to the other list.
void move_flagged(FitRows& rows, const std::vector<bool>& flags, FitRows& flagged) {
  FitRows kept;
  for (std::size_t i = 0; i < rows.size(); ++i) (flags[i] ? flagged : kept).push_back(rows[i]);
  rows = std::move(kept);
}

/// Keeps the first of the rows at one temperature. `rows` are sorted; equal ones stand in the order given.
void leave_out_repeats(FitRows& rows, const WorkingModel& model, std::vector<RowRemark>& remarks) {
  FitRows kept;
  for (const FitRow& row : rows) {
    if (kept.empty() || !same_temperature(kept.back(), row)) {
      kept.push_back(row);
      continue;
    }
    remarks.push_back(remark_on(row, repeats, model.log_resistance(row.temperature)));
    tell(remarks.back(), "first", AnyQuantity(kept.back().resistance));
  }
  rows = std::move(kept);
}

void sort_by_temperature(FitRows& rows) {
  std::stable_sort(rows.begin(), rows.end(),
                   [](const FitRow& a, const FitRow& b) { return a.temperature < b.temperature; });
}

/// Of few rows the line may be that of the wrong ones: off it is only what a slip of the pen explains.
void take_back_all_but_slips(FitRows& rows, FitRows& wrong, const ThermistorLine& line) {
  const WorkingModel model(rows, line);
  std::vector<bool> unexplained;
  for (const FitRow& row : wrong) unexplained.push_back(!is_slip(row, model));
  move_flagged(wrong, unexplained, rows);
}

/// Names neighbours between which the resistance does not fall, where nobody knows which of the two is wrong.
void name_what_does_not_fall(const FitRows& rows, std::vector<RowRemark>& remarks) {
  for (std::size_t i = 1; i < rows.size(); ++i) {
    if (rows[i].resistance < rows[i - 1].resistance) continue;
    remarks.push_back(remark_on(rows[i].row, one_does_not_fall, false));
    tell(remarks.back(), "temperature", AnyQuantity(rows[i].temperature));
    tell(remarks.back(), "value", AnyQuantity(rows[i].resistance));
    tell(remarks.back(), "neighbour_value", AnyQuantity(rows[i - 1].resistance));
    tell(remarks.back(), "neighbour_temperature", AnyQuantity(rows[i - 1].temperature));
  }
}

/// Of two neighbours between which the resistance does not fall, leaves out the one farther from the others' curve.
void leave_out_what_does_not_fall(FitRows& rows, const ThermistorLine& line, std::vector<RowRemark>& remarks) {
  const WorkingModel model(rows, line);
  for (std::size_t i = 1; i < rows.size();) {
    if (rows[i].resistance < rows[i - 1].resistance) {
      ++i;
      continue;
    }
    const bool hotter_is_wrong = std::abs(model.kelvin_off(rows[i])) >= std::abs(model.kelvin_off(rows[i - 1]));
    const std::size_t wrong = hotter_is_wrong ? i : i - 1;
    const FitRow& neighbour = rows[hotter_is_wrong ? i - 1 : i];
    remarks.push_back(remark_on(rows[wrong], does_not_fall, model.log_resistance(rows[wrong].temperature)));
    tell(remarks.back(), "neighbour_value", AnyQuantity(neighbour.resistance));
    tell(remarks.back(), "neighbour_temperature", AnyQuantity(neighbour.temperature));
    rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(wrong));
    if (i > 1) --i;
  }
}

}  // namespace

ScreenedRows screen_rows(const FitRows& rows, std::vector<RowRemark>& remarks) {
  if (std::all_of(rows.begin(), rows.end(), [&](const FitRow& row) { return same_temperature(row, rows[0]); })) {
    remarks.push_back(remark_on(all_rows, one_temperature, true));
    tell(remarks.back(), "temperature", AnyQuantity(rows[0].temperature));
    return {};
  }
  const Pattern pattern = pattern_of(rows);
  if (pattern.sense != Pattern::Sense::thermistor) {
    const bool rising = pattern.sense == Pattern::Sense::rising;
    remarks.push_back(remark_on(all_rows, rising ? rises : no_curve, true));
    if (rising) tell(remarks.back(), "percent", 100.0 * pattern.rise_per_kelvin);
    return {};
  }
  FitRows good = rows;
  FitRows wrong;
  std::vector<bool> off = pattern.on_the_line;
  off.flip();
  move_flagged(good, off, wrong);
  if (rows.size() <= most_few_rows) take_back_all_but_slips(good, wrong, pattern.line);
  sort_by_temperature(good);
  move_flagged(good, not_borne_out(good, pattern.line), wrong);
  leave_out_repeats(good, WorkingModel(good, pattern.line), remarks);
  const FewRows few = look_at_few(good, pattern.line.beta_kelvin);
  move_flagged(good, few.off, wrong);
  if (few.disagree_kelvin > 0.0)
    name_what_does_not_fall(good, remarks);
  else
    leave_out_what_does_not_fall(good, pattern.line, remarks);
  const WorkingModel model(good, pattern.line);
  for (const FitRow& row : wrong) remarks.push_back(explain(row, model));
  const EndRows ends = look_at_ends(good, pattern.line);
  const double disagree_kelvin = std::max(few.disagree_kelvin, ends.disagree_kelvin);
  const std::optional<Temperature> unsupported = few.unsupported ? few.unsupported : ends.unsupported;
  return {std::move(good), pattern.line.beta_kelvin, disagree_kelvin, unsupported};
}

}  // namespace ohmwright::defrost_sensor
