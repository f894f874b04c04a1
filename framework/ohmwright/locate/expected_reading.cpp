#include <algorithm>
#include <cmath>
#include <deque>
#include <map>
#include <span>
#include <utility>

#include <ohmwright/locate/expected_reading.hpp>

namespace ohmwright::locate {

namespace {

/// A hypothesis below this probability moves no expectation that a step is chosen by.
constexpr double too_unlikely = 1e-5;

/// A reading that may be shown, with the probability that it is meant so.
struct PossibleReading {
  PredictedOutcome::Form form = PredictedOutcome::Form::value;
  SeenReading seen;
  double probability = 0.0;
};

/// What the hypotheses predict of a measurement: many of them the same.
struct Predictions {
  std::vector<std::span<const PredictedOutcome>> different;
  std::vector<double> probabilities;                         ///< by different prediction
  std::vector<std::size_t> of;                               ///< by hypothesis
  std::deque<std::vector<PredictedOutcome>> after_readings;  ///< those of `different` that readings have moved
};

Predictions predictions_of(Reasoner& reasoner, const LikelyInstances& likely, const Measurement& measurement) {
  constexpr std::size_t nothing = static_cast<std::size_t>(-1);
  Predictions predictions;
  Reasoner::Predicted of_measurement = reasoner.predicted(measurement);
  using Source = std::pair<const std::vector<PredictedOutcome>*, std::size_t>;  // a prediction, and what was learnt
  std::vector<std::pair<Source, std::size_t>> known;
  const auto place_of = [&](std::size_t h) {
    const std::vector<PredictedOutcome>& predicted = of_measurement.of(likely.instances[h]);
    const Learnt& learnt = likely.learnt[likely.learnt_of[h]];
    const bool is_moved = learnt.speaks_of(predicted);
    const Source source{&predicted, is_moved ? likely.learnt_of[h] : nothing};
    const auto same = std::find_if(known.begin(), known.end(), [&](const auto& one) { return one.first == source; });
    if (same != known.end()) return same->second;
    std::span<const PredictedOutcome> now = predicted;
    if (is_moved) now = predictions.after_readings.emplace_back(learnt.expected(predicted));
    const auto alike = std::find_if(predictions.different.begin(), predictions.different.end(),
                                    [&](const auto& other) { return is_moved && look_alike(other, now); });
    const auto place = static_cast<std::size_t>(alike - predictions.different.begin());
    known.push_back({source, place});
    if (place == predictions.different.size()) {
      predictions.different.push_back(now);
      predictions.probabilities.push_back(0.0);
    }
    return place;
  };
  for (std::size_t h = 0; h < likely.instances.size(); ++h) {
    predictions.of.push_back(place_of(h));
    predictions.probabilities[predictions.of.back()] += likely.hypotheses.probabilities[h];
  }
  return predictions;
}

/// Every reading that some hypothesis predicts; those that a meter would not tell apart are one.
std::vector<PossibleReading> possible_readings(const Predictions& predictions) {
  std::vector<PossibleReading> readings;
  for (std::size_t i = 0; i < predictions.different.size(); ++i)
    for (const PredictedOutcome& outcome : predictions.different[i]) {
      PossibleReading reading{outcome.form, {}, predictions.probabilities[i] * outcome.weight};
      reading.seen.at = outcome.form == PredictedOutcome::Form::floating ? ghost_voltage_on_scale() : outcome.mean;
      if (outcome.form == PredictedOutcome::Form::over_range) reading.seen.form = SeenReading::Form::over_range;
      const auto same = std::find_if(readings.begin(), readings.end(), [&](const PossibleReading& other) {
        return other.form == reading.form && std::abs(other.seen.at - reading.seen.at) < told_apart;
      });
      if (same == readings.end())
        readings.push_back(reading);
      else
        same->probability += reading.probability;
    }
  return readings;
}

}  // namespace

LikelyInstances likely_instances(Reasoner& reasoner, std::size_t most) {
  std::vector<std::size_t> instances;
  std::vector<double> weights;
  std::vector<AnswerKey> answers;
  std::vector<Learnt> learnt;
  std::vector<std::size_t> learnt_of;
  std::map<std::vector<const std::vector<PredictedOutcome>*>, std::size_t> known;
  for (const Reasoner::Weighed& weighed : reasoner.likeliest(most)) {
    if (weighed.probability < too_unlikely) break;
    instances.push_back(weighed.instance);
    weights.push_back(weighed.probability);
    answers.push_back(reasoner.faults().answer_of(*reasoner.instance(weighed.instance).candidate));
    const auto [at, is_new] = known.try_emplace(reasoner.predicted_of_readings(weighed.instance), learnt.size());
    if (is_new) learnt.push_back(reasoner.learnt(weighed.instance));
    learnt_of.push_back(at->second);
  }
  return {std::move(instances), Hypotheses(std::move(weights), answers), std::move(learnt), std::move(learnt_of)};
}

Expected expected_of(Reasoner& reasoner, const LikelyInstances& likely, const Measurement& measurement, double named) {
  const Predictions predictions = predictions_of(reasoner, likely, measurement);
  if (predictions.different.size() < 2) return {0.0, likely.hypotheses.entropy};
  const ReadingModel& model = reasoner.prober().model();
  const Probe probe = reasoner.prober().appliance().test_points[measurement.test_point].probe;
  Expectation expectation(likely.hypotheses, predictions.of, named);
  std::vector<double> likelihoods(predictions.different.size());
  for (const PossibleReading& reading : possible_readings(predictions)) {
    const double misread = model.misread_share * likelihood_if_misread(reading.seen, probe, model);
    for (std::size_t i = 0; i < likelihoods.size(); ++i)
      likelihoods[i] =
          misread + (1.0 - model.misread_share) * likelihood(predictions.different[i], reading.seen, probe, model);
    expectation.add(reading.probability, likelihoods);
  }
  const Expected meant = expectation.expected();
  return {(1.0 - model.misread_share) * meant.gain_bits,
          (1.0 - model.misread_share) * meant.unsettled_bits + model.misread_share * likely.hypotheses.entropy};
}

}  // namespace ohmwright::locate
