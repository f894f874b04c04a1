#include <algorithm>
#include <cmath>
#include <string>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/joint_probability.hpp>
#include <ohmwright/uncertainty/shared_error_group.hpp>

namespace ohmwright {

namespace {

/// Multiplies `by` in: relative standard errors of independent factors add up in squares.
void multiply(JointProbability& joint, const JointProbability& by) {
  const double left = joint.standard_error * by.probability;
  const double right = by.standard_error * joint.probability;
  joint.standard_error = std::hypot(left, right);
  joint.probability *= by.probability;
  joint.method = std::max(joint.method, by.method);
  if (by.trials == 0) return;
  joint.seed = by.seed;
  joint.trials = by.trials;
}

}  // namespace

JointProbability joint_probability(std::span<const LimitedEstimate> estimates, std::span<const ErrorSource> sources) {
  if (estimates.size() > max_joint_estimates) {
    throw Error(ErrorCategory::internal, "a joint probability takes at most " + std::to_string(max_joint_estimates) +
                                             " estimates, not " + std::to_string(estimates.size()));
  }
  JointProbability joint;
  joint.probability = 1.0;
  SharedErrorGroup::EstimateSet done;
  for (std::size_t i = 0; i < estimates.size(); ++i) {
    if (done[i]) continue;
    SharedErrorGroup group(estimates, sources, i);
    done |= group.members();
    multiply(joint, group.probability());
  }
  return joint;
}

}  // namespace ohmwright
