#include <algorithm>
#include <cmath>
#include <cstring>

#include <ohmwright/cycles/reading/head_table.hpp>
#include <ohmwright/cycles/reading/latin1_text.hpp>
#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/cycles/reading/turned_round.hpp>
#include <ohmwright/quantity/blanks.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::size_t block_rows = 512;
constexpr std::size_t room_for_held_row = 2;

}  // namespace

LogReader::LogReader(std::unique_ptr<ByteSource> source, const LogReadingSettings& settings)
    : lines_(std::move(source)), time_(TimeForm{}), clock_(false), block_(block_rows + room_for_held_row) {
  SniffedDialect sniffed = sniff_dialect(lines_.head(), settings);
  dialect_ = std::move(sniffed.dialect);
  findings_ = std::move(sniffed.findings);
  finished_ = !sniffed.has_rows;
  if (sniffed.newest_first) {
    TurnedRound turned = turned_round(lines_, dialect_.first_data_line);
    for (const std::uint64_t line : turned.too_long_lines) troubles_.add(LogTrouble::line_too_long, line);
    lines_ = LineBuffer(std::move(turned.text));
    lines_.number_backwards(dialect_.first_data_line, turned.lines);
    findings_.push_back({"rows-turned-round"});
  }
  time_ = TimeReader(dialect_.time);
  const TimeWriting writing = dialect_.time.writing;
  clock_ = RowClock(writing == TimeWriting::calendar && !dialect_.time.has_zone);
  if (writing == TimeWriting::epoch || dialect_.time.has_zone) findings_.push_back({"times-in-utc"});
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
  return clock_.start_second() + (writing == TimeWriting::serial_day ? serial_day_zero_second : 0.0) -
         static_cast<double>(time_.day_shift()) * 86400.0;
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
  for (UnitWatch& watch : watches_) watch.take(rows);
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
  row.line = lines_.line();
  has_second_ = false;
  time_text_.clear();
  clock_text_.clear();
  odd_values_.clear();
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
      for (std::size_t missing = i + 1; missing < columns; ++missing) lack_value(plan_[missing]);
      break;
    }
    ++text;
    if (stop_ == ' ')
      while (text != end && *text == ' ') ++text;
  }
  if (looks_at_all_columns_ && text != end) troubles_.add(LogTrouble::extra_cells, lines_.line());
  if (!has_second_) read_time_texts();
  if (!odd_values_.empty()) settle_odd_values(row);
  ++data_lines_;
  if (has_second_ && is_time(second_))
    place_row();
  else
    lack_time();
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
  constexpr unsigned char first_of_many_bytes = 0x80;  // of a letter that is no ASCII
  if (std::any_of(cell_.begin(), cell_.end(),
                  [](char c) { return static_cast<unsigned char>(c) >= first_of_many_bytes; }))
    cell_ = with_plain_blanks(cell_);
  const std::string_view cell = without_blanks_around(cell_);
  if (plan.task == Task::value) take_value_text(plan, cell, row);
  if (plan.task == Task::time) time_text_ = cell;
  if (plan.task == Task::clock) clock_text_ = cell;
  return stop;
}

void LogReader::take_value_text(ColumnPlan& plan, std::string_view cell, LogRow& row) {
  if (says_no_value(cell)) {
    lack_value(plan);
    return troubles_.add(LogTrouble::missing_value, lines_.line());
  }
  const std::optional<NumberAndRest> number = number_at_start(cell, dialect_.decimal_sign);
  const LogQuantity quantity = log_quantities[plan.quantity];
  if (number && number->rest.empty()) return take_value(plan, number->value, row);
  if (number) {  // "-18.3 degC": the cell's own unit counts
    if (const std::optional<Unit> unit = Unit::named(as_utf8(number->rest), measured_dimension(quantity)))
      return take_value(plan, (unit->to_si(number->value) - plan.at_zero) / plan.factor, row);
  }
  lack_value(plan);
  troubles_.add(LogTrouble::unreadable_value, lines_.line());
}

inline void LogReader::take_value(ColumnPlan& plan, double number, LogRow& row) {
  double value = number * plan.factor + plan.at_zero;
  if (value < plan.least || value > plan.most || std::abs(value - plan.last) > plan.largest_step)
    return odd_values_.push_back({&plan, number, value});
  keep_value(plan, value, row);
}

void LogReader::lack_time() {
  troubles_.add(LogTrouble::unreadable_time, lines_.line());
  if (first_unreadable_time_.empty())
    first_unreadable_time_ = time_text_ + (clock_text_.empty() ? "" : " ") + clock_text_;
}

void LogReader::read_time_texts() {
  std::optional<double> second;
  if (dialect_.time.writing == TimeWriting::row_count)
    second = static_cast<double>(data_lines_) * dialect_.time.second_per_number;
  else if (dialect_.clock_column)
    second = time_.read(time_text_, clock_text_);
  else
    second = time_.read(time_text_);
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
    case RowClock::Place::set_forward:
      troubles_.add(LogTrouble::clock_set_forward, lines_.line());
      break;
    case RowClock::Place::begins_anew:
      troubles_.add(LogTrouble::clock_began_anew, lines_.line());
      if (find_finding(findings_, "clock-began-anew") == nullptr)
        findings_.push_back({"clock-began-anew", {{"line", static_cast<double>(lines_.line())}}});
      break;
    case RowClock::Place::precedes:
      went_back_.take(lines_.line(), clock_.last_second() - second_, clock_.step_second());
      return troubles_.add(LogTrouble::out_of_order, lines_.line());
    case RowClock::Place::leaps:
      held_ = HeldRow{block_[filled_], second_, lines_.line()};
      return;
  }
  went_back_.end();
  ++filled_;
  ++rows_;
}

/// A row that leapt ahead was right when the next one follows it, and had a false time when the next one does not.
void LogReader::settle_held_row() {
  if (second_ >= held_->second) {
    if (clock_.is_set_ahead_by(held_->second)) troubles_.add(LogTrouble::clock_set_ahead, held_->line);
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

}  // namespace ohmwright::cycles
