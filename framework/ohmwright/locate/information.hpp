#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace ohmwright::locate {

// Inference over a finite list of hypotheses of which one is true. Knows nothing of circuits.

/// Sets of at most `most_faults` out of `count` components, the empty one first, then by size and in order of index.
std::vector<std::vector<std::size_t>> fault_sets(std::size_t count, std::size_t most_faults);

/// Probability of exactly the components of `set` being faulty, when each fails by itself with its probability [0…1].
double independent_probability(std::span<const std::size_t> set, std::span<const double> fault_probabilities);

/// Makes weights probabilities. Weights are not negative and not all 0.
void normalise(std::span<double> weights);

/// Bayes' rule in place: `probabilities` times `likelihoods`, normalised. Gives the probability of what was observed
/// before it was (the sum of the products); where that is 0, no hypothesis explains it and the probabilities stay.
double weigh(std::span<double> probabilities, std::span<const double> likelihoods);

/// Shannon's entropy [bit].
double entropy_in_bits(std::span<const double> probabilities);

/// Of an observation with finitely many outcomes: the probability of each outcome under each hypothesis.
class OutcomeTable {
 public:
  OutcomeTable(std::size_t hypotheses, std::size_t outcomes)
      : outcomes_(outcomes), probabilities_(hypotheses * outcomes, 0.0) {}

  /// An observation that reads `predicted[h]` under hypothesis h, and with the share `misread` [0…1) anything else.
  static OutcomeTable certain(std::span<const std::size_t> predicted, std::size_t outcomes, double misread = 0.0);

  std::size_t outcomes() const { return outcomes_; }
  std::size_t hypotheses() const { return probabilities_.size() / outcomes_; }
  double& at(std::size_t hypothesis, std::size_t outcome) { return probabilities_[hypothesis * outcomes_ + outcome]; }
  double at(std::size_t hypothesis, std::size_t outcome) const {
    return probabilities_[hypothesis * outcomes_ + outcome];
  }

 private:
  std::size_t outcomes_;
  std::vector<double> probabilities_;
};

/// Entropy to be expected after the observation [bit], over classes of hypotheses: `class_of` names each one's class
/// (all different for the hypotheses themselves).
/// Source: J. de Kleer, B. C. Williams, Diagnosing multiple faults, Artificial Intelligence 32 (1987), section 4.
double expected_entropy_in_bits(std::span<const double> probabilities, const OutcomeTable& table,
                                std::span<const std::size_t> class_of);

/// Sums of the probabilities of each class.
std::vector<double> class_probabilities(std::span<const double> probabilities, std::span<const std::size_t> class_of);

}  // namespace ohmwright::locate
