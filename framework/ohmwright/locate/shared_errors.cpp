#include <algorithm>
#include <cmath>

#include <ohmwright/locate/shared_errors.hpp>

namespace ohmwright::locate {

namespace {

constexpr int times_about_the_estimate = 3;

double square(double x) { return x * x; }

}  // namespace

std::size_t SharedErrors::place_of(std::uint64_t source) const {
  const auto found = std::find(sources_.begin(), sources_.end(), source);
  return found == sources_.end() ? unknown : static_cast<std::size_t>(found - sources_.begin());
}

std::size_t SharedErrors::place_made(std::uint64_t source) {
  const std::size_t known = place_of(source);
  if (known != unknown) return known;
  const std::size_t made = sources_.size();
  sources_.push_back(source);
  means_.push_back(0.0);
  covariances_.resize(covariances_.size() + made, 0.0);
  covariances_.push_back(1.0);
  return made;
}

SharedErrors::Narrowed SharedErrors::narrowed(const PredictedOutcome& outcome) const {
  Narrowed result{outcome.mean, outcome.uncertainty};
  if (sources_.empty()) return result;
  struct Told {
    const SharedError* error;
    std::size_t at;
    double slope;
  };
  boost::container::static_vector<Told, PredictedOutcome::most_shared + PredictedOutcome::most_bends> told;
  for (const SharedError& error : outcome.shared)
    if (const std::size_t at = place_of(error.source); at != unknown)
      told.push_back({&error, at, slope_at(outcome, error, means_[at])});
  double variance = outcome.uncertainty * outcome.uncertainty;
  for (const Told& a : told) {
    result.mean += added_at(outcome, *a.error, means_[a.at]);
    variance -= square(a.error->share);
    for (const Told& b : told) variance += a.slope * b.slope * covariance(a.at, b.at);
  }
  result.uncertainty = std::sqrt(std::max(0.0, variance));
  return result;
}

bool SharedErrors::speaks_of(const PredictedOutcome& outcome) const {
  return std::any_of(outcome.shared.begin(), outcome.shared.end(),
                     [this](const SharedError& error) { return place_of(error.source) != unknown; });
}

SharedErrors::Line SharedErrors::line_of(const PredictedOutcome& outcome, double own_variance) {
  const std::size_t count = sources_.size();
  Line line{outcome.mean, own_variance};
  slopes_.assign(count, 0.0);
  for (const SharedError& error : outcome.shared) {
    const std::size_t place = place_of(error.source);
    const double deviation = taken_at_[place];
    const double slope = slope_at(outcome, error, deviation);
    slopes_[place] += slope;
    line.expected += added_at(outcome, error, deviation) + slope * (means_[place] - deviation);
  }
  // Most sources have nothing to do with a reading: what is not touched is left out.
  with_reading_.assign(count, 0.0);
  for (std::size_t j = 0; j < count; ++j) {
    if (slopes_[j] == 0.0) continue;
    for (std::size_t i = 0; i < count; ++i) with_reading_[i] += covariance(i, j) * slopes_[j];
  }
  for (std::size_t i = 0; i < count; ++i) line.variance += slopes_[i] * with_reading_[i];
  return line;
}

void SharedErrors::learn(const PredictedOutcome& outcome, const SeenReading& seen, double least_uncertainty) {
  double own = square(outcome.uncertainty);
  for (const SharedError& error : outcome.shared) {
    place_made(error.source);
    own -= square(error.share);
  }
  const double own_variance = std::max(own, square(least_uncertainty)) + square(seen.uncertainty);
  taken_at_ = means_;
  Line line = line_of(outcome, own_variance);
  for (int again = 0; !outcome.bends.empty() && again < times_about_the_estimate; ++again) {
    for (std::size_t i = 0; i < means_.size(); ++i)
      taken_at_[i] = means_[i] + with_reading_[i] * (seen.at - line.expected) / line.variance;
    line = line_of(outcome, own_variance);
  }
  for (std::size_t i = 0; i < means_.size(); ++i) {
    if (with_reading_[i] == 0.0) continue;
    const double gain = with_reading_[i] / line.variance;
    means_[i] += gain * (seen.at - line.expected);
    for (std::size_t j = 0; j <= i; ++j) covariances_[packed(i, j)] -= gain * with_reading_[j];
  }
}

}  // namespace ohmwright::locate
