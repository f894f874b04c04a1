#include <algorithm>
#include <optional>
#include <utility>

#include <fmt/core.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/document/separated_text.hpp>
#include <ohmwright/document/series_columns.hpp>
#include <ohmwright/document/series_document.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/document/syntax_trouble.hpp>
#include <ohmwright/document/time_order.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t most_columns = 64;

class SeriesReader {
 public:
  SeriesReader(std::string_view text, const Descriptor& descriptor, const Meter* meter)
      : text_(text), descriptor_(descriptor), meter_(meter), has_decimal_commas_(has_decimal_commas(text)) {}

  std::vector<Reading> read() {
    const std::optional<SeparatedLine> header = text_.next(most_columns);
    if (!header) {
      report(0, "is empty; expected a line that names the columns, and rows below it");
      return {};
    }
    if (header->has_too_many_cells) report(header->line, fmt::format("names more than {} columns", most_columns));
    columns_ = series_columns(header->cells, header->line, descriptor_, problems_);
    std::size_t rows = 0;
    while (const std::optional<SeparatedLine> line = text_.next(columns_.size())) {
      if (++rows > most_series_rows) {
        report(line->line,
               fmt::format("more than {} rows; give a part of the series, or thin it out", most_series_rows));
        break;
      }
      take(*line);
      if (problems_.size() > most_problems) break;
    }
    if (rows == 0) report(header->line, "no row follows the names of the columns");
    return std::move(readings_);
  }

  std::vector<Problem> take_problems() {
    if (problems_.size() > most_problems) {
      problems_.resize(most_problems);
      report(problems_.back().line, fmt::format("and more; the first {} are told", most_problems));
    }
    return std::move(problems_);
  }

 private:
  /// Whether any number of the table has one.
  static bool has_decimal_commas(std::string_view text) {
    SeparatedText lines(text);
    if (lines.separator() != ';') return false;
    while (const std::optional<SeparatedLine> line = lines.next(most_columns))
      if (std::any_of(line->cells.begin(), line->cells.end(), has_decimal_comma)) return true;
    return false;
  }

  void report(int line, std::string text) { problems_.push_back({"", line, std::move(text)}); }
  void report(int line, const SeriesColumn& column, const std::string& text) {
    report(line, printable(column.name) + ": " + text);
  }

  void take(const SeparatedLine& line) {
    if (line.quote_is_open) return report(line.line, "a quote is opened and not closed in this line");
    if (line.has_too_many_cells)
      return report(line.line,
                    fmt::format("has more cells than the {} columns that are named; cells are separated by {}",
                                columns_.size(), name_of_separator()));
    std::vector<Condition> conditions;
    std::vector<std::pair<const SeriesColumn*, Observed>> seen;
    bool says_something = false;
    for (std::size_t i = 0; i < columns_.size(); ++i) {
      std::string cell = i < line.cells.size() ? line.cells[i] : std::string();
      says_something = says_something || (columns_[i].measurand != nullptr && !cell.empty());
      if (has_decimal_commas_ && !columns_[i].is_time && may_have_thousands_point(cell)) {
        report(line.line, columns_[i], thousands_point_trouble(cell));
        continue;
      }
      if (text_.separator() == ';') cell = with_decimal_points(std::move(cell));
      take_cell(cell, columns_[i], line.line, conditions, seen);
    }
    if (!says_something && number_of_measurands() > 1) report(line.line, "says nothing that was read");
    for (const auto& [column, observed] : seen) {
      Reading& reading = readings_.emplace_back(Reading{.label = label_of(line.line, *column),
                                                        .measurand = std::string(column->measurand->id),
                                                        .observed = observed,
                                                        .conditions = conditions});
      std::erase_if(reading.conditions, [&](const Condition& condition) {
        const ConditionDescriptor& row = descriptor_.conditions[index_of(descriptor_.conditions, condition.id)];
        return !says_something_of(row, reading.measurand);
      });
    }
  }

  void take_cell(const std::string& cell, const SeriesColumn& column, int line, std::vector<Condition>& conditions,
                 std::vector<std::pair<const SeriesColumn*, Observed>>& seen) {
    if (!column.is_read() || column.unit_is_unknown) return;
    if (cell.empty()) return take_empty_cell(column, line);
    try {
      if (column.measurand != nullptr) {
        ObservedOptions options = observed_options(*column.measurand, meter_);
        options.default_unit = column.unit;
        seen.emplace_back(&column,
                          with_unit_of_column(parse_observed(cell, column.measurand->dimension, options), column));
      } else if (column.condition != nullptr) {
        StatedValueOptions options;
        options.default_unit = column.unit;
        const StatedValue stated = parse_stated_value(cell, column.condition->dimension, options);
        if (std::string slip = slip_in(stated); !slip.empty()) return report(line, column, slip);
        conditions.push_back(stated_condition(*column.condition, stated, "series"));
      } else if (const std::string trouble = order_.take(cell); !trouble.empty()) {
        report(line, column, trouble);
      }
    } catch (const InputError& error) {
      report(line, column, error.what());
    }
  }

  /// A bare number has the unit that its column names, which is no assumption.
  static Observed with_unit_of_column(Observed observed, const SeriesColumn& column) {
    if (auto* stated = std::get_if<StatedValue>(&observed); stated != nullptr && column.unit_is_named)
      stated->unit_assumed = false;
    return observed;
  }

  /// Where a row says one of several measurands, the others were not read then. Nothing else may be left out.
  void take_empty_cell(const SeriesColumn& column, int line) {
    if (column.measurand != nullptr && number_of_measurands() > 1) return;
    report(line, column, "is empty; write what was read, or leave the row out");
  }

  std::ptrdiff_t number_of_measurands() const {
    return std::count_if(columns_.begin(), columns_.end(),
                         [](const SeriesColumn& column) { return column.measurand != nullptr; });
  }

  std::string label_of(int line, const SeriesColumn& column) const {
    const std::string label = "line " + std::to_string(line);
    return number_of_measurands() > 1 ? label + ", " + std::string(column.measurand->id) : label;
  }

  std::string name_of_separator() const {
    if (text_.separator() == '\t') return "tabs";
    return text_.separator() == ';' ? "\";\"" : "\",\"";
  }

  SeparatedText text_;
  const Descriptor& descriptor_;
  const Meter* meter_;
  bool has_decimal_commas_;
  std::vector<SeriesColumn> columns_;
  TimeOrder order_;
  std::vector<Reading> readings_;
  std::vector<Problem> problems_;
};

}  // namespace

std::vector<Reading> read_series(std::string_view text, const std::string& file, const Descriptor& descriptor,
                                 const Meter* meter) {
  if (std::string foreign = describe_foreign_content(text, "a table of readings"); !foreign.empty())
    throw DocumentError(file, {Problem{"", 0, std::move(foreign)}});
  SeriesReader reader(text, descriptor, meter);
  std::vector<Reading> readings = reader.read();
  if (std::vector<Problem> problems = reader.take_problems(); !problems.empty())
    throw DocumentError(file, std::move(problems));
  return readings;
}

std::vector<Reading> read_series_file(const std::string& path, const Descriptor& descriptor, const Meter* meter) {
  return read_series(read_source(path, DocumentLimits{}.bytes), name_of_source(path), descriptor, meter);
}

}  // namespace ohmwright
