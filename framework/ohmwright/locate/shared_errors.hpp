#pragma once

#include <cstdint>

#include <boost/container/small_vector.hpp>

#include <ohmwright/locate/prediction.hpp>

namespace ohmwright::locate {

/// What readings taken together tell of the errors that they share, if an instance is true: a heater that read 3 % high
/// in its harness will read 3 % high alone. Each shared error begins as a standard normal variable.
///
/// Source: Kalman's equations for one observation at a time, R. E. Kalman, J. Basic Engineering 82 (1960), 35; where a
/// reading bends, iterated about the estimate, as A. H. Jazwinski, Stochastic Processes and Filtering Theory
/// (1970), 8.3 has it (both from memory).
class SharedErrors {
 public:
  /// Mean and standard uncertainty that the outcome has after what was learnt, on its scale.
  struct Narrowed {
    double mean = 0.0;
    double uncertainty = 0.0;
  };
  Narrowed narrowed(const PredictedOutcome& outcome) const;
  /// Whether a reading told anything of an error that the outcome shares.
  bool speaks_of(const PredictedOutcome& outcome) const;

  /// Takes in a value that was seen, which came out in this way. `least_uncertainty` is what no reading is better than.
  void learn(const PredictedOutcome& outcome, const SeenReading& seen, double least_uncertainty);

 private:
  static constexpr std::size_t unknown = static_cast<std::size_t>(-1);
  /// A reading as a straight line about `taken_at_`.
  struct Line {
    double expected = 0.0;  ///< what it would read if the sources stood where they are thought to stand
    double variance = 0.0;  ///< of what it reads about that
  };
  Line line_of(const PredictedOutcome& outcome, double own_variance);

  std::size_t place_of(std::uint64_t source) const;
  std::size_t place_made(std::uint64_t source);
  double covariance(std::size_t a, std::size_t b) const { return covariances_[packed(a, b)]; }

  /// Symmetric, so that the lower triangle is enough; it grows by a row with each source.
  static std::size_t packed(std::size_t a, std::size_t b) { return a < b ? b * (b + 1) / 2 + a : a * (a + 1) / 2 + b; }

  /// Room without the heap for what a search on one appliance has as a rule: this is made for every way it may be.
  static constexpr std::size_t usual = 24;
  using OnePerSource = boost::container::small_vector<double, usual>;

  boost::container::small_vector<std::uint64_t, usual> sources_;
  OnePerSource means_;
  boost::container::small_vector<double, usual*(usual + 1) / 2> covariances_;
  OnePerSource slopes_;        ///< of the reading that is taken in
  OnePerSource with_reading_;  ///< covariance of each source with that reading
  OnePerSource taken_at_;      ///< deviations about which its slopes are taken
};

}  // namespace ohmwright::locate
