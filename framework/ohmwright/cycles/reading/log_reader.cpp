#include <algorithm>
#include <cmath>
#include <cstring>

#include <ohmwright/cycles/reading/head_table.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/quantity/blanks.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::size_t block_rows = 512;
constexpr std::size_t room_for_held_row = 2;

/// Limits of what a household appliance's log can hold [SI]: beyond them a value is an error code or in another unit.
struct Possible {
  double least;
  double most;
  double largest_step;
};

Possible possible_values(LogQuantity quantity) {
  switch (quantity) {
    case LogQuantity::power:
      return {-20.0, 20e3, 20.0};
    case LogQuantity::current:
      return {-1.0, 100.0, 1e9};
    default:
      return {213.15, 423.15, 8.0};
  }
}

}  // namespace

LogReader::LogReader(std::unique_ptr<ByteSource> source, const LogReadingSettings& settings)
    : lines_(std::move(source)), time_(TimeForm{}), clock_(false), block_(block_rows + room_for_held_row) {
  SniffedDialect sniffed = sniff_dialect(lines_.head(), settings);
  dialect_ = std::move(sniffed.dialect);
  findings_ = std::move(sniffed.findings);
  finished_ = !sniffed.has_rows;
  time_ = TimeReader(dialect_.time);
  const TimeWriting writing = dialect_.time.writing;
  clock_ = RowClock(writing == TimeWriting::calendar && !dialect_.time.has_zone);
  plan_columns();
  const char* begin = nullptr;
  const char* end = nullptr;
  for (std::size_t i = 0; i < dialect_.first_data_line && lines_.next(begin, end); ++i) {
  }
  if (finished_) finish();
}

bool LogReader::has(LogQuantity quantity) const {
  return std::any_of(dialect_.columns.begin(), dialect_.columns.end(),
                     [&](const LogColumn& column) { return column.quantity == quantity; });
}

std::optional<double> LogReader::start_second() const {
  const TimeWriting writing = dialect_.time.writing;
  const bool has_date =
      writing == TimeWriting::calendar || writing == TimeWriting::epoch || writing == TimeWriting::serial_day;
  if (!has_date || !clock_.any()) return std::nullopt;
  constexpr double serial_day_zero_second = -25569.0 * 86400.0;  // 1899-12-30, where spreadsheets count from
  return clock_.first_second() + (writing == TimeWriting::serial_day ? serial_day_zero_second : 0.0) -
         static_cast<double>(time_.day_shift()) * 86400.0;
}

void LogReader::plan_columns() {
  std::size_t last = 0;
  for (const LogColumn& column : dialect_.columns) last = std::max(last, column.index);
  last = std::max({last, dialect_.time_column.value_or(0), dialect_.clock_column.value_or(0)});
  plan_.resize(last + 1);
  looks_at_all_columns_ = plan_.size() == dialect_.names.size() && dialect_.separator != ' ';
  stop_ = dialect_.separator == '\0' ? '\n' : dialect_.separator;
  for (const LogColumn& column : dialect_.columns) {
    ColumnPlan& plan = plan_[column.index];
    const Possible possible = possible_values(column.quantity);
    plan.task = Task::value;
    plan.quantity = index_of(column.quantity);
    plan.unit = column.unit;
    plan.at_zero = column.unit.to_si(0.0);
    plan.factor = (column.unit.to_si(1000.0) - plan.at_zero) / 1000.0;
    plan.least = possible.least;
    plan.most = possible.most;
    plan.largest_step = possible.largest_step;
    watches_.emplace_back(column.quantity, column.unit);
  }
  if (dialect_.has_header && !dialect_.names.front().empty() && !detail::is_digit(dialect_.names.front().front()))
    header_byte_ = dialect_.names.front().front();
  if (dialect_.time_column) plan_[*dialect_.time_column].task = Task::time;
  if (dialect_.clock_column) plan_[*dialect_.clock_column].task = Task::clock;
}

std::span<const LogRow> LogReader::next() {
  filled_ = 0;
  const char* begin = nullptr;
  const char* end = nullptr;
  while (!finished_ && filled_ < block_rows) {
    if (lines_.next(begin, end)) {
      take_line(begin, end);
    } else {
      finished_ = true;
      finish();
    }
  }
  const std::span<const LogRow> rows(block_.data(), filled_);
  for (UnitWatch& watch : watches_) watch.take(rows, lines_.line());
  if (finished_ && !units_are_told_) find_doubtful_units();
  return rows;
}

void LogReader::take_line(const char* begin, const char* end) {
  if (end != begin && end[-1] == '\r') --end;
  if (begin == end || *begin == '#') return;
  if (begin[*begin == '"' ? 1 : 0] == header_byte_ && is_header_again({begin, static_cast<std::size_t>(end - begin)}))
    return troubles_.add(LogTrouble::repeated_header, lines_.line());
  LogRow& row = block_[filled_];
  row.value.fill(LogRow::none);
  has_second_ = false;
  const char* text = begin;
  const std::size_t columns = plan_.size();
  for (std::size_t i = 0; i < columns; ++i) {
    const char* after = take_plain(plan_[i], text, end, row);
    if (after == nullptr) after = take_cell(plan_[i], text, end, row);
    text = after;
    if (i + 1 == columns) break;
    if (text == end) {
      if (without_blanks_around({begin, static_cast<std::size_t>(end - begin)}).empty()) return;
      troubles_.add(LogTrouble::missing_cells, lines_.line());
      break;
    }
    ++text;
    if (stop_ == ' ')
      while (text != end && *text == ' ') ++text;
  }
  if (looks_at_all_columns_ && text != end) troubles_.add(LogTrouble::extra_cells, lines_.line());
  ++data_lines_;
  if (!has_second_) read_time_texts();
  if (has_second_ && is_time(second_))
    place_row();
  else
    troubles_.add(LogTrouble::unreadable_time, lines_.line());
  if (lines_.took_away_a_line()) troubles_.add(LogTrouble::line_too_long, lines_.line() - 1);
}

inline const char* LogReader::take_plain(ColumnPlan& plan, const char* text, const char* end, LogRow& row) {
  switch (plan.task) {
    case Task::pass: {
      if (text != end && (*text == '"' || stop_ == '\n')) return nullptr;
      const auto* found = static_cast<const char*>(std::memchr(text, stop_, static_cast<std::size_t>(end - text)));
      return found == nullptr ? end : found;
    }
    case Task::time: {
      const char* after = nullptr;
      if (dialect_.time.writing == TimeWriting::calendar) {
        if (dialect_.clock_column || !time_.remembered().matches(text)) return nullptr;
        after = time_.remembered().seconds_after(text, second_);
      } else if (dialect_.time.writing != TimeWriting::clock) {
        after = plain_number(text, '.', second_);
        second_ *= dialect_.time.second_per_number;
      }
      if (after == nullptr || (after != end && *after != stop_)) return nullptr;
      has_second_ = true;
      return after;
    }
    case Task::clock:
      return nullptr;
    case Task::value:
      break;
  }
  double number = 0.0;
  const char* const after = plain_number(text, dialect_.decimal_sign, number);
  if (after == nullptr || (after != end && *after != stop_)) return nullptr;
  take_value(plan, number, row);
  return after;
}

const char* LogReader::take_cell(ColumnPlan& plan, const char* text, const char* end, LogRow& row) {
  cell_.clear();
  const char* from = text;
  while (from != end && (*from == ' ' || (*from == '\t' && stop_ != '\t'))) ++from;
  if (from != end && *from == '"') {
    ++from;
    while (from != end && (*from != '"' || (from + 1 != end && from[1] == '"'))) {
      if (*from == '"') ++from;
      cell_ += *from++;
    }
    if (from == end)
      troubles_.add(LogTrouble::open_quote, lines_.line());
    else
      ++from;
  }
  const auto* stop = static_cast<const char*>(std::memchr(from, stop_, static_cast<std::size_t>(end - from)));
  if (stop == nullptr) stop = end;
  cell_.append(from, stop);
  const std::string_view cell = without_blanks_around(cell_);
  if (plan.task == Task::value) take_value_text(plan, cell, row);
  if (plan.task == Task::time) time_text_ = cell;
  if (plan.task == Task::clock) clock_text_ = cell;
  return stop;
}

void LogReader::take_value_text(ColumnPlan& plan, std::string_view cell, LogRow& row) {
  if (says_no_value(cell)) return troubles_.add(LogTrouble::missing_value, lines_.line());
  const std::optional<NumberAndRest> number = number_at_start(cell, dialect_.decimal_sign);
  const LogQuantity quantity = log_quantities[plan.quantity];
  if (number && number->rest.empty()) return take_value(plan, number->value, row);
  if (number) {  // "-18.3 degC": the cell's own unit counts
    if (const std::optional<Unit> unit = Unit::named(number->rest, measured_dimension(quantity)))
      return take_value(plan, (unit->to_si(number->value) - plan.at_zero) / plan.factor, row);
  }
  troubles_.add(LogTrouble::unreadable_value, lines_.line());
}

inline void LogReader::take_value(ColumnPlan& plan, double number, LogRow& row) {
  double value = number * plan.factor + plan.at_zero;
  if (value < plan.least || value > plan.most || std::abs(value - plan.last) > plan.largest_step)
    value = odd_value(plan, number, value);
  if (std::isnan(value)) return;
  plan.last = value;
  plan.largest = std::max(plan.largest, value);
  row.value[plan.quantity] = value;
}

/// The value that an odd one stands for, not-a-number for none.
double LogReader::odd_value(ColumnPlan& plan, double number, double value) {
  const LogQuantity quantity = log_quantities[plan.quantity];
  const bool is_possible = value >= plan.least && value <= plan.most;
  if (measured_dimension(quantity) == Dimension::temperature) {
    // Faster than 8 K and 9 K/min no sensor on a coil or in air can change (common practice, no source).
    const double passed_second = has_second_ && clock_.any() ? std::max(0.0, second_ - clock_.last_second()) : 1e9;
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

void LogReader::read_time_texts() {
  std::optional<double> second;
  if (dialect_.time.writing == TimeWriting::row_count)
    second = static_cast<double>(data_lines_ - 1) * dialect_.time.second_per_number;
  else if (dialect_.clock_column)
    second = time_.read(time_text_, clock_text_);
  else
    second = time_.read(time_text_);
  time_text_.clear();
  clock_text_.clear();
  has_second_ = second.has_value();
  second_ = second.value_or(0.0);
}

/// Three thousand years: a number beyond it is no time, and seconds would lose their place in a double.
bool LogReader::is_time(double second) { return std::abs(second) < 1e11; }

void LogReader::place_row() {
  if (held_) settle_held_row();
  switch (clock_.take(second_, block_[filled_].time_second)) {
    case RowClock::Place::follows:
      break;
    case RowClock::Place::repeats:
      troubles_.add(LogTrouble::repeated_time, lines_.line());
      break;
    case RowClock::Place::set_back:
      troubles_.add(LogTrouble::clock_set_back, lines_.line());
      break;
    case RowClock::Place::precedes:
      return troubles_.add(LogTrouble::out_of_order, lines_.line());
    case RowClock::Place::leaps:
      held_ = HeldRow{block_[filled_], second_, lines_.line()};
      return;
  }
  ++filled_;
  ++rows_;
}

/// A row that leapt ahead was right when the next one follows it, and had a false time when the next one does not.
void LogReader::settle_held_row() {
  if (second_ >= held_->second) {
    held_->row.time_second = clock_.accept_leap(held_->second);
    const LogRow now = block_[filled_];  // the row at hand comes after it
    give(held_->row);
    block_[filled_] = now;
  } else {
    troubles_.add(LogTrouble::out_of_order, held_->line);
  }
  held_.reset();
}

bool LogReader::is_header_again(std::string_view line) const {
  const std::vector<std::string> cells = cells_of(line, dialect_.separator);
  return !cells.empty() && cells.front() == dialect_.names.front();
}

void LogReader::finish() {
  if (held_) {
    second_ = held_->second;
    settle_held_row();
  }
  if (lines_.took_away_a_line()) troubles_.add(LogTrouble::line_too_long, lines_.line());
  if (lines_.last_line_was_open()) {
    troubles_.add(LogTrouble::cut_last_line, lines_.line());
    findings_.push_back({"last-line-open"});
  }
  if (const std::optional<std::string_view> why = lines_.source().ended_early()) findings_.push_back({*why, {}});
  settle_date_order();
}

/// What the head of the log left open, its later dates may have settled.
void LogReader::settle_date_order() {
  if (!time_.order_was_changed()) return;
  std::erase_if(findings_, [](const LogFinding& one) { return one.id == "day-month-order-guessed"; });
  const bool is_day_first = time_.form().order == DateOrder::day_first;
  findings_.push_back({"day-month-order-changed", {{"order", is_day_first ? "day_first" : "month_first"}}});
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
