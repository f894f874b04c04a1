#include "part/passages.hpp"

#include <algorithm>
#include <cmath>

namespace ohmwright::bimetal_thermostat {

void Passages::add(double from, double to) {
  const bool first = count_ == 0;
  lowest_from_ = first ? from : std::min(lowest_from_, from);
  highest_from_ = first ? from : std::max(highest_from_, from);
  lowest_to_ = first ? to : std::min(lowest_to_, to);
  highest_to_ = first ? to : std::max(highest_to_, to);
  ++count_;
  const double middle = 0.5 * (from + to);
  const double off = middle - mean_;
  mean_ += off / static_cast<double>(count_);
  squares_ += off * (middle - mean_);
}

double Passages::standard_deviation() const {
  return count_ < 2 ? 0.0 : std::sqrt(squares_ / static_cast<double>(count_ - 1));
}

}  // namespace ohmwright::bimetal_thermostat
