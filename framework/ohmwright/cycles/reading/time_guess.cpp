#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

#include <ohmwright/cycles/median.hpp>
#include <ohmwright/cycles/reading/column_words.hpp>
#include <ohmwright/cycles/reading/elapsed_text.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/cycles/reading/time_guess.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cycles {

namespace {

constexpr double year_2090_second = 3.8e9;
constexpr double year_1990_second = 6.3e8;

struct Cells {
  std::size_t calendar = 0;  ///< a date and a clock time
  std::size_t date = 0;      ///< a date alone
  std::size_t clock = 0;
  std::size_t number = 0;
  std::size_t filled = 0;
  std::vector<double> numbers;
  std::vector<DateText> dates;
  double most_clock = 0.0;
  bool has_days = false;  ///< "1 day, 2:05:30"
  bool clock_falls = false;
  bool has_zone = false;
};

void take_cell(const std::string& cell, char decimal_sign, Cells& cells) {
  ++cells.filled;
  std::string_view rest = cell;
  if (const std::optional<double> number = whole_number_text(cell, decimal_sign)) {
    ++cells.number;
    cells.numbers.push_back(*number);
    // "20240301" is a date as well; a number that is a date and grows by one a row is no time of rows.
    if (cell.size() != 14) return;
  }
  if (const std::optional<DateText> date = take_date(rest)) {
    cells.dates.push_back(*date);
    rest.remove_prefix(std::min(rest.find_first_not_of("Tt ,_-:"), rest.size()));
    const std::optional<ClockText> clock = take_clock(rest, date->year_leads);
    if (clock) cells.has_zone = cells.has_zone || clock->zone_second.has_value();
    ++(clock ? cells.calendar : cells.date);
    return;
  }
  rest = cell;
  const std::optional<ClockText> clock = take_clock(rest, false, 99999);
  const bool is_clock = clock && without_blanks_around(rest).empty();
  const std::optional<double> elapsed = is_clock ? std::nullopt : elapsed_second(cell);
  if (!is_clock && !elapsed) return;
  ++cells.clock;
  cells.has_days = cells.has_days || elapsed.has_value();
  const double second = elapsed ? *elapsed : clock->second_of_day;
  cells.clock_falls = cells.clock_falls || second < cells.most_clock;
  cells.most_clock = std::max(cells.most_clock, second);
}

std::vector<std::string> column_of(const HeadTable& table, std::size_t column) {
  std::vector<std::string> cells;
  for (const std::vector<std::string>& row : table.rows)
    if (column < row.size() && !row[column].empty()) cells.push_back(row[column]);
  return cells;
}

bool never_falls(const std::vector<double>& numbers) { return std::is_sorted(numbers.begin(), numbers.end()); }

double median_step(const std::vector<double>& numbers) {
  std::vector<double> steps;
  for (std::size_t i = 1; i < numbers.size(); ++i) steps.push_back(numbers[i] - numbers[i - 1]);
  return median_of(std::move(steps));
}

/// Unit of epoch numbers by their size: seconds, milliseconds, microseconds or nanoseconds of 1990 to 2090.
std::optional<double> epoch_unit(double number) {
  for (const double unit : {1.0, 1e-3, 1e-6, 1e-9})
    if (number * unit > year_1990_second && number * unit < year_2090_second) return unit;
  return std::nullopt;
}

std::optional<double> unit_of_elapsed(std::string_view unit) {
  const std::string lower = lower_case(unit);
  for (const auto& [name, second] : std::array<std::pair<std::string_view, double>, 17>{{{"s", 1.0},
                                                                                         {"sec", 1.0},
                                                                                         {"secs", 1.0},
                                                                                         {"second", 1.0},
                                                                                         {"seconds", 1.0},
                                                                                         {"ms", 1e-3},
                                                                                         {"msec", 1e-3},
                                                                                         {"milliseconds", 1e-3},
                                                                                         {"min", 60.0},
                                                                                         {"mins", 60.0},
                                                                                         {"minute", 60.0},
                                                                                         {"minutes", 60.0},
                                                                                         {"h", 3600.0},
                                                                                         {"hour", 3600.0},
                                                                                         {"hours", 3600.0},
                                                                                         {"d", 86400.0},
                                                                                         {"days", 86400.0}}})
    if (lower == name) return second;
  return std::nullopt;
}

TimeForm form_of_numbers(const Cells& cells, const std::string& header, std::vector<LogFinding>& findings) {
  TimeForm form;
  const double first = cells.numbers.front();
  const double step = median_step(cells.numbers);
  // A clock that was not set yet counts from its start: then the last one tells.
  const std::optional<double> of_first = epoch_unit(first);
  if (const std::optional<double> unit = of_first ? of_first : epoch_unit(cells.numbers.back())) {
    form.writing = TimeWriting::epoch;
    form.second_per_number = *unit;
    return form;
  }
  if (first > 30000.0 && first < 70000.0 && step > 0.0 && step < 0.5) {
    form.writing = TimeWriting::serial_day;
    form.second_per_number = 86400.0;
    findings.push_back({"time-is-serial-days", {}, true});
    return form;
  }
  form.writing = TimeWriting::elapsed;
  if (const std::optional<double> unit = unit_of_elapsed(words_of(header).unit_text)) {
    form.second_per_number = *unit;
    return form;
  }
  const bool counts_rows = cells.numbers.size() > 2 && step == 1.0 && (first == 0.0 || first == 1.0) &&
                           cells.numbers.back() - first == static_cast<double>(cells.numbers.size() - 1);
  // Seconds are assumed; a column that counts 0, 1, 2 may as well be the row's number, or minutes.
  findings.push_back({counts_rows ? std::string_view("time-may-count-rows") : std::string_view("elapsed-unit-assumed"),
                      {{"column", header}, {"assumed_second", 1.0}, {"step", step}},
                      true});
  return form;
}

/// Years of two digits that come first: where the dates follow each other only so, or where all else makes them years
/// in which nobody logged.
bool is_year_first(const DateText& date, bool runs_otherwise, bool runs_year_first) {
  if (!runs_year_first || runs_otherwise != runs_year_first) return runs_year_first;
  constexpr std::int64_t first_year = 2012;
  constexpr std::int64_t years = 40;
  const auto is_likely = [](std::int64_t year) {
    return year + 2000 >= first_year && year + 2000 < first_year + years;
  };
  return is_likely(date.first) && date.third < 100 && !is_likely(date.third);
}

TimeForm form_of_dates(const Cells& cells, std::optional<DateOrder> order, std::vector<LogFinding>& findings) {
  TimeForm form;
  form.writing = TimeWriting::calendar;
  form.has_zone = cells.has_zone;
  const DateText& first = cells.dates.front();
  if (first.year_leads || first.month_is_named) return form;
  if (order) {
    form.order = *order;
    return form;
  }
  const auto all = [&](auto fits) { return std::all_of(cells.dates.begin(), cells.dates.end(), fits); };
  const bool day_first = all([](const DateText& date) { return date.may_be_day_first(); });
  const bool month_first = all([](const DateText& date) { return date.may_be_month_first(); });
  const bool year_first = all([](const DateText& date) { return day_number(date, DateOrder::year_first).has_value(); });
  const auto runs_on = [&](DateOrder tried) {
    for (std::size_t i = 1; i < cells.dates.size(); ++i) {
      const std::optional<std::int64_t> before = day_number(cells.dates[i - 1], tried);
      const std::optional<std::int64_t> now = day_number(cells.dates[i], tried);
      if (!before || !now || *now < *before || *now - *before > 20) return false;
    }
    return true;
  };
  form.order = month_first && !day_first ? DateOrder::month_first : DateOrder::day_first;
  if (year_first && is_year_first(first, runs_on(form.order), runs_on(DateOrder::year_first)))
    form.order = DateOrder::year_first;
  form.order_is_guessed = year_first;  // "24-03-25" may be another order still: the next date tells
  if (!day_first || !month_first || form.order == DateOrder::year_first) return form;
  // Both fit: the order in which the dates follow each other within the head decides, if there are two of them.
  const bool runs_day_first = runs_on(DateOrder::day_first);
  const bool runs_month_first = runs_on(DateOrder::month_first);
  if (runs_month_first && !runs_day_first) form.order = DateOrder::month_first;
  form.order_is_guessed = runs_day_first == runs_month_first;
  const bool is_month_first = form.order == DateOrder::month_first;
  if (form.order_is_guessed)
    findings.push_back({"day-month-order-guessed", {{"order", is_month_first ? "month_first" : "day_first"}}, true});
  else
    findings.push_back({"day-month-order-told", {{"order", is_month_first ? "month_first" : "day_first"}}});
  return form;
}

/// The form that the user's unit says; throws for none.
std::optional<TimeForm> form_of_unit(const std::string& unit, const Cells& cells) {
  TimeForm form;
  if (const std::optional<double> second = unit_of_elapsed(unit)) {
    form.writing = TimeWriting::elapsed;
    form.second_per_number = *second;
    return form;
  }
  const std::string spoken = spoken_name(unit);
  if (spoken == spoken_name("epoch") || spoken == spoken_name("epoch_ms")) {
    form.writing = TimeWriting::epoch;
    form.second_per_number = spoken == spoken_name("epoch") ? 1.0 : 1e-3;
    return form;
  }
  const bool day_first = spoken == spoken_name("day_first");
  if (!day_first && spoken != spoken_name("month_first"))
    throw InputError(ohmwright::quoted(unit) +
                     " is no unit of time; expected s, min, h, ms, epoch, epoch_ms, day_first or month_first");
  form.writing = TimeWriting::calendar;
  form.order = day_first ? DateOrder::day_first : DateOrder::month_first;
  form.has_zone = cells.has_zone;
  return form;
}

Cells read_cells(const std::vector<std::string>& texts, char decimal_sign) {
  Cells cells;
  for (const std::string& text : texts) take_cell(text, decimal_sign, cells);
  return cells;
}

bool most(std::size_t count, const Cells& cells) { return cells.filled > 0 && count * 10 >= cells.filled * 8; }

/// The form of a column's cells, if they are times.
std::optional<TimeForm> form_of_time_cells(const std::vector<std::string>& texts, const std::string& header,
                                           char decimal_sign, const std::string& unit,
                                           std::vector<LogFinding>& findings) {
  const Cells cells = read_cells(texts, decimal_sign);
  if (!unit.empty()) return form_of_unit(unit, cells);
  if (most(cells.calendar + cells.date, cells)) return form_of_dates(cells, std::nullopt, findings);
  if (most(cells.number, cells)) return form_of_numbers(cells, header, findings);
  if (!most(cells.clock, cells)) return std::nullopt;
  TimeForm form;
  const ColumnWords words = words_of(header);
  // "elapsed" hours begin at nought or pass 24; a clock begins anew at midnight.
  const bool is_elapsed = header.find("lapsed") != std::string::npos || cells.most_clock >= 86401.0 || cells.has_days;
  form.writing = is_elapsed ? TimeWriting::elapsed : TimeWriting::clock;
  if (form.writing == TimeWriting::clock) findings.push_back({"time-has-no-date", {}});
  return form;
}

}  // namespace

std::optional<GuessedTime> guess_time(const HeadTable& table, std::optional<std::size_t> picked,
                                      std::optional<std::size_t> picked_clock, const std::string& unit,
                                      std::optional<DateOrder> order, std::vector<LogFinding>& findings) {
  struct Candidate {
    std::size_t column;
    Cells cells;
    ColumnWords::Meaning meaning;
  };
  std::vector<Candidate> candidates;
  for (std::size_t column = 0; column < table.width; ++column)
    candidates.push_back(
        {column, read_cells(column_of(table, column), table.decimal_sign), words_of(header_of(table, column)).meaning});
  using NamedAs = ColumnWords::Meaning;
  const auto is_named = [](const Candidate& one) {
    return one.meaning == NamedAs::time || one.meaning == NamedAs::date || one.meaning == NamedAs::clock;
  };
  const auto chosen = [&]() -> const Candidate* {
    if (picked) return *picked < candidates.size() ? &candidates[*picked] : nullptr;
    // Best first: whole calendar times, dates with a clock column, named numbers, clocks, numbers that only grow.
    for (int round = 0; round < 5; ++round)
      for (const Candidate& one : candidates) {
        if (round == 0 && most(one.cells.calendar, one.cells)) return &one;
        if (round == 1 && most(one.cells.date, one.cells)) return &one;
        if (round == 2 && is_named(one) && most(one.cells.number, one.cells)) return &one;
        if (round == 3 && most(one.cells.clock, one.cells)) return &one;
        if (round == 4 && most(one.cells.number, one.cells) && one.cells.numbers.size() > 1 && table.width > 1 &&
            one.meaning == NamedAs::unknown && never_falls(one.cells.numbers) &&
            (median_step(one.cells.numbers) > 0.0 || epoch_unit(one.cells.numbers.front())))
          return &one;
      }
    // One row alone does not grow: a first number that is an epoch time will do.
    if (!candidates.empty() && !candidates[0].cells.numbers.empty() && epoch_unit(candidates[0].cells.numbers[0]))
      return &candidates[0];
    return nullptr;
  }();
  if (chosen == nullptr) return std::nullopt;
  GuessedTime guess;
  guess.column = chosen->column;
  const std::vector<std::string> cells = column_of(table, chosen->column);
  std::vector<LogFinding> said;
  std::optional<TimeForm> form =
      form_of_time_cells(cells, header_of(table, chosen->column), table.decimal_sign, unit, said);
  if (!form) return std::nullopt;
  form->decimal_sign = table.decimal_sign;
  guess.form = *form;
  if (order && guess.form.writing == TimeWriting::calendar) {
    guess.form.order = *order;
    guess.form.order_is_guessed = false;
    std::erase_if(said, [](const LogFinding& one) { return one.id.starts_with("day-month-order"); });
  }
  guess.clock_column = picked_clock;
  if (!picked_clock && chosen->cells.date > chosen->cells.calendar)
    for (const Candidate& one : candidates)
      if (!guess.clock_column && one.column != chosen->column && most(one.cells.clock, one.cells))
        guess.clock_column = one.column;
  guess.form.has_clock_column = guess.clock_column.has_value();
  for (LogFinding& finding : said)
    for (LogArgument& argument : finding.arguments)
      if (argument.name == "column") argument.value = name_of_column(table, chosen->column);
  findings.insert(findings.end(), said.begin(), said.end());
  return guess;
}

}  // namespace ohmwright::cycles
