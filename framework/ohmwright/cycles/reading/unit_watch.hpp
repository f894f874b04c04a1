#pragma once

#include <algorithm>
#include <cstdint>
#include <limits>
#include <optional>
#include <span>

#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/quantity/unit_table.hpp>

namespace ohmwright::cycles {

/// Rows from one line on whose column seems to hold another unit than before.
struct UnitChange {
  std::uint64_t first_line = 0;
  std::uint64_t rows = 0;
};

/// Watches one column of a log for stretches that are written in another unit, where no row stands out by itself: loads
/// that become a thousandth of what they were and go on to switch, temperatures that jump to their own number in
/// another unit and stay there. What it finds is asked about; no value is changed.
class UnitWatch {
 public:
  UnitWatch(LogQuantity quantity, const Unit& unit) : quantity_(quantity), unit_(unit) {}

  void take(std::span<const LogRow> rows);
  /// Once, after the last row.
  void finish();

  LogQuantity quantity() const { return quantity_; }
  const Unit& unit() const { return unit_; }
  const std::optional<UnitChange>& change() const { return change_; }

 private:
  /// Some hours of the column.
  struct Stretch {
    double start_second = 0.0;
    std::uint64_t first_line = 0;
    std::uint64_t first_row = 0;
    std::uint64_t rows = 0;  ///< that were looked at
    double sum = 0.0;
    double least = 1e300;
    double most = -1e300;
    double mean() const { return sum / static_cast<double>(rows); }
    void join(const Stretch& other) {
      rows += other.rows;
      sum += other.sum;
      least = std::min(least, other.least);
      most = std::max(most, other.most);
    }
  };
  /// A row from which the column may be in another unit.
  struct Jump {
    Unit to;
    Stretch before;
    double step = 0.0;
  };

  void take_value(const LogRow& row, double value);
  void look_for_jump(const LogRow& row, double value);
  void note_step(double step);
  void open(const LogRow& row);
  void close();
  void close_load();
  void close_temperature();
  void note_change();
  bool is_back() const;

  LogQuantity quantity_;
  Unit unit_;
  Stretch now_;
  std::optional<Stretch> last_;
  double most_before_ = 0.0;  ///< of all loads in the unit that is taken for right
  std::optional<Jump> jump_;
  std::optional<Jump> changed_;  ///< the one behind which the column was found to be in another unit
  double last_value_ = LogRow::none;
  double greatest_rise_ = 0.0;  ///< between two values in the unit that is taken for right
  double greatest_fall_ = 0.0;
  double next_second_ = -std::numeric_limits<double>::infinity();  ///< rows before it are passed over
  std::uint64_t row_ = 0;                                          ///< the one at hand, counted from 1
  std::uint64_t last_row_ = 0;                                     ///< that was looked at
  std::optional<UnitChange> change_;
};

}  // namespace ohmwright::cycles
