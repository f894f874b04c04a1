#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

#include <ohmwright/locate/expectation.hpp>
#include <ohmwright/locate/information.hpp>

namespace ohmwright::locate {

Hypotheses::Hypotheses(std::vector<double> weights, std::span<const AnswerKey> answers)
    : probabilities(std::move(weights)) {
  assert(probabilities.size() == answers.size());
  std::map<AnswerKey, std::size_t> classes;
  for (const AnswerKey& key : answers) class_of.push_back(classes.try_emplace(key, classes.size()).first->second);
  taken_in_by.resize(classes.size());
  for (const auto& [key, index] : classes)
    for (const auto& [other, other_index] : classes)
      if (takes_in(other, key)) taken_in_by[index].push_back(other_index);
  normalise(probabilities);
  entropy = entropy_in_bits(class_probabilities(probabilities, class_of));
}

Expectation::Expectation(const Hypotheses& all, std::span<const std::size_t> kind_of, double named)
    : all_(all), kind_of_(kind_of), named_(named), by_class_(all.taken_in_by.size()) {
  assert(kind_of.size() == all.probabilities.size());
}

/// Probability that all parts of the likeliest answer are at fault, be it with others.
double Expectation::probability_named() const {
  const auto likeliest =
      static_cast<std::size_t>(std::max_element(by_class_.begin(), by_class_.end()) - by_class_.begin());
  double sum = 0.0;
  for (const std::size_t other : all_.taken_in_by[likeliest]) sum += by_class_[other];
  return sum;
}

void Expectation::add(double weight, std::span<const double> likelihoods) {
  if (!(weight > 0.0)) return;
  std::fill(by_class_.begin(), by_class_.end(), 0.0);
  for (std::size_t h = 0; h < kind_of_.size(); ++h)
    by_class_[all_.class_of[h]] += all_.probabilities[h] * likelihoods[kind_of_[h]];
  normalise(by_class_);
  const double entropy = entropy_in_bits(by_class_);
  weight_ += weight;
  left_ += weight * entropy;
  if (probability_named() < named_) unsettled_ += weight * entropy;
}

void Expectation::add(std::span<const double> likelihoods) {
  double weight = 0.0;
  for (std::size_t h = 0; h < kind_of_.size(); ++h) weight += all_.probabilities[h] * likelihoods[kind_of_[h]];
  add(weight, likelihoods);
}

Expected Expectation::expected() const {
  if (!(weight_ > 0.0)) return {0.0, all_.entropy};
  return {all_.entropy - left_ / weight_, unsettled_ / weight_};
}

}  // namespace ohmwright::locate
