#include <algorithm>

#include <ohmwright/report/paragraph.hpp>
#include <ohmwright/report/text_table.hpp>

namespace ohmwright {

namespace {

constexpr int cell_indent = 2;
constexpr int between_columns = 2;

std::string spaces(int count) {
  std::string text(static_cast<std::size_t>(std::max(0, count)), ' ');
  return text;
}

std::vector<int> widths_of(const std::vector<std::vector<std::string>>& rows) {
  std::vector<int> widths;
  for (const std::vector<std::string>& row : rows)
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (i >= widths.size()) widths.push_back(0);
      widths[i] = std::max(widths[i], columns_of(row[i]));
    }
  return widths;
}

std::string stacked(const std::vector<std::vector<std::string>>& rows, int width) {
  std::string text;
  for (std::size_t r = 1; r < rows.size(); ++r) {
    text += paragraph(rows[r][0], width, spaces(cell_indent), spaces(cell_indent));
    std::string cells;
    for (std::size_t i = 1; i < rows[r].size(); ++i)
      if (!rows[r][i].empty()) cells += (cells.empty() ? "" : "; ") + rows[0][i] + ": " + rows[r][i];
    text += paragraph(cells, width, spaces(2 * cell_indent), spaces(2 * cell_indent));
  }
  return text;
}

}  // namespace

std::string text_table(const std::vector<std::vector<std::string>>& rows, int width) {
  const std::vector<int> widths = widths_of(rows);
  int whole = cell_indent;
  for (const int one : widths) whole += one + between_columns;
  if (whole - between_columns > width) return stacked(rows, width);
  std::string text;
  for (const std::vector<std::string>& row : rows) {
    std::string line = spaces(cell_indent);
    for (std::size_t i = 0; i < row.size(); ++i) {
      const std::string fill = spaces(widths[i] - columns_of(row[i]));
      line += i == 0 ? row[i] + fill : spaces(between_columns) + fill + row[i];
    }
    text += with_plain_spaces(line.substr(0, line.find_last_not_of(' ') + 1)) + '\n';
  }
  return text;
}

}  // namespace ohmwright
