#include <algorithm>

#include <ohmwright/document/byte_order_mark.hpp>
#include <ohmwright/document/separated_text.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::string_view blanks = " \t";

char separator_in(std::string_view line) {
  for (const char separator : {';', '\t'})
    if (line.find(separator) != std::string_view::npos) return separator;
  return ',';
}

/// Takes one cell and the separator behind it off the line; false when a quote stays open.
bool take_cell(std::string_view& line, char separator, std::string& cell, bool& separator_follows) {
  const std::size_t start = std::min(line.find_first_not_of(separator == '\t' ? " " : blanks), line.size());
  bool closed = true;
  if (start < line.size() && line[start] == '"') {
    line.remove_prefix(start + 1);
    closed = false;
    while (!line.empty() && !closed) {
      const bool quote = line.front() == '"';
      const bool doubled = quote && line.substr(1, 1) == "\"";
      closed = quote && !doubled;
      if (!closed) cell += line.front();
      line.remove_prefix(doubled ? 2 : 1);
    }
  }
  const std::size_t end = std::min(line.find(separator), line.size());
  cell += without_blanks_around(line.substr(0, end));
  separator_follows = end < line.size();
  line.remove_prefix(separator_follows ? end + 1 : end);
  return closed;
}

}  // namespace

SeparatedText::SeparatedText(std::string_view text) : rest_(text) {
  if (rest_.starts_with(byte_order_mark)) rest_.remove_prefix(byte_order_mark.size());
  SeparatedText ahead = *this;
  if (const std::optional<std::string_view> first = ahead.next_line()) separator_ = separator_in(*first);
}

std::optional<std::string_view> SeparatedText::next_line() {
  while (!rest_.empty()) {
    const std::size_t end = std::min(rest_.find('\n'), rest_.size());
    std::string_view line = rest_.substr(0, end);
    rest_.remove_prefix(std::min(end + 1, rest_.size()));
    ++line_;
    if (line.ends_with('\r')) line.remove_suffix(1);
    const std::string_view shown = without_blanks_around(line);
    if (!shown.empty() && !shown.starts_with('#')) return line;
  }
  return std::nullopt;
}

std::optional<SeparatedLine> SeparatedText::next(std::size_t most_cells) {
  std::optional<std::string_view> line = next_line();
  if (!line) return std::nullopt;
  SeparatedLine taken;
  taken.line = line_;
  bool more = true;
  while (more && taken.cells.size() <= most_cells) {
    std::string cell;
    if (!take_cell(*line, separator_, cell, more)) taken.quote_is_open = true;
    taken.cells.push_back(std::move(cell));
  }
  while (!taken.cells.empty() && taken.cells.back().empty()) taken.cells.pop_back();
  const bool rest_is_empty = std::all_of(line->begin(), line->end(), [this](char c) {
    return c == separator_ || blanks.find(c) != std::string_view::npos;
  });
  taken.has_too_many_cells = taken.cells.size() > most_cells || !rest_is_empty;
  if (taken.cells.size() > most_cells) taken.cells.resize(most_cells);
  return taken;
}

std::string with_decimal_points(std::string cell) {
  if (cell.find('.') != std::string::npos) return cell;
  const auto is_digit = [](char letter) { return letter >= '0' && letter <= '9'; };
  for (std::size_t at = 1; at + 1 < cell.size(); ++at)
    if (cell[at] == ',' && is_digit(cell[at - 1]) && is_digit(cell[at + 1])) cell[at] = '.';
  return cell;
}

namespace {

bool is_decimal_digit(char letter) { return letter >= '0' && letter <= '9'; }

/// Digits that the text begins with, behind a sign.
std::size_t end_of_digits(std::string_view text, std::size_t from) {
  while (from < text.size() && is_decimal_digit(text[from])) ++from;
  return from;
}

std::size_t behind_sign(std::string_view text) { return !text.empty() && (text[0] == '-' || text[0] == '+') ? 1 : 0; }

}  // namespace

bool has_decimal_comma(std::string_view cell) {
  const std::size_t first = behind_sign(cell);
  const std::size_t comma = end_of_digits(cell, first);
  return comma > first && comma + 1 < cell.size() && cell[comma] == ',' && is_decimal_digit(cell[comma + 1]);
}

bool may_have_thousands_point(std::string_view cell) {
  constexpr std::size_t group = 3;
  const std::size_t first = behind_sign(cell);
  const std::size_t point = end_of_digits(cell, first);
  if (point == first || point - first > group || cell[first] == '0') return false;
  if (point >= cell.size() || cell[point] != '.') return false;
  const std::size_t end = end_of_digits(cell, point + 1);
  return end - point - 1 == group && (end == cell.size() || (cell[end] != 'e' && cell[end] != 'E'));
}

std::string thousands_point_trouble(std::string_view cell) {
  std::string without(cell);
  std::string with_comma(cell);
  without.erase(without.find('.'), 1);
  with_comma[with_comma.find('.')] = ',';
  return ohmwright::quoted(cell) + " may be " + without + " or " + with_comma +
         ": where ; parts the cells a comma is decimal, and a point may part thousands; write the one that is meant";
}

}  // namespace ohmwright
