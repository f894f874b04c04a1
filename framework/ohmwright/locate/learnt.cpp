#include <algorithm>

#include <ohmwright/locate/learnt.hpp>

namespace ohmwright::locate {

namespace {

/// The outcome where it lies after what was learnt; what it shares is in that already.
PredictedOutcome moved(const PredictedOutcome& outcome, const SharedErrors& errors) {
  const SharedErrors::Narrowed narrowed = errors.narrowed(outcome);
  return {outcome.weight, outcome.form, narrowed.mean, narrowed.uncertainty, {}, {}, {}};
}

}  // namespace

double Learnt::likelihood_of_way(const PredictedOutcome& outcome, const SeenReading& seen, Probe probe,
                                 const ReadingModel& model) const {
  if (outcome.form != PredictedOutcome::Form::value) return likelihood(outcome, seen, probe, model);
  return likelihood(moved(outcome, errors_), seen, probe, model);
}

double Learnt::take_in(std::span<const PredictedOutcome> outcomes, const SeenReading& seen, Probe probe, double misread,
                       const ReadingModel& model) {
  double sum = 0.0;
  double best = 0.0;
  const PredictedOutcome* likeliest = nullptr;
  meant_.clear();
  for (const PredictedOutcome& outcome : outcomes) {
    const double likely = contacts_.weight_of(outcome) * likelihood_of_way(outcome, seen, probe, model);
    meant_.push_back((1.0 - model.misread_share) * likely);
    sum += likely;
    if (likely > best) {
      best = likely;
      likeliest = &outcome;
    }
  }
  contacts_.learn(outcomes, {meant_.data(), meant_.size()}, misread);
  const bool tells = likeliest != nullptr && likeliest->form == PredictedOutcome::Form::value &&
                     seen.form == SeenReading::Form::value &&
                     2.0 * (1.0 - model.misread_share) * best > misread + (1.0 - model.misread_share) * sum;
  if (tells) errors_.learn(*likeliest, seen, model.least_uncertainty);
  return sum;
}

bool Learnt::speaks_of(std::span<const PredictedOutcome> outcomes) const {
  return std::any_of(outcomes.begin(), outcomes.end(), [this](const PredictedOutcome& outcome) {
    return errors_.speaks_of(outcome) || contacts_.speaks_of(outcome);
  });
}

std::vector<PredictedOutcome> Learnt::expected(std::span<const PredictedOutcome> outcomes) const {
  std::vector<PredictedOutcome> now;
  for (const PredictedOutcome& outcome : outcomes) {
    now.push_back(moved(outcome, errors_));
    now.back().weight = contacts_.weight_of(outcome);
  }
  return now;
}

}  // namespace ohmwright::locate
