#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

#include <ohmwright/locate/information.hpp>

namespace ohmwright::locate {

namespace {

void add_sets_of(std::size_t size, std::size_t from, std::size_t count, std::vector<std::size_t>& begun,
                 std::vector<std::vector<std::size_t>>& sets) {
  if (begun.size() == size) {
    sets.push_back(begun);
    return;
  }
  for (std::size_t next = from; next < count; ++next) {
    begun.push_back(next);
    add_sets_of(size, next + 1, count, begun, sets);
    begun.pop_back();
  }
}

double bits_of(double probability) { return probability > 0.0 ? -probability * std::log2(probability) : 0.0; }

}  // namespace

std::vector<std::vector<std::size_t>> fault_sets(std::size_t count, std::size_t most_faults) {
  std::vector<std::vector<std::size_t>> sets;
  std::vector<std::size_t> begun;
  for (std::size_t size = 0; size <= std::min(count, most_faults); ++size) add_sets_of(size, 0, count, begun, sets);
  return sets;
}

void normalise(std::span<double> weights) {
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
  assert(sum > 0.0 && std::isfinite(sum));
  for (double& weight : weights) weight /= sum;
}

double weigh(std::span<double> weights, std::span<const double> likelihoods) {
  assert(weights.size() == likelihoods.size());
  double sum = 0.0;
  for (std::size_t i = 0; i < weights.size(); ++i) sum += weights[i] * likelihoods[i];
  if (!(sum > 0.0)) return 0.0;
  for (std::size_t i = 0; i < weights.size(); ++i) weights[i] *= likelihoods[i] / sum;
  return sum;
}

double entropy_in_bits(std::span<const double> probabilities) {
  double sum = 0.0;
  for (const double probability : probabilities) sum += bits_of(probability);
  return sum;
}

std::vector<double> class_probabilities(std::span<const double> probabilities, std::span<const std::size_t> class_of) {
  assert(probabilities.size() == class_of.size());
  const std::size_t classes = class_of.empty() ? 0 : *std::max_element(class_of.begin(), class_of.end()) + 1;
  std::vector<double> sums(classes, 0.0);
  for (std::size_t i = 0; i < probabilities.size(); ++i) sums[class_of[i]] += probabilities[i];
  return sums;
}

}  // namespace ohmwright::locate
