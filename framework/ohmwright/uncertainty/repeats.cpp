#include <cmath>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/repeats.hpp>

namespace ohmwright {

namespace {

double mean_of(std::span<const double> readings) {
  double offsets = 0.0;
  for (const double reading : readings) offsets += reading - readings.front();  // small numbers keep their digits
  return readings.front() + offsets / static_cast<double>(readings.size());
}

void require_two(std::span<const double> readings) {
  if (readings.size() < 2)
    throw Error(ErrorCategory::internal, "scatter needs at least two readings; give one more, or state an uncertainty");
}

}  // namespace

RepeatedMean mean_of_repeats(std::span<const double> readings) {
  require_two(readings);
  const auto count = static_cast<double>(readings.size());
  RepeatedMean result;
  result.mean = mean_of(readings);
  result.standard_uncertainty = std::sqrt(covariance_of_means(readings, readings));
  result.standard_deviation = result.standard_uncertainty * std::sqrt(count);
  result.degrees_of_freedom = count - 1.0;
  return result;
}

double covariance_of_means(std::span<const double> first, std::span<const double> second) {
  require_two(first);
  if (first.size() != second.size())
    throw Error(ErrorCategory::internal, "quantities read together need equally many readings");
  const double first_mean = mean_of(first);
  const double second_mean = mean_of(second);
  double sum = 0.0;
  for (std::size_t i = 0; i < first.size(); ++i) sum += (first[i] - first_mean) * (second[i] - second_mean);
  const auto count = static_cast<double>(first.size());
  return sum / (count * (count - 1.0));
}

double correlation_of_means(std::span<const double> first, std::span<const double> second) {
  const double both = covariance_of_means(first, second);
  const double scatter = std::sqrt(covariance_of_means(first, first) * covariance_of_means(second, second));
  return scatter > 0.0 ? both / scatter : 0.0;
}

}  // namespace ohmwright
