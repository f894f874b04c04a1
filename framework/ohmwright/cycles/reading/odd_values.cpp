#include <algorithm>
#include <array>
#include <cmath>
#include <cstdint>
#include <optional>
#include <string>
#include <utility>

#include <ohmwright/cycles/reading/log_reader.hpp>

namespace ohmwright::cycles {

void LogReader::lack_value(ColumnPlan& plan) {
  if (plan.lacking_row > plan.last_row) return;
  plan.lacking_row = data_lines_;
  plan.before_lack_second = clock_.last_second();
}

void LogReader::settle_odd_values(LogRow& row) {
  for (const OddValue& odd : odd_values_) {
    const double value = odd_value(*odd.plan, odd.number, odd.value);
    if (std::isnan(value))
      lack_value(*odd.plan);
    else
      keep_value(*odd.plan, value, row);
  }
}

/// The value that an odd one stands for, not-a-number for none.
double LogReader::odd_value(ColumnPlan& plan, double number, double value) {
  const LogQuantity quantity = log_quantities[plan.quantity];
  const bool is_possible = value >= plan.least && value <= plan.most;
  if (measured_dimension(quantity) == Dimension::temperature) {
    // Faster than 8 K and 9 K/min no sensor on a coil or in air can change (common practice, no source).
    const double last_second = plan.lacking_row > plan.last_row ? plan.before_lack_second : clock_.last_second();
    const double passed_second = has_second_ && clock_.any() ? std::max(0.0, second_ - last_second) : 1e9;
    const bool too_fast = std::abs(value - plan.last) > plan.largest_step + 0.15 * passed_second;
    if (is_possible && !too_fast) return value;
    for (const char* name : {"degC", "degF", "K"}) {
      const Unit other = *Unit::named(name, Dimension::temperature);
      const double otherwise = other.to_si(number);
      const double near = is_possible ? 1.5 : 30.0;
      if (other != plan.unit && otherwise > plan.least && otherwise < plan.most &&
          std::abs(otherwise - plan.last) < near) {
        troubles_.add(LogTrouble::unit_slip, lines_.line());
        ++plan.slips;
        return otherwise;
      }
    }
    // One-wire sensors answer 85 degC before their first conversion and -127 degC when they are gone (from memory).
    constexpr double power_on_kelvin = 358.15;
    if (is_possible && std::abs(value - power_on_kelvin) > 1e-6) return value;
  } else if (is_possible) {
    const double ratio = value / plan.last;
    if (quantity == LogQuantity::power && plan.last > 20.0 && ratio > 0.97e-3 && ratio < 1.03e-3)
      troubles_.add(LogTrouble::unit_slip, lines_.line());
    return value;
  } else if (quantity == LogQuantity::power && plan.factor > 1.0 && number > 0.0 && number <= plan.most) {
    troubles_.add(LogTrouble::unit_slip, lines_.line());  // watts in a column of kilowatts
    ++plan.slips;
    return number;
  }
  troubles_.add(LogTrouble::impossible_value, lines_.line());
  return LogRow::none;
}

std::array<bool, log_quantity_count> LogReader::doubtful_units() const { return doubtful_units_; }

void LogReader::doubt(LogQuantity quantity, LogFinding finding) {
  doubtful_units_[index_of(quantity)] = true;
  finding.asks = true;
  findings_.push_back(std::move(finding));
}

void LogReader::find_doubtful_units() {
  units_are_told_ = true;
  for (UnitWatch& watch : watches_) {
    watch.finish();
    if (!watch.change()) continue;
    troubles_.add_all(LogTrouble::unit_slip, watch.change()->first_line, watch.change()->rows);
    doubt(watch.quantity(), {"unit-changes",
                             {{"quantity", std::string(name_of(watch.quantity()))},
                              {"unit", watch.unit().symbol()},
                              {"line", static_cast<double>(watch.change()->first_line)}}});
  }
  for (const ColumnPlan& plan : plan_) {
    if (plan.task != Task::value) continue;
    const LogQuantity quantity = log_quantities[plan.quantity];
    constexpr std::uint64_t chance_slips = 20;
    constexpr double share_of_slips = 0.01;
    if (plan.slips > chance_slips && static_cast<double>(plan.slips) > share_of_slips * static_cast<double>(rows_))
      doubt(quantity, {"unit-contradicted",
                       {{"quantity", std::string(name_of(quantity))},
                        {"unit", plan.unit.symbol()},
                        {"count", static_cast<double>(plan.slips)}}});
    // Nothing that cools draws so little at its most.
    if (quantity == LogQuantity::power && plan.largest > 0.0 && plan.largest < 5.0)
      doubt(quantity, {"power-unit-suspect", {{"largest_watt", plan.largest}, {"unit", plan.unit.symbol()}}});
  }
}

}  // namespace ohmwright::cycles
