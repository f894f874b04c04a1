#include <algorithm>
#include <optional>

#include <ohmwright/batch/csv_rows.hpp>
#include <ohmwright/batch/quick_line.hpp>
#include <ohmwright/batch/record_writer.hpp>
#include <ohmwright/document/separated_text.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::batch {

namespace {

std::string_view without_outer_blanks(std::string_view text) {
  while (!text.empty() && (text.front() == ' ' || text.front() == '\t')) text.remove_prefix(1);
  while (!text.empty() && (text.back() == ' ' || text.back() == '\t' || text.back() == '\r')) text.remove_suffix(1);
  return text;
}

char separator_in(std::string_view line) {
  for (const char separator : {';', '\t', ','})
    if (line.find(separator) != std::string_view::npos) return separator;
  return ',';
}

/// "resistance [kohm]", "at/degC"
TableHead::Column column_of(std::string_view cell) {
  TableHead::Column column;
  const std::size_t mark = cell.find_first_of("[/");
  column.name = without_outer_blanks(cell.substr(0, mark));
  if (mark == std::string_view::npos) return column;
  std::string_view unit = without_outer_blanks(cell.substr(mark + 1));
  if (cell[mark] == '[' && !unit.empty() && unit.back() == ']') unit.remove_suffix(1);
  column.unit = without_outer_blanks(unit);
  return column;
}

bool is_bare_number(std::string_view text) {
  return !text.empty() && std::all_of(text.begin(), text.end(), [](char c) {
    return (c >= '0' && c <= '9') || c == '.' || c == ',' || c == '-' || c == '+' || c == 'e' || c == 'E';
  });
}

bool is_plain(std::string_view text) {
  return std::none_of(text.begin(), text.end(),
                      [](char c) { return (static_cast<unsigned char>(c) < 0x20 && c != '\t') || c == '\x7F'; });
}

/// The member of the reading that a column of that name holds, or null.
std::string_view ReadingFields::*reading_field(std::string_view column) {
  const std::string name = spoken_name(column);
  if (name == "value") return &ReadingFields::value;
  if (name == "measurand") return &ReadingFields::measurand;
  if (name == "connection") return &ReadingFields::connection;
  if (name == "moisture") return &ReadingFields::moisture;
  if (name == "supply") return &ReadingFields::supply;
  if (name == "meter") return &ReadingFields::meter;
  return nullptr;
}

/// The member of the line, likewise.
std::string_view LineFields::*line_field(std::string_view column) {
  const std::string name = spoken_name(column);
  if (name == "id") return &LineFields::id;
  if (name == "lot") return &LineFields::lot;
  if (name == "kind") return &LineFields::kind;
  if (name == "ratings") return &LineFields::ratings;
  return nullptr;
}

const ConditionDescriptor* condition_called(const Descriptor& descriptor, std::string_view column) {
  const std::string name = spoken_name(column);
  for (const ConditionDescriptor& row : descriptor.conditions)
    if (spoken_name(row.id) == name || (!row.option.empty() && spoken_name(row.option) == name)) return &row;
  return nullptr;
}

/// The measurand that a column names, or null.
const MeasurandDescriptor* measurand_called(const Descriptor& descriptor, std::string_view column) {
  const std::string name = spoken_name(column);
  for (const MeasurandDescriptor& row : descriptor.measurands)
    if (spoken_name(row.id) == name || (name == "state" && row.takes_contact_state)) return &row;
  return nullptr;
}

void append_member(std::string& json, std::string_view name, std::string_view text) {
  if (text.empty()) return;
  if (json.back() != '{') json += ',';
  append_json_text(json, name);
  json += ':';
  append_json_text(json, text);
}

}  // namespace

TableHead::TableHead(std::string_view line) : separator_(separator_in(line)) {
  std::size_t begin = 0;
  while (begin <= line.size()) {
    const std::size_t end = std::min(line.find(separator_, begin), line.size());
    std::string_view cell = without_outer_blanks(line.substr(begin, end - begin));
    if (cell.size() > 1 && cell.front() == '"' && cell.back() == '"') cell = cell.substr(1, cell.size() - 2);
    begin = end + 1;
    Column column = column_of(cell);
    if (column.name.empty() && begin > line.size() && !columns_.empty()) break;  // the separator at the line's end
    if (column.name.empty())
      throw InputError(
          "column " + std::to_string(columns_.size() + 1) +
          " has no name; the first line of a table names its columns, such as id,resistance [ohm],at [degC]");
    for (const Column& other : columns_)
      if (spoken_name(other.name) == spoken_name(column.name))
        throw InputError("two columns are called " + ohmwright::quoted(column.name) + "; rename or leave out one");
    columns_.push_back(std::move(column));
  }
}

void RowReader::split(std::string_view row, char separator) {
  count_ = 0;
  quote_is_open_ = false;
  text_behind_quote_ = 0;
  const auto next_cell = [this]() -> std::string& {
    if (count_ == cells_.size()) cells_.emplace_back();
    cells_[count_].clear();
    return cells_[count_++];
  };
  while (!row.empty() && row.back() == '\r') row.remove_suffix(1);
  std::size_t at = 0;
  while (true) {
    std::string& cell = next_cell();
    while (at < row.size() && (row[at] == ' ' || (row[at] == '\t' && separator != '\t'))) ++at;
    if (at < row.size() && row[at] == '"') {
      for (++at; at < row.size() && (row[at] != '"' || (at + 1 < row.size() && row[at + 1] == '"')); ++at) {
        if (row[at] == '"') ++at;  // "" is one quote
        cell += row[at];
      }
      quote_is_open_ = quote_is_open_ || at >= row.size();
      const std::size_t end = std::min(row.find(separator, at), row.size());
      if (at < end && !without_outer_blanks(row.substr(at + 1, end - at - 1)).empty() && text_behind_quote_ == 0)
        text_behind_quote_ = count_;
      at = end;
    } else {
      const std::size_t end = std::min(row.find(separator, at), row.size());
      cell.assign(without_outer_blanks(row.substr(at, end - at)));
      at = end;
    }
    if (at >= row.size()) return;
    ++at;
  }
}

std::string_view RowReader::with_unit(std::string_view cell, const TableHead::Column& column,
                                      std::string_view usual_unit, char separator) {
  // A row is judged by itself, whatever shard it is in: that commas are decimal may show in another one.
  if (separator == ';' && may_have_thousands_point(cell)) throw InputError(thousands_point_trouble(cell));
  const std::string_view unit = column.unit.empty() ? usual_unit : std::string_view(column.unit);
  const bool decimal_comma = separator == ';' && cell.find(',') != std::string_view::npos;
  if (!is_bare_number(cell) || (unit.empty() && !decimal_comma)) return cell;
  if (text_count_ == texts_.size()) texts_.emplace_back();
  std::string& text = texts_[text_count_++];
  text.assign(cell);
  if (decimal_comma) std::replace(text.begin(), text.end(), ',', '.');
  if (!unit.empty()) (text += ' ') += unit;
  return text;
}

/// Looks up once what the columns of a table hold whatever the kind is.
void RowReader::take_head(const std::shared_ptr<const TableHead>& head) {
  if (head_ == head) return;
  head_ = head;
  kind_.clear();
  line_columns_.clear();
  for (std::size_t i = 0; i < head->columns().size(); ++i)
    if (const auto member = line_field(head->columns()[i].name); member != nullptr)
      line_columns_.emplace_back(i, member);
}

/// Looks up once what they hold for a kind.
void RowReader::take_kind(std::string_view kind, PartSource& parts) {
  if (kind.empty())
    throw InputError("the row names no kind; give the table a column \"kind\", or name one for all with --kind");
  if (kind == kind_) return;
  const Descriptor& descriptor = parts.kind(std::string(kind));
  roles_.clear();
  for (const TableHead::Column& column : head_->columns()) {
    Role role;
    role.is_of_line = line_field(column.name) != nullptr;
    role.field = reading_field(column.name);
    role.condition = condition_called(descriptor, column.name);
    role.measurand = measurand_called(descriptor, column.name);
    roles_.push_back(role);
  }
  kind_ = kind;
}

void RowReader::cut_into_cells(std::string_view row) {
  if (!is_utf8_text(row)) throw InputError("the row is no UTF-8 text; save the table as UTF-8");
  split(row, head_->separator());
  if (quote_is_open_) throw InputError("a quote that is opened in the row is not closed in it");
  if (text_behind_quote_ > 0)
    throw InputError("cell " + std::to_string(text_behind_quote_) +
                     ": text stands behind a closing quote; quote the whole cell, or nothing of it");
  const std::size_t columns = head_->columns().size();
  while (count_ > columns && cells_[count_ - 1].empty()) --count_;
  if (count_ > columns)
    throw InputError("the row has " + std::to_string(count_) + " cells, the table " + std::to_string(columns) +
                     " columns; a comma in a number goes with \";\" between cells");
  if (count_ < columns)
    throw InputError("the row has " + std::to_string(count_) + " cells, the table " + std::to_string(columns) +
                     " columns; a cell without anything in it has its separator, too");
}

/// What all readings of the row have in common.
void RowReader::take_common() {
  common_.clear();
  for (std::size_t i = 0; i < count_; ++i) {
    const Role& role = roles_[i];
    if (cells_[i].empty()) continue;
    if (role.field != nullptr)
      common_.*role.field = cells_[i];
    else if (role.condition != nullptr && !role.is_of_line)
      common_.conditions.emplace_back(role.condition->id, with_unit(cells_[i], head_->columns()[i],
                                                                    role.condition->default_unit, head_->separator()));
  }
}

void RowReader::add_readings(LineFields& fields) {
  if (!common_.value.empty()) fields.add_reading() = common_;
  for (std::size_t i = 0; i < count_; ++i) {
    const Role& role = roles_[i];
    if (cells_[i].empty() || role.is_of_line || role.field != nullptr || role.condition != nullptr) continue;
    const TableHead::Column& column = head_->columns()[i];
    ReadingFields& reading = fields.add_reading();
    reading = common_;
    reading.measurand = role.measurand == nullptr ? std::string_view(column.name) : role.measurand->id;
    const bool takes_bare = role.measurand != nullptr && role.measurand->takes_bare_number;
    reading.value = with_unit(cells_[i], column, takes_bare ? role.measurand->default_unit : std::string_view(),
                              head_->separator());
  }
  if (fields.reading_count() == 0) throw InputError("the row holds no reading");
}

bool RowReader::read(std::string_view row, const std::shared_ptr<const TableHead>& head, std::string_view default_kind,
                     PartSource& parts, LineFields& fields) {
  fields.clear();
  take_head(head);
  cut_into_cells(row);
  for (const auto& [column, member] : line_columns_) fields.*member = cells_[column];
  take_kind(fields.kind.empty() ? default_kind : fields.kind, parts);
  text_count_ = 0;
  texts_.reserve(head_->columns().size());  // views into it are handed out
  take_common();
  add_readings(fields);
  return is_plain(row.substr(0, row.find_last_not_of('\r') + 1)) && fields.id.size() <= 200 && fields.lot.size() <= 200;
}

std::string_view RowReader::as_json(const LineFields& fields) {
  json_ = "{";
  append_member(json_, "id", fields.id);
  append_member(json_, "lot", fields.lot);
  append_member(json_, "kind", fields.kind);
  append_member(json_, "ratings", fields.ratings);
  json_ += json_.back() == '{' ? R"("readings":[)" : R"(,"readings":[)";
  for (std::size_t i = 0; i < fields.reading_count(); ++i) {
    const ReadingFields& reading = fields.reading(i);
    json_ += i == 0 ? "{" : ",{";
    append_member(json_, "measurand", reading.measurand);
    append_member(json_, "value", reading.value);
    append_member(json_, "connection", reading.connection);
    append_member(json_, "moisture", reading.moisture);
    append_member(json_, "supply", reading.supply);
    append_member(json_, "meter", reading.meter);
    if (!reading.conditions.empty()) {
      json_ += R"(,"conditions":{)";
      for (const auto& [name, text] : reading.conditions) append_member(json_, name, text);
      json_ += '}';
    }
    json_ += '}';
  }
  json_ += "]}";
  const std::size_t size = json_.size();
  json_.append(bytes_behind_line, ' ');
  return std::string_view(json_).substr(0, size);
}

}  // namespace ohmwright::batch
