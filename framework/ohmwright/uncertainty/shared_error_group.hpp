#pragma once

#include <bitset>
#include <cstddef>
#include <span>

#include <boost/container/static_vector.hpp>

#include <ohmwright/uncertainty/joint_probability.hpp>
#include <ohmwright/uncertainty/shared_source.hpp>
#include <ohmwright/uncertainty/sum_distribution.hpp>

namespace ohmwright {

/// Estimates that hang together through sources they share. For inside use by the joint probability.
class SharedErrorGroup {
 public:
  using EstimateSet = std::bitset<max_joint_estimates>;

  /// The group of estimate `first`. Throws `Error` (internal) for a source that is not there.
  SharedErrorGroup(std::span<const LimitedEstimate> estimates, std::span<const ErrorSource> sources, std::size_t first);

  const EstimateSet& members() const { return members_; }
  JointProbability probability();

 private:
  static constexpr std::size_t max_shared = max_joint_estimates / 2 * Estimate::max_terms;
  static constexpr std::size_t max_cuts = 2 * std::size_t{5} * max_joint_estimates + 7;
  using Cuts = boost::container::static_vector<double, max_cuts>;

  /// A member without the shared sources, its limits less its value and the errors of the shared sources.
  struct Rest {
    const Estimate* estimate = nullptr;
    SumDistribution distribution;
  };
  struct Limits {
    double lower = 0.0;
    double upper = 0.0;
  };
  /// Shared sources that always appear in the same proportions, as one error: the meter's gain and the thermometer in
  /// readings of one kind. One integral does for all of them.
  struct Factor {
    SourceIndex first = 0;
    std::size_t source_count = 0;
    SumDistribution sum;                                                        ///< in units of the first source
    boost::container::static_vector<double, max_joint_estimates> coefficients;  ///< one a member
    double weight = 0.0;                                                        ///< share of the members' variances
  };

  void gather(std::size_t first);
  void take_neighbours(const Estimate& estimate);
  void add_member(const LimitedEstimate& limited);
  void add_factor(SourceIndex source);
  static bool merge(Factor& into, const Factor& factor, const ErrorSource& source);
  SourceIntegral integral_of(const Factor& factor) const;
  bool is_sound() const;
  double given_shared() const;
  void move_limits(const Factor& factor, double error);
  Cuts cuts_of(std::size_t next, const SourceIntegral& integral) const;
  double integrated(std::size_t next);
  JointProbability drawn();

  std::span<const LimitedEstimate> estimates_;
  std::span<const ErrorSource> sources_;
  EstimateSet members_;
  boost::container::static_vector<SourceIndex, max_shared> shared_;
  boost::container::static_vector<Rest, max_joint_estimates> rest_;
  boost::container::static_vector<Limits, max_joint_estimates> limits_;
  boost::container::static_vector<Factor, max_integrated_sources> factors_;  ///< weakest first
  bool too_many_factors_ = false;
};

}  // namespace ohmwright
