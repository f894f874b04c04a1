#pragma once

#include <cstddef>
#include <span>
#include <vector>

#include <ohmwright/locate/faults.hpp>

namespace ohmwright::locate {

/// What may be so, each with its probability and with what it would answer: which parts are at fault.
struct Hypotheses {
  std::vector<double> probabilities;  ///< sum up to 1
  std::vector<std::size_t> class_of;  ///< hypotheses of one answer are one class
  /// By class: the classes in which all of its parts are at fault, itself among them.
  std::vector<std::vector<std::size_t>> taken_in_by;
  double entropy = 0.0;  ///< over the classes [bit]

  /// Hypotheses of these weights, which are not all 0, with the answer of each.
  Hypotheses(std::vector<double> weights, std::span<const AnswerKey> answers);
};

/// What an observation is expected to leave.
struct Expected {
  double gain_bits = 0.0;       ///< fall of the entropy
  double unsettled_bits = 0.0;  ///< entropy left, that of endings in which parts are named not counted
};

/// Sums up, outcome by outcome, what an observation leaves of the doubt which answer is so. Knows nothing of circuits.
/// Source: J. de Kleer, B. C. Williams, Diagnosing multiple faults, Artificial Intelligence 32 (1987), section 4.
class Expectation {
 public:
  /// `kind_of` tells of each hypothesis which place of the likelihoods is its own: many predict the same. Parts are
  /// named whose probability is at least `named`. All three must outlive the expectation.
  Expectation(const Hypotheses& all, std::span<const std::size_t> kind_of, double named);

  /// Takes in an outcome that comes with this weight; `likelihoods` are of it, by kind of hypothesis, on any scale.
  void add(double weight, std::span<const double> likelihoods);
  /// Takes in an outcome whose likelihoods are probabilities: it comes as often as they say.
  void add(std::span<const double> likelihoods);

  /// Over all outcomes taken in, their weights made probabilities; all of the doubt where there are none.
  Expected expected() const;

 private:
  double probability_named() const;

  const Hypotheses& all_;
  std::span<const std::size_t> kind_of_;
  double named_;
  std::vector<double> by_class_;  ///< after the outcome at hand
  double weight_ = 0.0;
  double left_ = 0.0;
  double unsettled_ = 0.0;
};

}  // namespace ohmwright::locate
