#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/reading/unit_watch.hpp>

namespace ohmwright::cycles {

namespace {

/// Long enough to hold some cycles of a compressor (common practice, no source).
constexpr double watched_stretch_second = 3.0 * 3600.0;
constexpr std::uint64_t fewest_rows_to_judge = 20;
/// Of rows that are closer, one is enough.
constexpr double looked_at_second = 10.0;
/// Between two rows a temperature that only changed its unit seems to move by more than the first of these, and moved
/// by less than the second.
constexpr double least_jump_kelvin = 2.5;
constexpr double near_kelvin = 2.0;

/// Whether one number means nearly the same in two units, as it does near -40 degrees.
bool scales_meet(double kelvin, double otherwise_kelvin) { return std::abs(kelvin - otherwise_kelvin) < 8.0; }

/// The unit, other than `unit`, in which the number of `value` is near `last`.
std::optional<Unit> unit_that_fits(const Unit& unit, double value, double last) {
  for (const char* name : {"degC", "degF"}) {
    const Unit other = *Unit::named(name, Dimension::temperature);
    if (other == unit) continue;
    if (std::abs(other.to_si(unit.from_si(value)) - last) < near_kelvin) return other;
  }
  return std::nullopt;
}

}  // namespace

void UnitWatch::take(std::span<const LogRow> rows) {
  const std::size_t place = index_of(quantity_);
  for (const LogRow& row : rows) {
    ++row_;
    if (row.time_second < next_second_) continue;
    const double value = row.value[place];
    if (std::isnan(value)) continue;
    next_second_ = row.time_second + looked_at_second;
    take_value(row, value);
    last_row_ = row_;
  }
}

void UnitWatch::take_value(const LogRow& row, double value) {
  if (now_.rows == 0) open(row);
  if (row.time_second - now_.start_second > watched_stretch_second) {
    close();
    open(row);
  }
  // In rows some minutes apart a defrost moves the coil as far as another unit would: not further than one did before.
  const double step = value - last_value_;
  if (std::abs(step) > least_jump_kelvin && (step > greatest_rise_ || -step > greatest_fall_))
    look_for_jump(row, value);
  if (!changed_ && !jump_) note_step(step);
  last_value_ = value;
  ++now_.rows;
  now_.sum += value;
  now_.least = std::min(now_.least, value);
  now_.most = std::max(now_.most, value);
}

void UnitWatch::note_step(double step) {
  greatest_rise_ = std::max(greatest_rise_, step);
  greatest_fall_ = std::max(greatest_fall_, -step);
}

void UnitWatch::look_for_jump(const LogRow& row, double value) {
  if (measured_dimension(quantity_) != Dimension::temperature || jump_ || changed_) return;
  Stretch before = now_;
  if (last_) before.join(*last_);
  if (before.rows < fewest_rows_to_judge) return;
  const std::optional<Unit> to = unit_that_fits(unit_, value, last_value_);
  if (!to) return;
  jump_ = Jump{*to, before, value - last_value_};
  open(row);
}

void UnitWatch::open(const LogRow& row) {
  now_ = {};
  now_.start_second = row.time_second;
  now_.first_line = row.line;
  now_.first_row = row_;
}

void UnitWatch::close() {
  if (now_.rows < fewest_rows_to_judge) return;
  if (measured_dimension(quantity_) == Dimension::temperature)
    close_temperature();
  else
    close_load();
  last_ = now_;
}

/// A load that is switched, at a thousandth of what was switched before, or a thousand times that. An appliance that
/// stands still draws little, too, but its load does not come and go.
void UnitWatch::close_load() {
  constexpr double thousandth_least = 0.15e-3;  // compressor against heater
  constexpr double thousandth_most = 1.5e-3;
  constexpr double switched = 3.0;
  constexpr double no_appliance_watt = 5.0;
  if (now_.least < 0.0) return;  // noise about nothing: no load dips below it in any unit
  if (now_.most <= switched * now_.least) return;
  const double ratio = most_before_ > 0.0 ? now_.most / most_before_ : 1.0;
  const bool shrank = ratio > thousandth_least && ratio < thousandth_most;
  const bool grew = most_before_ < no_appliance_watt && ratio > 1.0 / thousandth_most && ratio < 1.0 / thousandth_least;
  if (shrank || grew)
    note_change();
  else
    most_before_ = std::max(most_before_, now_.most);
}

/// After a jump: whether the column stays where the other unit puts it, and not where its own does.
void UnitWatch::close_temperature() {
  constexpr double same_least_kelvin = 2.5;
  constexpr double same_mean_kelvin = 5.0;
  if (changed_ && is_back()) {
    note_step(changed_->step);
    changed_.reset();
    change_.reset();
  }
  if (changed_) return note_change();
  if (!jump_) return;
  const auto converted = [&](double value) { return jump_->to.to_si(unit_.from_si(value)); };
  const bool fits = std::abs(converted(now_.least) - jump_->before.least) < same_least_kelvin &&
                    std::abs(converted(now_.mean()) - jump_->before.mean()) < same_mean_kelvin;
  constexpr double moves_kelvin = 1.0;  // what stands still has no unit
  const bool moves = now_.most - now_.least > moves_kelvin;
  // Where the two scales' numbers lie near each other, the other has to fit far better than its own.
  const double own = std::abs(now_.least - jump_->before.least);
  const double otherwise = std::abs(converted(now_.least) - jump_->before.least);
  const bool fits_own =
      own < same_least_kelvin || (scales_meet(converted(now_.least), now_.least) && own < 2.0 * otherwise + 2.0);
  const Jump jump = *jump_;
  jump_.reset();
  if (!fits || fits_own || !moves) return note_step(jump.step);
  changed_ = jump;
  note_change();
}

/// Near -40 degrees the two scales meet, and a heater warms a coil by as much from row to row as lies between them: a
/// column that is as cold as before by its own unit, and nearer so than by the other, was never in the other.
bool UnitWatch::is_back() const {
  constexpr double as_cold_kelvin = 2.5;
  const double otherwise = changed_->to.to_si(unit_.from_si(now_.least));
  const double own = std::abs(now_.least - changed_->before.least);
  return scales_meet(otherwise, now_.least) && own < as_cold_kelvin &&
         own < std::abs(otherwise - changed_->before.least);
}

void UnitWatch::note_change() {
  if (!change_) change_ = UnitChange{now_.first_line, 0};
  change_->rows += last_row_ - now_.first_row + 1;
}

void UnitWatch::finish() {
  if (now_.rows > 0) close();
}

}  // namespace ohmwright::cycles
