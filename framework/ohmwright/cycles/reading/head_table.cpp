#include <algorithm>
#include <array>
#include <map>

#include <ohmwright/cycles/reading/calendar.hpp>
#include <ohmwright/cycles/reading/elapsed_text.hpp>
#include <ohmwright/cycles/reading/head_table.hpp>
#include <ohmwright/cycles/reading/latin1_text.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>
#include <ohmwright/quantity/blanks.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::size_t most_lines = 4000;

std::vector<std::string_view> lines_of(std::string_view head) {
  std::vector<std::string_view> lines;
  while (!head.empty() && lines.size() < most_lines) {
    const std::size_t end = std::min(head.find('\n'), head.size());
    std::string_view line = head.substr(0, end);
    head.remove_prefix(std::min(end + 1, head.size()));
    if (line.ends_with('\r')) line.remove_suffix(1);
    lines.push_back(line);
  }
  return lines;
}

bool is_blank_or_comment(std::string_view line) {
  const std::string_view shown = without_blanks_around(line);
  return shown.empty() || shown.front() == '#';
}

/// How many lines have the number of cells that most have, that number, and whether it is more than one.
struct Fit {
  std::size_t width = 1;
  std::size_t lines = 0;
  std::size_t all = 0;
};

Fit fit_of(const std::vector<std::string_view>& lines, char separator) {
  std::map<std::size_t, std::size_t> widths;
  Fit fit;
  for (const std::string_view line : lines) {
    if (is_blank_or_comment(line)) continue;
    ++widths[cells_of(line, separator).size()];
    ++fit.all;
  }
  for (const auto& [width, count] : widths)
    if (width > 1 && count > fit.lines) fit = {width, count, fit.all};
  return fit;
}

char separator_of(const std::vector<std::string_view>& lines) {
  char best = '\0';
  std::size_t best_lines = 0;
  for (const char separator : {'\t', ';', '|', ',', ' '}) {
    const Fit fit = fit_of(lines, separator);
    // A later one must part clearly more lines, so that the comma of decimals does not beat the semicolon.
    if (fit.lines * 2 >= fit.all && fit.lines > best_lines + best_lines / 10) {
      best = separator;
      best_lines = fit.lines;
    }
  }
  return best;
}

/// Digits, one comma, digits.
bool has_decimal_comma(std::string_view cell) {
  const std::size_t comma = cell.find(',');
  if (comma == std::string_view::npos || cell.find('.') != std::string_view::npos) return false;
  return whole_number_text(cell, ',').has_value();
}

bool has_decimal_point(std::string_view cell) {
  return cell.find('.') != std::string_view::npos && whole_number_text(cell, '.').has_value();
}

char decimal_sign_of(const std::vector<std::string_view>& lines, char separator) {
  std::size_t commas = 0;
  std::size_t points = 0;
  for (const std::string_view line : lines) {
    if (is_blank_or_comment(line)) continue;
    for (const std::string& cell : cells_of(line, separator)) {
      commas += has_decimal_comma(cell) ? 1U : 0U;
      points += has_decimal_point(cell) ? 1U : 0U;
    }
  }
  return commas > points ? ',' : '.';
}

bool is_row(const std::vector<std::string>& cells, const HeadTable& table) {
  if (cells.size() < std::max<std::size_t>(table.width, 1)) return false;
  std::size_t data = 0;
  std::size_t filled = 0;
  bool has_value = false;
  for (const std::string& cell : cells) {
    if (cell.empty()) continue;
    ++filled;
    if (!looks_like_data(cell, table.decimal_sign)) continue;
    ++data;
    has_value = has_value || !says_no_value(cell);
  }
  return has_value && data * 2 >= filled + (filled == 1 ? 1 : 0);
}

}  // namespace

std::vector<std::string> cells_of(std::string_view line, char separator) {
  std::vector<std::string> cells;
  bool more = true;
  while (more) {
    while (!line.empty() && (line.front() == ' ' || (line.front() == '\t' && separator != '\t'))) line.remove_prefix(1);
    std::string cell;
    if (line.starts_with('"')) {
      line.remove_prefix(1);
      while (!line.empty()) {
        const bool quote = line.front() == '"';
        const bool doubled = quote && line.substr(1, 1) == "\"";
        if (quote && !doubled) break;
        cell += line.front();
        line.remove_prefix(doubled ? 2 : 1);
      }
      if (!line.empty()) line.remove_prefix(1);
    }
    const std::size_t end = separator == '\0' ? line.size() : std::min(line.find(separator), line.size());
    cell += line.substr(0, end);
    cells.emplace_back(without_blanks_around(with_plain_blanks(cell)));
    more = end < line.size();
    line.remove_prefix(more ? end + 1 : end);
    if (separator == ' ' && without_blanks_around(line).empty()) more = false;
  }
  return cells;
}

bool looks_like_data(std::string_view cell, char decimal_sign) {
  if (says_no_value(cell)) return true;
  std::string_view rest = cell;
  if (take_date(rest)) return true;
  rest = cell;
  if (take_clock(rest, false, 99999) || elapsed_second(cell)) return true;
  const std::optional<NumberAndRest> number = number_at_start(cell, decimal_sign);
  return number && number->rest.size() <= 5;
}

HeadTable head_table(std::string_view head, std::optional<char> separator) {
  const std::vector<std::string_view> lines = lines_of(head);
  HeadTable table;
  table.separator = separator.value_or(separator_of(lines));
  table.width = fit_of(lines, table.separator).width;
  table.decimal_sign = decimal_sign_of(lines, table.separator);
  std::vector<std::string> above;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (is_blank_or_comment(lines[i])) continue;
    std::vector<std::string> cells = cells_of(lines[i], table.separator);
    if (is_row(cells, table)) {
      if (table.rows.empty()) table.first_data_line = i;
      table.rows.push_back(std::move(cells));
    } else if (table.rows.empty()) {
      above = std::move(cells);
      table.first_data_line = i + 1;
    }
  }
  if (!above.empty() && (above.size() >= table.width || table.rows.empty())) table.header = std::move(above);
  table.width = std::max({table.width, table.header.size(), std::size_t{1}});
  return table;
}

std::string header_of(const HeadTable& table, std::size_t column) {
  return column < table.header.size() ? table.header[column] : std::string();
}

std::string name_of_column(const HeadTable& table, std::size_t column) {
  if (column < table.header.size() && !table.header[column].empty()) return table.header[column];
  return std::to_string(column + 1);
}

}  // namespace ohmwright::cycles
