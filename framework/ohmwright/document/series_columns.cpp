#include <algorithm>
#include <string_view>
#include <utility>

#include <ohmwright/document/kind_values.hpp>
#include <ohmwright/document/series_columns.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/blanks.hpp>
#include <ohmwright/quantity/letter_case.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

/// "at [degC]", "at (degC)" or "at/degC": the name and the unit, which may be missing.
std::pair<std::string_view, std::string_view> name_and_unit(std::string_view cell) {
  for (const auto& [opening, closing] : {std::pair{'[', ']'}, std::pair{'(', ')'}})
    if (const std::size_t bracket = cell.find(opening); bracket != std::string_view::npos && cell.ends_with(closing))
      return {without_blanks_around(cell.substr(0, bracket)), cell.substr(bracket + 1, cell.size() - bracket - 2)};
  const std::size_t slash = cell.find('/');
  if (slash == std::string_view::npos) return {cell, {}};
  return {without_blanks_around(cell.substr(0, slash)), cell.substr(slash + 1)};
}

class HeaderReader {
 public:
  HeaderReader(int line, const Descriptor& descriptor, std::vector<Problem>& problems)
      : line_(line), descriptor_(descriptor), problems_(problems) {}

  std::vector<SeriesColumn> read(const std::vector<std::string>& header) {
    std::vector<SeriesColumn> columns;
    for (const std::string& cell : header) {
      columns.push_back(column_of(cell));
      refuse_second(columns);
    }
    const bool reads = std::any_of(columns.begin(), columns.end(),
                                   [](const SeriesColumn& column) { return column.measurand != nullptr; });
    if (!reads) report("no column says what was read; name one of them " + one_of(ids_of_measurands()));
    return columns;
  }

 private:
  void report(std::string text) { problems_.push_back({"", line_, std::move(text)}); }

  SeriesColumn column_of(const std::string& cell) {
    const auto [name, unit] = name_and_unit(cell);
    SeriesColumn column;
    column.name = std::string(name);
    const std::string spoken = spoken_name(name);
    for (const ConditionDescriptor& condition : descriptor_.conditions)
      if (spoken_name(condition.option) == spoken || spoken_name(condition.id) == spoken) column.condition = &condition;
    for (const MeasurandDescriptor& measurand : descriptor_.measurands)
      if (spoken_name(measurand.id) == spoken) {
        column.measurand = &measurand;
        column.condition = nullptr;
      }
    if (!column.is_read() && spoken == "state") column.measurand = contact();
    if (!column.is_read() && spoken == "temperature") column.condition = first_temperature();
    if (!column.is_read()) column.is_time = spoken == "time";
    if (!column.is_read())
      report("the kind " + std::string(descriptor_.id) + " has nothing called " + ohmwright::quoted(name) +
             suggestion(name, names()));
    take_unit(unit, column);
    return column;
  }

  const MeasurandDescriptor* contact() const {
    const auto found = std::find_if(descriptor_.measurands.begin(), descriptor_.measurands.end(),
                                    [](const MeasurandDescriptor& one) { return one.takes_contact_state; });
    return found == descriptor_.measurands.end() ? nullptr : &*found;
  }

  /// The part's own, as kinds declare it: the one that people mean by "temperature".
  const ConditionDescriptor* first_temperature() const {
    const auto found = std::find_if(descriptor_.conditions.begin(), descriptor_.conditions.end(),
                                    [](const auto& one) { return one.dimension == Dimension::temperature; });
    return found == descriptor_.conditions.end() ? nullptr : &*found;
  }

  void take_unit(std::string_view text, SeriesColumn& column) {
    if (column.measurand == nullptr && column.condition == nullptr) return;
    const Dimension dimension = column.measurand != nullptr ? column.measurand->dimension : column.condition->dimension;
    if (text.find_first_not_of(" \t") == std::string_view::npos) {
      column.unit =
          column.measurand != nullptr ? default_unit_of(*column.measurand) : default_unit_of(*column.condition);
      return;
    }
    column.unit = Unit::named(text, dimension);
    column.unit_is_named = column.unit.has_value();
    if (column.unit) return;
    column.unit_is_unknown = true;
    std::vector<std::string> symbols;
    for (const Unit unit : Unit::all_of(dimension)) symbols.push_back(unit.symbol());
    report(ohmwright::quoted(text) + " in the column " + ohmwright::quoted(column.name) + " is no unit of " +
           std::string(phrase_of(dimension)) + did_you_mean(text, symbols));
  }

  void refuse_second(const std::vector<SeriesColumn>& columns) {
    const SeriesColumn& last = columns.back();
    if (!last.is_read()) return;
    for (std::size_t i = 0; i + 1 < columns.size(); ++i)
      if (columns[i].measurand == last.measurand && columns[i].condition == last.condition &&
          columns[i].is_time == last.is_time)
        report("the columns " + ohmwright::quoted(columns[i].name) + " and " + ohmwright::quoted(last.name) +
               " say the same; keep one");
  }

  std::vector<std::string> ids_of_measurands() const {
    std::vector<std::string> names;
    for (const MeasurandDescriptor& measurand : descriptor_.measurands) names.emplace_back(measurand.id);
    return names;
  }

  std::vector<std::string> names() const {
    std::vector<std::string> names = ids_of_measurands();
    for (const ConditionDescriptor& condition : descriptor_.conditions) names.emplace_back(condition.option);
    names.emplace_back("time");
    return names;
  }

  int line_;
  const Descriptor& descriptor_;
  std::vector<Problem>& problems_;
};

}  // namespace

std::vector<SeriesColumn> series_columns(const std::vector<std::string>& header, int line, const Descriptor& descriptor,
                                         std::vector<Problem>& problems) {
  return HeaderReader(line, descriptor, problems).read(header);
}

}  // namespace ohmwright
