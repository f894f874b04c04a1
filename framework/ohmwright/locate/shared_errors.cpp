#include <algorithm>
#include <array>
#include <cmath>

#include <ohmwright/locate/shared_errors.hpp>

namespace ohmwright::locate {

std::size_t SharedErrors::place_of(std::uint64_t source) const {
  const auto found = std::find(sources_.begin(), sources_.end(), source);
  return found == sources_.end() ? unknown : static_cast<std::size_t>(found - sources_.begin());
}

std::size_t SharedErrors::place_made(std::uint64_t source) {
  const std::size_t known = place_of(source);
  if (known != unknown || sources_.size() == most) return known;
  const std::size_t made = sources_.size();
  sources_.push_back(source);
  means_[made] = 0.0;
  for (std::size_t other = 0; other < made; ++other) covariance(made, other) = covariance(other, made) = 0.0;
  covariance(made, made) = 1.0;
  return made;
}

SharedErrors::Narrowed SharedErrors::narrowed(const PredictedOutcome& outcome) const {
  Narrowed result{outcome.mean, outcome.uncertainty};
  if (sources_.empty()) return result;
  double variance = outcome.uncertainty * outcome.uncertainty;
  for (const SharedError& a : outcome.shared) {
    const std::size_t at = place_of(a.source);
    if (at == unknown) continue;
    result.mean += a.share * means_[at];
    variance -= a.share * a.share;
    for (const SharedError& b : outcome.shared)
      if (const std::size_t other = place_of(b.source); other != unknown)
        variance += a.share * b.share * covariance(at, other);
  }
  result.uncertainty = std::sqrt(std::max(0.0, variance));
  return result;
}

void SharedErrors::learn(const PredictedOutcome& outcome, const SeenReading& seen, double least_uncertainty) {
  double own = outcome.uncertainty * outcome.uncertainty;
  std::array<double, most> shares{};
  for (const SharedError& error : outcome.shared) {
    const std::size_t place = place_made(error.source);
    if (place == unknown) continue;
    own -= error.share * error.share;
    shares[place] += error.share;
  }
  const std::size_t count = sources_.size();
  std::array<double, most> with_reading{};  // covariance of each source with the reading
  double expected = outcome.mean;
  double variance = std::max(own, least_uncertainty * least_uncertainty) + seen.uncertainty * seen.uncertainty;
  for (std::size_t i = 0; i < count; ++i) {
    for (std::size_t j = 0; j < count; ++j) with_reading[i] += covariance(i, j) * shares[j];
    expected += shares[i] * means_[i];
    variance += shares[i] * with_reading[i];
  }
  for (std::size_t i = 0; i < count; ++i) {
    means_[i] += with_reading[i] * (seen.at - expected) / variance;
    for (std::size_t j = 0; j < count; ++j) covariance(i, j) -= with_reading[i] * with_reading[j] / variance;
  }
}

}  // namespace ohmwright::locate
