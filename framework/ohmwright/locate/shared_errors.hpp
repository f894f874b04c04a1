#pragma once

#include <cstdint>
#include <vector>

#include <ohmwright/locate/prediction.hpp>

namespace ohmwright::locate {

/// What readings taken together tell of the errors that they share, if an instance is true: a heater that read 3 % high
/// in its harness will read 3 % high alone. Each shared error begins as a standard normal variable.
///
/// Source: Kalman's equations for one observation at a time, R. E. Kalman, J. Basic Engineering 82 (1960), 35 (from
/// memory).
class SharedErrors {
 public:
  /// Mean and standard uncertainty that the outcome has after what was learnt, on its scale.
  struct Narrowed {
    double mean = 0.0;
    double uncertainty = 0.0;
  };
  Narrowed narrowed(const PredictedOutcome& outcome) const;

  /// Takes in a value that was seen, which came out in this way. `least_uncertainty` is what no reading is better than.
  void learn(const PredictedOutcome& outcome, const SeenReading& seen, double least_uncertainty);

 private:
  static constexpr std::size_t unknown = static_cast<std::size_t>(-1);
  std::size_t place_of(std::uint64_t source) const;
  std::size_t place_made(std::uint64_t source);
  double& covariance(std::size_t a, std::size_t b) { return covariances_[a * most + b]; }
  double covariance(std::size_t a, std::size_t b) const { return covariances_[a * most + b]; }

  static constexpr std::size_t most = 24;  ///< further sources are new at each reading

  std::vector<std::uint64_t> sources_;
  std::vector<double> means_ = std::vector<double>(most, 0.0);
  std::vector<double> covariances_ = std::vector<double>(most * most, 0.0);
};

}  // namespace ohmwright::locate
