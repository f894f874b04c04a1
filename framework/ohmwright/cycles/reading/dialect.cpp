#include <algorithm>
#include <charconv>
#include <cmath>
#include <system_error>
#include <utility>

#include <ohmwright/cycles/reading/column_words.hpp>
#include <ohmwright/cycles/reading/dialect.hpp>
#include <ohmwright/cycles/reading/head_table.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/cycles/reading/quantity_guess.hpp>
#include <ohmwright/cycles/reading/row_order.hpp>
#include <ohmwright/cycles/reading/time_guess.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/near_miss.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cycles {

namespace {

std::string names_of_columns(const HeadTable& table) {
  std::string names;
  for (std::size_t i = 0; i < table.width; ++i)
    names += (i == 0 ? "" : ", ") + ohmwright::quoted(name_of_column(table, i));
  return names;
}

std::size_t column_named(const HeadTable& table, const std::string& name) {
  for (std::size_t i = 0; i < table.header.size(); ++i)
    if (table.header[i] == name) return i;
  const std::string spoken = spoken_name(name);
  for (std::size_t i = 0; i < table.header.size(); ++i)
    if (spoken_name(table.header[i]) == spoken) return i;
  std::size_t number = 0;
  const auto [end, error] = std::from_chars(name.data(), name.data() + name.size(), number);
  if (error == std::errc() && end == name.data() + name.size() && number >= 1 && number <= table.width)
    return number - 1;
  throw InputError("the log has no column " + ohmwright::quoted(name) + did_you_mean(name, table.header) + "; it has " +
                   names_of_columns(table));
}

Unit unit_named(const ColumnChoice& choice, LogQuantity quantity) {
  if (const std::optional<Unit> unit = Unit::named(choice.unit, measured_dimension(quantity))) return *unit;
  std::vector<std::string> symbols;
  for (const Unit unit : Unit::all_of(measured_dimension(quantity))) symbols.push_back(unit.symbol());
  throw InputError(ohmwright::quoted(choice.unit) + " for the column " + ohmwright::quoted(choice.column) +
                   " is no unit of " + std::string(phrase_of(measured_dimension(quantity))) +
                   did_you_mean(choice.unit, symbols));
}

/// What the user picked, sorted.
struct Picked {
  std::optional<std::size_t> time;
  std::optional<std::size_t> clock;
  std::string time_unit;
  std::vector<ChosenColumn> quantities;
};

Picked pick(const HeadTable& table, const std::vector<ColumnChoice>& choices) {
  Picked picked;
  for (const ColumnChoice& choice : choices) {
    const std::string spoken = spoken_name(choice.quantity);
    if (spoken == "time" || spoken == "date") {
      picked.time = column_named(table, choice.column);
      picked.time_unit = choice.unit;
      continue;
    }
    if (spoken == "clock") {
      picked.clock = column_named(table, choice.column);
      continue;
    }
    const std::optional<LogQuantity> quantity = log_quantity_named(choice.quantity);
    if (!quantity) {
      std::vector<std::string> names{"time", "date", "clock"};
      for (const LogQuantity one : log_quantities) names.emplace_back(name_of(one));
      throw InputError(ohmwright::quoted(choice.quantity) + " is nothing that a log holds" +
                       did_you_mean(choice.quantity, names) + "; expected " + one_of(names));
    }
    for (const ChosenColumn& other : picked.quantities)
      if (other.quantity == *quantity)
        throw InputError(std::string(name_of(*quantity)) + " is given two columns; keep one");
    ChosenColumn chosen{column_named(table, choice.column), *quantity, std::nullopt};
    for (const ChosenColumn& other : picked.quantities)
      if (other.index == chosen.index)
        throw InputError("the column " + ohmwright::quoted(name_of_column(table, chosen.index)) + " is given to " +
                         std::string(name_of(other.quantity)) + " and to " + std::string(name_of(*quantity)) +
                         "; keep one");
    if (!choice.unit.empty()) chosen.unit = unit_named(choice, *quantity);
    picked.quantities.push_back(chosen);
  }
  return picked;
}

/// A meter that counts energy is no power, whatever unit it is given.
std::string said_of_counters(const HeadTable& table) {
  const bool counts = std::any_of(table.header.begin(), table.header.end(), [](const std::string& name) {
    return spoken_name(name).find("wh") != std::string::npos;
  });
  return counts
             ? ". A counter of energy (Wh, kWh) is not read: let the meter log its power, or write the difference of "
               "rows over their time"
             : "";
}

void refuse_without_time(const HeadTable& table) {
  throw InputError("no column of the log can be its time; it has " + names_of_columns(table) +
                   "; name one (time=COLUMN), or give the interval of its rows");
}

/// Of a column of words whose neighbours differ again and again: the first two of them.
std::optional<std::pair<std::string, std::string>> names_in_turns(const HeadTable& table, std::size_t column) {
  constexpr std::size_t fewest_rows = 4;
  constexpr std::size_t often = 3;  // a state ("on", "off") stays for some rows: names that take turns do not
  std::size_t changes = 0;
  std::pair<std::string, std::string> names;
  if (table.rows.size() < fewest_rows) return std::nullopt;
  for (std::size_t i = 0; i < table.rows.size(); ++i) {
    const std::vector<std::string>& row = table.rows[i];
    if (column >= row.size() || row[column].empty() || looks_like_data(row[column], table.decimal_sign))
      return std::nullopt;
    if (i == 0 || row[column] == table.rows[i - 1][column]) continue;
    if (changes++ == 0) names = {table.rows[i - 1][column], row[column]};
  }
  return changes * often >= table.rows.size() ? std::optional(names) : std::nullopt;
}

/// Several quantities in one column, each line saying in another whose it is, are no table of a log: a mean of watts
/// and degrees says nothing.
void refuse_several_in_one_column(const HeadTable& table, const LogDialect& dialect) {
  std::size_t of_numbers = 0;
  for (std::size_t column = 0; column < table.width; ++column) {
    if (column == dialect.time_column || column == dialect.clock_column) continue;
    const bool all_are_numbers = std::all_of(table.rows.begin(), table.rows.end(), [&](const auto& row) {
      return column < row.size() && (says_no_value(row[column]) || number_at_start(row[column], table.decimal_sign));
    });
    if (all_are_numbers) ++of_numbers;
  }
  if (of_numbers != 1) return;
  for (std::size_t column = 0; column < table.width; ++column)
    if (const auto names = names_in_turns(table, column))
      throw InputError("several things stand in one column, one a line: " + ohmwright::quoted(names->first) + ", " +
                       ohmwright::quoted(names->second) + " (column " +
                       ohmwright::quoted(name_of_column(table, column)) +
                       "); keep the header and the lines of one of them, or give each a column of its own beside the "
                       "time");
}

void say_form(const LogDialect& dialect, const HeadTable& table, std::vector<LogFinding>& findings) {
  std::vector<LogFinding> form;
  const std::string separator = dialect.separator == '\0' ? "" : std::string(1, dialect.separator);
  form.push_back({"form-of-log",
                  {{"separator", separator},
                   {"decimal_sign", std::string(1, dialect.decimal_sign)},
                   {"header", dialect.has_header ? "yes" : "no"},
                   {"lines_before", static_cast<double>(dialect.first_data_line)}}});
  if (dialect.time_column)
    form.push_back({"time-of-log",
                    {{"column", name_of_column(table, *dialect.time_column)},
                     {"writing", std::string(name_of(dialect.time.writing))},
                     {"second_per_number", dialect.time.second_per_number}}});
  findings.insert(findings.begin(), form.begin(), form.end());
}

}  // namespace

SniffedDialect sniff_dialect(std::string_view head, const LogReadingSettings& settings) {
  const HeadTable table = head_table(head, settings.separator);
  SniffedDialect sniffed;
  LogDialect& dialect = sniffed.dialect;
  dialect.separator = table.separator;
  dialect.decimal_sign = table.decimal_sign;
  dialect.has_header = !table.header.empty();
  dialect.first_data_line = table.first_data_line;
  for (std::size_t i = 0; i < table.width; ++i) dialect.names.push_back(name_of_column(table, i));
  sniffed.has_rows = !table.rows.empty();
  const Picked picked = pick(table, settings.columns);
  if (!sniffed.has_rows) {
    sniffed.findings.push_back({"log-has-no-rows", {}});
    return sniffed;
  }
  const std::optional<GuessedTime> time =
      settings.row_interval_second && !picked.time
          ? std::nullopt
          : guess_time(table, picked.time, picked.clock, picked.time_unit, settings.date_order, sniffed.findings);
  if (settings.row_interval_second) {
    dialect.time = TimeForm{TimeWriting::row_count};
    dialect.time.second_per_number = *settings.row_interval_second;
  } else if (time) {
    dialect.time = time->form;
    dialect.time_column = time->column;
    dialect.clock_column = time->clock_column;
  } else if (picked.time) {
    throw InputError("the column " + ohmwright::quoted(name_of_column(table, *picked.time)) +
                     " holds no times: found " + ohmwright::quoted(table.rows.front()[*picked.time]));
  } else {
    refuse_without_time(table);
  }
  refuse_several_in_one_column(table, dialect);
  std::vector<std::size_t> taken;
  if (dialect.time_column) taken.push_back(*dialect.time_column);
  if (dialect.clock_column) taken.push_back(*dialect.clock_column);
  for (const ChosenColumn& chosen : choose_quantities(table, taken, picked.quantities, sniffed.findings))
    dialect.columns.push_back({chosen.index, chosen.quantity, *chosen.unit, name_of_column(table, chosen.index)});
  if (dialect.columns.empty())
    throw InputError("no column of the log can be a temperature, a power or a current; it has " +
                     names_of_columns(table) + "; name one, such as power=COLUMN:W" + said_of_counters(table));
  say_form(dialect, table, sniffed.findings);
  sniffed.newest_first = newest_comes_first(dialect, table);
  return sniffed;
}

}  // namespace ohmwright::cycles
