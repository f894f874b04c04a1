#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::cycles {

/// The cells of a line, without quotes and blanks around them. A quote that stays open takes the rest of the line.
std::vector<std::string> cells_of(std::string_view line, char separator);

/// The first lines of a log in cells.
struct HeadTable {
  char separator = '\0';
  char decimal_sign = '.';
  std::vector<std::string> header;             ///< empty where there is none
  std::vector<std::vector<std::string>> rows;  ///< rows of values only
  std::size_t width = 0;                       ///< cells of a usual row
  std::size_t first_data_line = 0;             ///< lines before the first row
};

/// Splits the head: the separator is the one that parts most lines into the same number of cells (tab, ";", "|", ","
/// and blanks in this order where several do), the decimal sign what the numbers hold, the header the line above the
/// rows.
HeadTable head_table(std::string_view head, std::optional<char> separator);

/// What the header calls a column; empty where there is no header, or none for it.
std::string header_of(const HeadTable& table, std::size_t column);

/// How messages call a column: by its header, else by its number from 1.
std::string name_of_column(const HeadTable& table, std::size_t column);

/// Whether a cell can be a value or a time: a number, perhaps with a unit, a date, a clock time, or "no value".
bool looks_like_data(std::string_view cell, char decimal_sign);

}  // namespace ohmwright::cycles
