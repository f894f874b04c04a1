#include <algorithm>
#include <cmath>
#include <limits>
#include <tuple>

#include <ohmwright/locate/shared_errors.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

/// Repeats agree when they differ by no more than this on the scale: what fingers and contacts do to a good meter.
constexpr double agreeing = 0.05;

/// A slip is rarely made twice in the same way: of readings that agree, the first may be any slip, the others the same
/// one again or, by chance, another that looks alike.
double likelihood_if_misread_alike(const WeighedReading& reading, const ReadingModel& model) {
  const double once = model.misread_share * likelihood_if_misread(reading.seen, reading.probe, model);
  const double by_chance = reading.seen.form == SeenReading::Form::value ? std::min(1.0, 2.0 * agreeing * once) : once;
  const double again = model.same_slip_again + (1.0 - model.same_slip_again) * by_chance;
  return once * std::pow(again, static_cast<double>(reading.given.size() - 1));
}

/// Probability of a reading that was meant, if an instance is true, given what its readings before told of the errors
/// they share; then takes it in where it was most likely meant.
double likelihood_in_turn(const std::vector<PredictedOutcome>& outcomes, const WeighedReading& reading, double misread,
                          const ReadingModel& model, SharedErrors& errors) {
  double sum = 0.0;
  double best = 0.0;
  const PredictedOutcome* likeliest = nullptr;
  for (const PredictedOutcome& outcome : outcomes) {
    double likely = 0.0;
    if (outcome.form == PredictedOutcome::Form::value) {
      PredictedOutcome now{outcome.weight, outcome.form, 0.0, 0.0, {}};
      const SharedErrors::Narrowed narrowed = errors.narrowed(outcome);
      now.mean = narrowed.mean;
      now.uncertainty = narrowed.uncertainty;
      likely = outcome.weight * likelihood(now, reading.seen, reading.probe, model);
    } else {
      likely = outcome.weight * likelihood(outcome, reading.seen, reading.probe, model);
    }
    sum += likely;
    if (likely > best) {
      best = likely;
      likeliest = &outcome;
    }
  }
  const bool tells = likeliest != nullptr && likeliest->form == PredictedOutcome::Form::value &&
                     reading.seen.form == SeenReading::Form::value &&
                     2.0 * (1.0 - model.misread_share) * best > misread + (1.0 - model.misread_share) * sum;
  if (tells) errors.learn(*likeliest, reading.seen.at, model.least_uncertainty);
  return sum;
}

}  // namespace

bool agree(const SeenReading& a, const SeenReading& b) {
  if (a.form != b.form || a.form == SeenReading::Form::between) return false;
  return a.form != SeenReading::Form::value || std::abs(a.at - b.at) <= agreeing;
}

std::pair<std::size_t, std::size_t> place_of(const Measurement& measurement) {
  return {measurement.test_point, measurement.set_up.value_or(std::numeric_limits<std::size_t>::max())};
}

std::vector<WeighedReading> join_repeats(const Prober& prober, std::span<const TakenReading> readings) {
  std::vector<WeighedReading> joined;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const Probe probe = prober.appliance().test_points[readings[i].measurement.test_point].probe;
    const std::optional<SeenReading> seen =
        readings[i].any_of ? readings[i].any_of : seen_reading(readings[i].observed, probe, prober.lead_resistance());
    if (!seen) continue;
    const auto same = std::find_if(joined.begin(), joined.end(), [&](const WeighedReading& other) {
      return other.measurement == readings[i].measurement && agree(other.seen, *seen);
    });
    if (same == joined.end()) {
      joined.push_back({readings[i].measurement, probe, *seen, readings[i].any_of.has_value(), {i}});
      continue;
    }
    const auto count = static_cast<double>(same->given.size());
    same->seen.at = (count * same->seen.at + seen->at) / (count + 1.0);
    same->given.push_back(i);
  }
  // One order, whatever the order of the readings: what is learnt of shared errors is not exact where ways are many.
  std::stable_sort(joined.begin(), joined.end(), [](const WeighedReading& a, const WeighedReading& b) {
    const auto key = [](const WeighedReading& r) {
      return std::tuple(place_of(r.measurement), r.seen.form, r.seen.at);
    };
    return key(a) < key(b);
  });
  return joined;
}

JointLikelihood likelihood_of_all(std::span<const WeighedReading> readings,
                                  std::span<const std::vector<PredictedOutcome>* const> predictions,
                                  const ReadingModel& model) {
  JointLikelihood joint;
  SharedErrors errors;
  for (std::size_t r = 0; r < readings.size(); ++r) {
    const WeighedReading& reading = readings[r];
    const double misread = likelihood_if_misread_alike(reading, model);
    const double meant = std::pow(1.0 - model.misread_share, static_cast<double>(reading.given.size())) *
                         likelihood_in_turn(*predictions[r], reading, misread, model, errors);
    joint.misread.push_back(misread / (misread + meant));
    joint.of_all *= misread + meant;
  }
  return joint;
}

}  // namespace ohmwright::locate
