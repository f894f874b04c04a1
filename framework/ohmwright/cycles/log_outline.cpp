#include <algorithm>
#include <cmath>

#include <ohmwright/cycles/log_outline.hpp>

namespace ohmwright::cycles {

namespace {

PlotColumns merged(const PlotColumns& columns, std::size_t each) {
  PlotColumns wider((columns.size() + each - 1) / each);
  for (std::size_t i = 0; i < columns.size(); ++i)
    for (std::size_t q = 0; q < log_quantity_count; ++q) {
      if (columns[i][q].is_empty()) continue;
      wider[i / each][q].take(columns[i][q].least);
      wider[i / each][q].take(columns[i][q].most);
    }
  return wider;
}

}  // namespace

void LogOutline::add(const PlotPoint& point) {
  const double end = point.second + std::max(0.0, point.width_second);
  while (end >= column_second_ * static_cast<double>(most_columns)) double_width();
  const auto first = static_cast<std::size_t>(std::max(0.0, point.second) / column_second_);
  // A point that ends where a column begins is not in that column.
  const auto last = std::max(first, static_cast<std::size_t>(std::ceil(end / column_second_)) - (end > 0.0 ? 1U : 0U));
  if (columns_.size() <= last) columns_.resize(last + 1);
  for (std::size_t i = first; i <= last; ++i)
    for (std::size_t q = 0; q < log_quantity_count; ++q)
      if (!std::isnan(point.value[q])) columns_[i][q].take(point.value[q]);
}

void LogOutline::double_width() {
  columns_ = merged(columns_, 2);
  column_second_ *= 2.0;
}

PlotColumns LogOutline::in_columns(std::size_t count) const {
  const std::size_t each = std::max<std::size_t>(1, (columns_.size() + count - 1) / std::max<std::size_t>(count, 1));
  return each == 1 ? columns_ : merged(columns_, each);
}

}  // namespace ohmwright::cycles
