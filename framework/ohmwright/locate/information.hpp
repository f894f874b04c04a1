#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace ohmwright::locate {

// Inference over a finite list of hypotheses of which one is true. Knows nothing of circuits.

/// Sets of at most `most_faults` out of `count` components, the empty one first, then by size and in order of index.
std::vector<std::vector<std::size_t>> fault_sets(std::size_t count, std::size_t most_faults);

/// Makes weights probabilities. Weights are not negative and not all 0.
void normalise(std::span<double> weights);

/// Bayes' rule in place: `weights` times `likelihoods`, made probabilities. Gives the sum of the products: of weights
/// that were probabilities, how likely it was to see what was seen. Where it is 0, nothing explains it and the weights
/// stay as they are.
double weigh(std::span<double> weights, std::span<const double> likelihoods);

/// Shannon's entropy [bit].
double entropy_in_bits(std::span<const double> probabilities);

/// Sums of the probabilities of each class.
std::vector<double> class_probabilities(std::span<const double> probabilities, std::span<const std::size_t> class_of);

}  // namespace ohmwright::locate
