#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/error_source.hpp>
#include <ohmwright/uncertainty/estimate.hpp>

namespace ohmwright {

/// An estimate with the limits it is held against, all in one unit of its own; a limit may be infinite.
struct LimitedEstimate {
  Estimate estimate;
  double lower = 0.0;
  double upper = 0.0;
};

/// How a joint probability was computed.
enum class JointMethod : std::uint8_t {
  product,      ///< nothing is shared: the product of the single probabilities
  quadrature,   ///< an integral over each shared source
  monte_carlo,  ///< more than three shared sources hang together
};

/// P(all estimates within their limits), with what is to be said of it.
struct JointProbability {
  double probability = 0.0;     ///< [dimensionless]
  double standard_error = 0.0;  ///< of the Monte Carlo part; 0 where there is none
  JointMethod method = JointMethod::product;
  std::uint64_t seed = 0;  ///< of the Monte Carlo part; 0 where there is none
  std::size_t trials = 0;  ///< likewise
};

/// Estimates that one joint probability takes at most.
inline constexpr std::size_t max_joint_estimates = 16;
/// Shared sources that are integrated over; more in one group of estimates, and they are drawn.
inline constexpr std::size_t max_integrated_sources = 3;

/// P(every estimate lies between its limits), errors of one source being one error [dimensionless].
///
/// Given the shared sources the estimates are independent, so their probabilities (`SumDistribution`) multiply; the
/// product is averaged over the shared sources. Sources that appear everywhere in the same proportions count as one. Up
/// to three within estimates that hang together are integrated over by Gauss–Kronrod quadrature (error below 1e-8 for
/// one, 1e-6 for two or three); with more, 40 000 antithetic draws of a `ReproducibleStream` of fixed seed are
/// averaged. No estimate at all gives 1; a not-a-number anywhere gives one. Allocates nothing. Throws `Error`
/// (internal) for too many estimates or a source that is not there.
OHMWRIGHT_CORE_API JointProbability joint_probability(std::span<const LimitedEstimate> estimates,
                                                      std::span<const ErrorSource> sources);

}  // namespace ohmwright
