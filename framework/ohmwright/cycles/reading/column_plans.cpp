#include <algorithm>
#include <cstddef>

#include <ohmwright/cycles/reading/log_reader.hpp>
#include <ohmwright/cycles/reading/number_text.hpp>

namespace ohmwright::cycles {

namespace {

/// Limits of what a household appliance's log can hold [SI]: beyond them a value is an error code or in another unit.
struct Possible {
  double least;
  double most;
  double largest_step;
};

Possible possible_values(LogQuantity quantity) {
  switch (quantity) {
    case LogQuantity::power:
      return {-20.0, 20e3, 20.0};
    case LogQuantity::current:
      return {-1.0, 100.0, 1e9};
    default:
      return {213.15, 423.15, 8.0};
  }
}

}  // namespace

void LogReader::plan_columns() {
  std::size_t last = 0;
  for (const LogColumn& column : dialect_.columns) last = std::max(last, column.index);
  last = std::max({last, dialect_.time_column.value_or(0), dialect_.clock_column.value_or(0)});
  plan_.resize(last + 1);
  looks_at_all_columns_ = plan_.size() == dialect_.names.size() && dialect_.separator != ' ';
  stop_ = dialect_.separator == '\0' ? '\n' : dialect_.separator;
  for (const LogColumn& column : dialect_.columns) {
    ColumnPlan& plan = plan_[column.index];
    const Possible possible = possible_values(column.quantity);
    plan.task = Task::value;
    plan.quantity = index_of(column.quantity);
    plan.unit = column.unit;
    plan.at_zero = column.unit.to_si(0.0);
    plan.factor = (column.unit.to_si(1000.0) - plan.at_zero) / 1000.0;
    plan.least = possible.least;
    plan.most = possible.most;
    plan.largest_step = possible.largest_step;
    watches_.emplace_back(column.quantity, column.unit);
  }
  if (dialect_.has_header && !dialect_.names.front().empty() && !detail::is_digit(dialect_.names.front().front()))
    header_byte_ = dialect_.names.front().front();
  if (dialect_.time_column) plan_[*dialect_.time_column].task = Task::time;
  if (dialect_.clock_column) plan_[*dialect_.clock_column].task = Task::clock;
}

}  // namespace ohmwright::cycles
