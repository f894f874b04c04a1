#pragma once

#include <memory>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include <ohmwright/batch/batch_settings.hpp>
#include <ohmwright/batch/line_fields.hpp>
#include <ohmwright/component/descriptor.hpp>

namespace ohmwright::batch {

/// The first line of a table of parts: what each column holds.
///
/// "id", "lot", "kind", "ratings", "meter", "connection", "moisture", "supply", "measurand" and "value" hold what the
/// fields of a line of JSON hold; names are taken as options are, whatever their letter case. Any other column is a
/// measurand of the row's kind by its id, or a condition by its id or option, perhaps with the unit of its bare
/// numbers: "resistance [kohm]", "at/degC". "state" also means the first measurand that is a contact's state.
class TableHead {
 public:
  /// The separator is ";", a tab or ",", whichever of them, in this order, stands in the line. Throws InputError for
  /// a column without a name, and a name that stands twice.
  explicit TableHead(std::string_view line);

  struct Column {
    std::string name;
    std::string unit;  ///< of its bare numbers; empty: that of the kind
  };
  const std::vector<Column>& columns() const { return columns_; }
  char separator() const { return separator_; }

 private:
  std::vector<Column> columns_;
  char separator_ = ',';
};

/// Turns rows into fields. Keeps its memory from row to row. One a thread.
class RowReader {
 public:
  /// The fields of a row, views that hold until the next call; whether all of them are plain text, as
  /// `make_line_readings` may take it. Throws InputError for a row that is no row of this table, and what
  /// `parts.kind` throws.
  bool read(std::string_view row, const std::shared_ptr<const TableHead>& head, std::string_view default_kind,
            PartSource& parts, LineFields& fields);

  /// The same fields as a line of JSON, for the strict parser to decide; holds until the next call, with
  /// `bytes_behind_line` readable bytes behind it.
  std::string_view as_json(const LineFields& fields);

 private:
  /// What a column holds for a kind; a column that holds none of it is a name that the strict parser refuses.
  struct Role {
    bool is_of_line = false;
    std::string_view ReadingFields::*field = nullptr;
    const ConditionDescriptor* condition = nullptr;
    const MeasurandDescriptor* measurand = nullptr;
  };

  void take_head(const std::shared_ptr<const TableHead>& head);
  void take_kind(std::string_view kind, PartSource& parts);
  void cut_into_cells(std::string_view row);
  void take_common();
  void add_readings(LineFields& fields);
  void split(std::string_view row, char separator);
  std::string_view with_unit(std::string_view cell, const TableHead::Column& column, std::string_view usual_unit,
                             char separator);

  std::shared_ptr<const TableHead> head_;  ///< that `line_columns_` and `roles_` are of
  std::vector<std::pair<std::size_t, std::string_view LineFields::*>> line_columns_;
  std::string kind_;  ///< that `roles_` are for; empty: none yet
  std::vector<Role> roles_;
  ReadingFields common_;

  std::vector<std::string> cells_;
  std::size_t count_ = 0;
  bool quote_is_open_ = false;
  std::size_t text_behind_quote_ = 0;  ///< the first such cell, counted from 1; 0: none
  std::vector<std::string> texts_;     ///< quantities that got a unit
  std::size_t text_count_ = 0;
  std::string json_;
};

}  // namespace ohmwright::batch
