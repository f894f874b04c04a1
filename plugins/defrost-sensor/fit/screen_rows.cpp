#include "fit/screen_rows.hpp"

#include <algorithm>

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

/// Of two neighbours between which the resistance does not fall, leaves out the one farther from the others' curve. How
/// far apart such neighbours are at most [K]; 0: there were none.
double leave_out_what_does_not_fall(FitRows& rows, const ThermistorLine& line, std::vector<RowRemark>& remarks) {
  const WorkingModel model(rows, line);
  double apart = 0.0;
  for (std::size_t i = 1; i < rows.size();) {
    if (rows[i].resistance < rows[i - 1].resistance) {
      ++i;
      continue;
    }
    apart = std::max(apart, std::abs(model.kelvin_off(rows[i]) - model.kelvin_off(rows[i - 1])));
    const bool hotter_is_wrong = std::abs(model.kelvin_off(rows[i])) >= std::abs(model.kelvin_off(rows[i - 1]));
    const std::size_t wrong = hotter_is_wrong ? i : i - 1;
    const FitRow& neighbour = rows[hotter_is_wrong ? i - 1 : i];
    remarks.push_back(remark_on(rows[wrong], does_not_fall, model.log_resistance(rows[wrong].temperature)));
    tell(remarks.back(), "neighbour_value", AnyQuantity(neighbour.resistance));
    tell(remarks.back(), "neighbour_temperature", AnyQuantity(neighbour.temperature));
    rows.erase(rows.begin() + static_cast<std::ptrdiff_t>(wrong));
    if (i > 1) --i;
  }
  return apart;
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
  std::stable_sort(good.begin(), good.end(),
                   [](const FitRow& a, const FitRow& b) { return a.temperature < b.temperature; });
  move_flagged(good, not_borne_out(good, pattern.line), wrong);
  leave_out_repeats(good, WorkingModel(good, pattern.line), remarks);
  const double rising_kelvin = leave_out_what_does_not_fall(good, pattern.line, remarks);
  FewRows few = look_at_few(good, pattern.line.beta_kelvin);
  constexpr std::size_t enough_to_tell = 4;  // which of two neighbours is wrong
  if (rising_kelvin > 0.0 && good.size() < enough_to_tell) few.disagree_kelvin = rising_kelvin;
  move_flagged(good, few.off, wrong);
  const WorkingModel model(good, pattern.line);
  for (const FitRow& row : wrong) remarks.push_back(explain(row, model));
  return {std::move(good), pattern.line.beta_kelvin, few.disagree_kelvin, few.unsupported};
}

}  // namespace ohmwright::defrost_sensor
