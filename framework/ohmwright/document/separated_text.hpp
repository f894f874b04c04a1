#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright {

/// A line of a table: its cells, without the blanks and quotes around them.
struct SeparatedLine {
  int line = 0;  ///< counted from 1
  std::vector<std::string> cells;
  bool quote_is_open = false;       ///< a quote that was opened in it is not closed in it
  bool has_too_many_cells = false;  ///< more than were asked for; they are not among `cells`
};

/// Text in lines of cells, as spreadsheets and loggers write it (RFC 4180, a cell in one line): the separator is ";", a
/// tab or ",", whichever of them, in this order, stands in the first line. Line ends are LF or CR LF; a byte order
/// mark, blank lines and lines that begin with "#" are passed over.
class SeparatedText {
 public:
  explicit SeparatedText(std::string_view text);

  char separator() const { return separator_; }
  /// The next line with at most `most_cells` cells, or nothing at the end. Empty cells at the end of a line do not
  /// count.
  std::optional<SeparatedLine> next(std::size_t most_cells);

 private:
  std::optional<std::string_view> next_line();

  std::string_view rest_;
  int line_ = 0;
  char separator_ = ',';
};

/// Decimal commas as points, in cells that no comma separates. Where there is a point too, the commas mean something
/// else, and whoever reads the number refuses them.
std::string with_decimal_points(std::string cell);

/// Whether a cell begins with a number that has a decimal comma: "23,5".
bool has_decimal_comma(std::string_view cell);

/// Whether a cell begins with a number whose point may set off thousands, "10.950", as it does where commas are
/// decimal.
bool may_have_thousands_point(std::string_view cell);

/// What to say of such a cell in a table whose cells are parted by ";".
std::string thousands_point_trouble(std::string_view cell);

}  // namespace ohmwright
