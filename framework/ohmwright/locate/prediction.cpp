#include <algorithm>
#include <cmath>

#include <ohmwright/locate/normal.hpp>
#include <ohmwright/locate/prediction.hpp>

namespace ohmwright::locate {

namespace {

/// Where a ghost voltage or a damp path reads, on the scale: nearly anything below the supply, or some megohms.
struct Anywhere {
  double mean;
  double uncertainty;
};
Anywhere floating_volts() { return {ghost_voltage_on_scale(), ghost_spread_on_scale}; }
Anywhere damp_ohms() { return {scale_of(Probe::ohms).at(8e6), 1.2}; }

double likelihood_of_value(const PredictedOutcome& outcome, const SeenReading& seen, Probe probe,
                           const ReadingModel& model) {
  const double at = seen.at;
  if (outcome.form == PredictedOutcome::Form::value)
    return normal_density(at, outcome.mean,
                          std::hypot(std::max(outcome.uncertainty, model.least_uncertainty), seen.uncertainty));
  if (outcome.form == PredictedOutcome::Form::floating) {
    const Anywhere ghost = floating_volts();
    return normal_density(at, ghost.mean, ghost.uncertainty);
  }
  if (probe != Probe::ohms) return 0.0;
  const Anywhere damp = damp_ohms();
  return model.damp_share * normal_density(at, damp.mean, damp.uncertainty);
}

/// Probability that the outcome reads above `limit` on the scale; OL is.
double above(const PredictedOutcome& outcome, double limit, const ReadingModel& model) {
  if (outcome.form == PredictedOutcome::Form::over_range) return 1.0;
  return 1.0 - normal_probability_below(limit, outcome.mean, std::max(outcome.uncertainty, model.least_uncertainty));
}

/// Of OL past `limit`: an open path, but for damp that reads lower, or a value beyond it.
double likelihood_of_over_range(const PredictedOutcome& outcome, double limit, const ReadingModel& model) {
  if (outcome.form != PredictedOutcome::Form::over_range) return above(outcome, limit, model);
  const Anywhere damp = damp_ohms();
  return 1.0 - model.damp_share * normal_probability_below(limit, damp.mean, damp.uncertainty);
}

double probability_between(const PredictedOutcome& outcome, double from, double to, Probe probe,
                           const ReadingModel& model) {
  const auto share = [&](double mean, double u) {
    return normal_probability_below(to, mean, u) - normal_probability_below(from, mean, u);
  };
  if (outcome.form == PredictedOutcome::Form::value)
    return share(outcome.mean, std::max(outcome.uncertainty, model.least_uncertainty));
  if (outcome.form == PredictedOutcome::Form::floating)
    return share(floating_volts().mean, floating_volts().uncertainty);
  return probe == Probe::ohms ? model.damp_share * share(damp_ohms().mean, damp_ohms().uncertainty) : 0.0;
}

double likelihood_of(const PredictedOutcome& outcome, const SeenReading& seen, Probe probe, const ReadingModel& model) {
  const Scale scale = scale_of(probe);
  switch (seen.form) {
    case SeenReading::Form::value:
      return likelihood_of_value(outcome, seen, probe, model);
    case SeenReading::Form::over_range:
      return likelihood_of_over_range(outcome, seen.past.value_or(scale.at(scale.largest)), model);
    case SeenReading::Form::does_not_conduct:
      return above(outcome, scale.at(model.conducts_below), model);
    case SeenReading::Form::between:
      return probability_between(outcome, seen.at, seen.to, probe, model);
    case SeenReading::Form::conducts:
      break;
  }
  return 1.0 - above(outcome, scale.at(model.conducts_below), model);
}

}  // namespace

double Bend::added_at(double deviation) const {
  const Scale scale = scale_of(Probe::ohms);
  const double x = std::exp(spread * deviation);
  return scale.at((p + q * x) / (1.0 + s * x)) - scale.at((p + q) / (1.0 + s));
}

double Bend::slope_at(double deviation) const {
  const double x = std::exp(spread * deviation);
  const double below = 1.0 + s * x;
  return scale_of(Probe::ohms).uncertainty_at((p + q * x) / below, spread * x * (q - p * s) / (below * below));
}

std::optional<Bend> bend_through(std::uint64_t source, double spread, double below, double middle, double above) {
  const double less = std::exp(-spread);
  const double more = std::exp(spread);
  // v (1 + s x) = p + q x at all three; that in the middle subtracted from the others leaves two equations for q and s.
  const double determinant = (less - 1.0) * (middle - above * more) - (more - 1.0) * (middle - below * less);
  const double q =
      ((below - middle) * (middle - above * more) - (above - middle) * (middle - below * less)) / determinant;
  const double s = ((less - 1.0) * (above - middle) - (more - 1.0) * (below - middle)) / determinant;
  const double p = middle * (1.0 + s) - q;
  constexpr double rounding = 1e-9;  // a branch alone beside nothing has a p of 0, a branch in series an s of 0
  const bool grows = q > p * s;      // as any reading does with any resistance
  if (!std::isfinite(p) || !std::isfinite(s) || !grows || q <= 0.0 || p < -rounding * q || s < -rounding)
    return std::nullopt;
  return Bend{source, spread, std::max(0.0, p), q, std::max(0.0, s)};
}

double added_at(const PredictedOutcome& outcome, const SharedError& error, double deviation) {
  for (const Bend& bend : outcome.bends)
    if (bend.source == error.source) return bend.added_at(deviation);
  return error.share * deviation;
}

double slope_at(const PredictedOutcome& outcome, const SharedError& error, double deviation) {
  for (const Bend& bend : outcome.bends)
    if (bend.source == error.source) return bend.slope_at(deviation);
  return error.share;
}

bool is_behind_tripped_breaker(std::span<const PredictedOutcome> outcomes) {
  double tripped = 0.0;
  for (const PredictedOutcome& outcome : outcomes)
    if (outcome.breaker_tripped) tripped += outcome.weight;
  return tripped > 0.5;
}

bool look_alike(std::span<const PredictedOutcome> a, std::span<const PredictedOutcome> b) {
  constexpr double same_share = 0.01;
  constexpr double as_wide = 0.1;
  const auto alike = [](const PredictedOutcome& x, const PredictedOutcome& y) {
    if (x.form != y.form || std::abs(x.weight - y.weight) > same_share) return false;
    return x.form != PredictedOutcome::Form::value ||
           (std::abs(x.mean - y.mean) < told_apart &&
            std::abs(x.uncertainty - y.uncertainty) <= as_wide * std::max(x.uncertainty, y.uncertainty));
  };
  return a.data() == b.data() || std::equal(a.begin(), a.end(), b.begin(), b.end(), alike);
}

double stray_on_scale(double volts) {
  constexpr double most = 2.0;  // standard deviations: what strays in at most
  return scale_of(Probe::volts).at(volts) / most;
}

double ghost_voltage_on_scale() {
  constexpr double volt = 30.0;  // between nothing and the supply (common practice, no source)
  return scale_of(Probe::volts).at(volt);
}

double likelihood(const PredictedOutcome& outcome, const SeenReading& seen, Probe probe, const ReadingModel& model) {
  return likelihood_of(outcome, seen, probe, model);
}

double likelihood(std::span<const PredictedOutcome> outcomes, const SeenReading& seen, Probe probe,
                  const ReadingModel& model) {
  double sum = 0.0;
  for (const PredictedOutcome& outcome : outcomes) sum += outcome.weight * likelihood_of(outcome, seen, probe, model);
  return sum;
}

double likelihood_if_misread(const SeenReading& seen, Probe probe, const ReadingModel& model) {
  switch (seen.form) {
    case SeenReading::Form::value:
      return (1.0 - model.over_range_share) * scale_of(probe).density_of_anything();
    case SeenReading::Form::over_range:
      return model.over_range_share;
    case SeenReading::Form::between:
      return (1.0 - model.over_range_share) * scale_of(probe).density_of_anything() * (seen.to - seen.at);
    case SeenReading::Form::conducts:
    case SeenReading::Form::does_not_conduct:
      break;
  }
  return 0.5;
}

}  // namespace ohmwright::locate
