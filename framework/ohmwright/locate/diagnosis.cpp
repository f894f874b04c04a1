#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>

#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/information.hpp>

namespace ohmwright::locate {

namespace {

/// Below this share of the likeliest, an instance is not asked what it predicts.
constexpr double negligible = 1e-12;
/// Repeats agree when they differ by no more than this on the scale: what fingers and contacts do to a good meter.
constexpr double agreeing = 0.05;

std::pair<std::size_t, std::size_t> key_of(const Measurement& measurement) {
  return {measurement.test_point, measurement.set_up.value_or(std::numeric_limits<std::size_t>::max())};
}

/// A reading as it is weighed, with the readings given that it stands for.
struct WeighedReading {
  Measurement measurement;
  Probe probe = Probe::ohms;
  SeenReading seen;
  std::vector<std::size_t> given;
};

bool agree(const SeenReading& a, const SeenReading& b) {
  return a.form == b.form && (a.form != SeenReading::Form::value || std::abs(a.at - b.at) <= agreeing);
}

std::vector<WeighedReading> join_repeats(const Prober& prober, std::span<const TakenReading> readings) {
  std::vector<WeighedReading> joined;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const Probe probe = prober.appliance().test_points[readings[i].measurement.test_point].probe;
    const std::optional<SeenReading> seen = seen_reading(readings[i].observed, probe, prober.lead_resistance());
    if (!seen) continue;
    const auto same = std::find_if(joined.begin(), joined.end(), [&](const WeighedReading& other) {
      return other.measurement == readings[i].measurement && agree(other.seen, *seen);
    });
    if (same == joined.end()) {
      joined.push_back({readings[i].measurement, probe, *seen, {i}});
      continue;
    }
    const auto count = static_cast<double>(same->given.size());
    same->seen.at = (count * same->seen.at + seen->at) / (count + 1.0);
    same->given.push_back(i);
  }
  return joined;
}

}  // namespace

Reasoner::Reasoner(Prober& prober, const SignModel& signs) : prober_(prober), sign_model_(signs) {
  const std::span<const Candidate> candidates = prober.faults().candidates();
  for (std::size_t i = 0; i < candidates.size(); ++i)
    for (Instance& instance : prober.instances(candidates[i])) {
      instances_.push_back(std::move(instance));
      candidate_of_.push_back(i);
    }
}

const std::vector<PredictedOutcome>& Reasoner::predicted(std::size_t instance, const Measurement& measurement) {
  PredictionsOfAll& of_all = predictions_[key_of(measurement)];
  if (of_all.empty()) of_all.resize(instances_.size(), nullptr);
  const std::vector<PredictedOutcome>*& kept = of_all[instance];
  if (kept == nullptr) kept = &prober_.predict(instances_[instance], measurement);
  return *kept;
}

void Reasoner::weigh_signs(const Signs& signs) {
  weights_.resize(instances_.size());
  std::size_t of_candidate = candidate_of_.size();
  double likelihood = 1.0;
  for (std::size_t i = 0; i < instances_.size(); ++i) {
    if (of_candidate != candidate_of_[i]) {
      of_candidate = candidate_of_[i];
      likelihood = likelihood_of_signs(faults(), *instances_[i].candidate, signs, sign_model_);
    }
    weights_[i] = instances_[i].candidate->prior * instances_[i].weight * likelihood;
  }
}

void Reasoner::weigh_readings(std::span<const TakenReading> readings, Diagnosis& diagnosis) {
  const ReadingModel& model = prober_.model();
  const std::vector<WeighedReading> joined = join_repeats(prober_, readings);
  diagnosis.misread.assign(readings.size(), 0.0);
  std::vector<double> misread_of_joined(joined.size(), 0.0);
  std::vector<double> shares(joined.size());
  const double least = negligible * *std::max_element(weights_.begin(), weights_.end());
  for (std::size_t i = 0; i < instances_.size(); ++i) {
    if (weights_[i] < least) {
      weights_[i] = 0.0;
      continue;
    }
    for (std::size_t r = 0; r < joined.size(); ++r) {
      const WeighedReading& reading = joined[r];
      const double misread = model.misread_share * likelihood_if_misread(reading.seen, reading.probe, model);
      const double meant = (1.0 - model.misread_share) *
                           likelihood(predicted(i, reading.measurement), reading.seen, reading.probe, model);
      shares[r] = misread / (misread + meant);
      weights_[i] *= misread + meant;
    }
    for (std::size_t r = 0; r < joined.size(); ++r) misread_of_joined[r] += weights_[i] * shares[r];
  }
  const double sum = std::accumulate(weights_.begin(), weights_.end(), 0.0);
  for (std::size_t r = 0; r < joined.size(); ++r)
    for (const std::size_t given : joined[r].given) diagnosis.misread[given] = misread_of_joined[r] / sum;
}

void Reasoner::sum_up(Diagnosis& diagnosis) const {
  const Appliance& appliance = prober_.appliance();
  const std::span<const Candidate> candidates = faults().candidates();
  diagnosis.candidates.assign(candidates.size(), 0.0);
  diagnosis.parts.assign(appliance.parts.size(), 0.0);
  diagnosis.outside_causes.assign(appliance.outside_causes.size(), 0.0);
  for (std::size_t i = 0; i < instances_.size(); ++i) diagnosis.candidates[candidate_of_[i]] += weights_[i];
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const double p = diagnosis.candidates[i];
    for (const std::uint16_t fault : candidates[i].faults) diagnosis.parts[faults().faults()[fault].fault.part] += p;
    if (candidates[i].outside_cause) diagnosis.outside_causes[*candidates[i].outside_cause] += p;
    if (candidates[i].nothing_wrong()) diagnosis.nothing_wrong = p;
  }
}

Diagnosis Reasoner::diagnose(std::span<const TakenReading> readings, const Signs& signs) {
  Diagnosis diagnosis;
  diagnosis.sealed_system = speaks_of_sealed_system(signs);
  weigh_signs(signs);
  weigh_readings(readings, diagnosis);
  normalise(weights_);
  sum_up(diagnosis);
  return diagnosis;
}

std::vector<Reasoner::Weighed> Reasoner::likeliest(std::size_t most) const {
  std::vector<Weighed> all;
  for (std::size_t i = 0; i < weights_.size(); ++i)
    if (weights_[i] > 0.0) all.push_back({i, weights_[i]});
  const std::size_t kept = std::min(most, all.size());
  std::partial_sort(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(kept), all.end(),
                    [](const Weighed& a, const Weighed& b) {
                      return a.probability != b.probability ? a.probability > b.probability : a.instance < b.instance;
                    });
  all.resize(kept);
  return all;
}

}  // namespace ohmwright::locate
