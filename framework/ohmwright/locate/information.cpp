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

double independent_probability(std::span<const std::size_t> set, std::span<const double> fault_probabilities) {
  double probability = 1.0;
  for (std::size_t i = 0; i < fault_probabilities.size(); ++i) {
    const bool faulty = std::find(set.begin(), set.end(), i) != set.end();
    probability *= faulty ? fault_probabilities[i] : 1.0 - fault_probabilities[i];
  }
  return probability;
}

void normalise(std::span<double> weights) {
  const double sum = std::accumulate(weights.begin(), weights.end(), 0.0);
  assert(sum > 0.0 && std::isfinite(sum));
  for (double& weight : weights) weight /= sum;
}

double weigh(std::span<double> probabilities, std::span<const double> likelihoods) {
  assert(probabilities.size() == likelihoods.size());
  double sum = 0.0;
  for (std::size_t i = 0; i < probabilities.size(); ++i) sum += probabilities[i] * likelihoods[i];
  if (!(sum > 0.0)) return 0.0;
  for (std::size_t i = 0; i < probabilities.size(); ++i) probabilities[i] *= likelihoods[i] / sum;
  return sum;
}

double entropy_in_bits(std::span<const double> probabilities) {
  double sum = 0.0;
  for (const double probability : probabilities) sum += bits_of(probability);
  return sum;
}

OutcomeTable OutcomeTable::certain(std::span<const std::size_t> predicted, std::size_t outcomes, double misread) {
  OutcomeTable table(predicted.size(), outcomes);
  const double elsewhere = outcomes > 1 ? misread / static_cast<double>(outcomes - 1) : 0.0;
  for (std::size_t hypothesis = 0; hypothesis < predicted.size(); ++hypothesis)
    for (std::size_t outcome = 0; outcome < outcomes; ++outcome)
      table.at(hypothesis, outcome) = outcome == predicted[hypothesis] ? 1.0 - misread : elsewhere;
  return table;
}

std::vector<double> class_probabilities(std::span<const double> probabilities, std::span<const std::size_t> class_of) {
  assert(probabilities.size() == class_of.size());
  const std::size_t classes = class_of.empty() ? 0 : *std::max_element(class_of.begin(), class_of.end()) + 1;
  std::vector<double> sums(classes, 0.0);
  for (std::size_t i = 0; i < probabilities.size(); ++i) sums[class_of[i]] += probabilities[i];
  return sums;
}

double expected_entropy_in_bits(std::span<const double> probabilities, const OutcomeTable& table,
                                std::span<const std::size_t> class_of) {
  assert(probabilities.size() == table.hypotheses());
  double expected = 0.0;
  std::vector<double> joint(probabilities.size());
  for (std::size_t outcome = 0; outcome < table.outcomes(); ++outcome) {
    for (std::size_t i = 0; i < joint.size(); ++i) joint[i] = probabilities[i] * table.at(i, outcome);
    const double seen = std::accumulate(joint.begin(), joint.end(), 0.0);
    if (!(seen > 0.0)) continue;
    for (double& share : joint) share /= seen;
    expected += seen * entropy_in_bits(class_probabilities(joint, class_of));
  }
  return expected;
}

}  // namespace ohmwright::locate
