#pragma once

#include <algorithm>
#include <array>
#include <cstdint>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/cycles/log_finding.hpp>
#include <ohmwright/cycles/log_row.hpp>
#include <ohmwright/cycles/reading/byte_source.hpp>
#include <ohmwright/cycles/reading/dialect.hpp>
#include <ohmwright/cycles/reading/line_buffer.hpp>
#include <ohmwright/cycles/reading/reading_settings.hpp>
#include <ohmwright/cycles/reading/row_clock.hpp>
#include <ohmwright/cycles/reading/time_reader.hpp>
#include <ohmwright/cycles/reading/troubles.hpp>
#include <ohmwright/cycles/reading/unit_watch.hpp>
#include <ohmwright/cycles/reading/went_back.hpp>

namespace ohmwright::cycles {

/// Reads a logger's table, block by block, in memory that does not grow with it.
///
/// The form is found out from the first 64 KiB and said in `findings`; what is wrong with rows is counted in
/// `troubles`. Times run forwards in what is given. Throws InputError as `sniff_dialect` does, DocumentError where the
/// system cannot read on.
class LogReader {
 public:
  explicit LogReader(std::unique_ptr<ByteSource> source, const LogReadingSettings& settings = {});

  /// The next rows, some thousands at most; empty at the end.
  std::span<const LogRow> next();

  const LogDialect& dialect() const { return dialect_; }
  /// What was guessed; complete once `next` gave nothing.
  const std::vector<LogFinding>& findings() const { return findings_; }
  const LogTroubles& troubles() const { return troubles_; }
  bool has(LogQuantity quantity) const;
  /// Quantities of whose unit the log's own values make one doubt, in the order of `log_quantities`; complete once
  /// `next` gave nothing.
  std::array<bool, log_quantity_count> doubtful_units() const;

  std::uint64_t rows() const { return rows_; }  ///< given so far
  std::uint64_t lines() const { return lines_.lines_given(); }
  /// Seconds since 1970-01-01 of the first row [s], in the log's own time where it writes no zone; nothing where it has
  /// no date.
  std::optional<double> start_second() const;

 private:
  /// What to do with a column.
  enum class Task : std::uint8_t { pass, time, clock, value };
  struct ColumnPlan {
    Task task = Task::pass;
    std::size_t quantity = 0;
    double factor = 1.0;  ///< SI value = number · factor + at_zero
    double at_zero = 0.0;
    double least = 0.0;  ///< what is possible [SI]
    double most = 0.0;
    double largest_step = 0.0;  ///< beyond it a slip of the unit is looked for [SI]
    double last = LogRow::none;
    std::uint64_t last_row = 0;       ///< place of that value, in data lines
    std::uint64_t lacking_row = 0;    ///< of the first row without one: after `last_row`, if there is any since then
    double before_lack_second = 0.0;  ///< time of the row before that
    double largest = 0.0;             ///< of all values [SI]
    std::uint64_t slips = 0;          ///< values that were in another unit
    Unit unit = Unit::si(Dimension::ratio);
  };

  void plan_columns();
  void take_line(const char* begin, const char* end);
  /// One cell as it stands: gives the byte after it, or null where it needs `take_cell`.
  const char* take_plain(ColumnPlan& plan, const char* text, const char* end, LogRow& row);
  const char* take_cell(ColumnPlan& plan, const char* text, const char* end, LogRow& row);
  void take_value_text(ColumnPlan& plan, std::string_view cell, LogRow& row);
  void take_value(ColumnPlan& plan, double number, LogRow& row);
  void keep_value(ColumnPlan& plan, double value, LogRow& row) const {
    plan.last = value;
    plan.last_row = data_lines_;
    plan.largest = std::max(plan.largest, value);
    row.value[plan.quantity] = value;
  }
  /// Notes that the row at hand has no value of the column.
  void lack_value(ColumnPlan& plan);
  /// Judges the odd values of the row at hand, of whatever columns, once its time is read.
  void settle_odd_values(LogRow& row);
  double odd_value(ColumnPlan& plan, double number, double value);
  void read_time_texts();
  void lack_time();
  static bool is_time(double second);
  /// Keeps the row that stands next in the block, or not.
  void place_row();
  void settle_held_row();
  /// A row that was made outside the block.
  void give(const LogRow& row) {
    block_[filled_++] = row;
    ++rows_;
  }
  bool is_header_again(std::string_view line) const;
  void finish();
  void settle_date_order();
  void say_elapsed();
  void tell_times_gone_back();
  void tell_unreadable_times();
  void find_doubtful_units();
  void doubt(LogQuantity quantity, LogFinding finding);

  LineBuffer lines_;
  LogDialect dialect_;
  std::vector<LogFinding> findings_;
  LogTroubles troubles_;
  TimeReader time_;
  RowClock clock_;
  WentBack went_back_;
  std::vector<ColumnPlan> plan_;
  std::vector<UnitWatch> watches_;
  std::array<bool, log_quantity_count> doubtful_units_{};
  char stop_ = ',';  ///< the separator, or "\n" where there is none
  bool looks_at_all_columns_ = false;
  char header_byte_ = '\0';  ///< with which a header begins and a row does not
  std::vector<LogRow> block_;
  std::size_t filled_ = 0;
  std::uint64_t rows_ = 0;
  std::string cell_;  ///< the cell that `take_cell` reads
  struct OddValue {
    ColumnPlan* plan = nullptr;
    double number = 0.0;  ///< as it stands in the cell
    double value = 0.0;   ///< what that would be [SI]
  };
  std::vector<OddValue> odd_values_;  ///< of the row at hand
  std::string time_text_;
  std::string first_unreadable_time_;
  std::string clock_text_;
  std::uint64_t data_lines_ = 0;  ///< before the one at hand
  double second_ = 0.0;
  bool has_second_ = false;
  struct HeldRow {
    LogRow row;
    double second = 0.0;
    std::uint64_t line = 0;
  };
  std::optional<HeldRow> held_;
  bool finished_ = false;
  bool units_are_told_ = false;
};

}  // namespace ohmwright::cycles
