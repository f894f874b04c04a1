#include <algorithm>
#include <cmath>
#include <numbers>
#include <numeric>
#include <unordered_map>
#include <utility>

#include <boost/container_hash/hash.hpp>

#include <ohmwright/locate/diagnosis.hpp>
#include <ohmwright/locate/information.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

/// Below this share of the likeliest, an instance is not asked what it predicts.
constexpr double negligible = 1e-12;
/// The same of readings that are only planned: there are many of those.
constexpr double negligible_in_a_plan = 1e-6;

bool reads_behind_trip(std::span<const std::vector<PredictedOutcome>* const> predictions) {
  return std::any_of(predictions.begin(), predictions.end(), [](const std::vector<PredictedOutcome>* outcomes) {
    return is_behind_tripped_breaker(*outcomes);
  });
}

}  // namespace

std::size_t likeliest_candidate(const FaultList& faults, const Diagnosis& diagnosis, std::span<const std::size_t> parts,
                                std::optional<std::size_t> outside_cause) {
  std::size_t likeliest = 0;
  double most = -1.0;
  for (std::size_t i = 0; i < faults.candidates().size(); ++i) {
    const Candidate& candidate = faults.candidates()[i];
    if (candidate.outside_cause != outside_cause || candidate.faults.size() != parts.size()) continue;
    const AnswerKey key = faults.answer_of(candidate);
    if (!std::equal(key.first.begin(), key.first.end(), parts.begin(), parts.end())) continue;
    if (diagnosis.candidates[i] > most) {
      most = diagnosis.candidates[i];
      likeliest = i;
    }
  }
  return likeliest;
}

void sum_up(const FaultList& faults, Diagnosis& diagnosis) {
  const Appliance& appliance = faults.appliance();
  const std::span<const Candidate> candidates = faults.candidates();
  diagnosis.parts.assign(appliance.parts.size(), 0.0);
  diagnosis.outside_causes.assign(appliance.outside_causes.size(), 0.0);
  for (std::size_t i = 0; i < candidates.size(); ++i) {
    const double p = diagnosis.candidates[i];
    for (const std::uint16_t fault : candidates[i].faults) diagnosis.parts[faults.faults()[fault].fault.part] += p;
    if (candidates[i].outside_cause) diagnosis.outside_causes[*candidates[i].outside_cause] += p;
    if (candidates[i].nothing_wrong()) diagnosis.nothing_wrong = p;
  }
}

Reasoner::Reasoner(Prober& prober, const SignModel& signs) : prober_(prober), sign_model_(signs) {
  const std::span<const Candidate> candidates = prober.faults().candidates();
  for (std::size_t i = 0; i < candidates.size(); ++i)
    for (Instance& instance : prober.instances(candidates[i])) {
      instances_.push_back(std::move(instance));
      candidate_of_.push_back(i);
    }
}

Reasoner::~Reasoner() = default;

Reasoner::Predicted Reasoner::predicted(const Measurement& measurement) {
  PredictionsOfAll& of_all = predictions_[place_of(measurement)];
  if (of_all.empty()) of_all.resize(instances_.size(), nullptr);
  return {*this, measurement, of_all};
}

const std::vector<PredictedOutcome>& Reasoner::predicted(std::size_t instance, const Measurement& measurement) {
  return predicted(measurement).of(instance);
}

std::size_t Reasoner::first_instance(std::size_t candidate) const {
  const auto first = std::lower_bound(candidate_of_.begin(), candidate_of_.end(), candidate);
  return static_cast<std::size_t>(first - candidate_of_.begin());
}

bool Reasoner::says_the_same(std::size_t test_point, std::size_t set_up) {
  const auto [at, is_new] = same_.try_emplace({test_point, set_up}, true);
  if (!is_new) return at->second;
  Predicted as_found = predicted({test_point, {}});
  Predicted after_it = predicted({test_point, set_up});
  for (std::size_t i = 0; i < instances_.size() && at->second; ++i)
    if (instances_[i].candidate->faults.size() < 2) at->second = look_alike(as_found.of(i), after_it.of(i));
  return at->second;
}

void Reasoner::weigh_signs(const Signs& signs) {
  last_.trip_was_told = tells_of_tripped_breaker(signs);
  last_.weights.resize(instances_.size());
  std::size_t of_candidate = candidate_of_.size();
  double likelihood = 1.0;
  for (std::size_t i = 0; i < instances_.size(); ++i) {
    if (of_candidate != candidate_of_[i]) {
      of_candidate = candidate_of_[i];
      likelihood = likelihood_of_signs(faults(), *instances_[i].candidate, signs, sign_model_);
    }
    last_.weights[i] = instances_[i].candidate->prior * instances_[i].weight * likelihood;
  }
}

/// The readings from one to another; those before only teach.
void Reasoner::weigh(std::size_t from, std::size_t to, double negligible_share, Diagnosis& diagnosis) {
  // Many instances predict the same of all readings, and are weighed once.
  struct Group {
    JointLikelihood likelihood;
    double weight = 0.0;
  };
  std::vector<Group> groups;
  std::unordered_map<std::vector<const void*>, std::size_t, boost::hash<std::vector<const void*>>> group_of;
  const std::span<const WeighedReading> before = std::span(last_.readings).first(from);
  const std::span<const WeighedReading> readings = std::span(last_.readings).subspan(from, to - from);
  std::vector<const std::vector<PredictedOutcome>*> predictions(to);
  std::vector<const void*> key(to);
  std::vector<Predicted> of_readings;
  for (const WeighedReading& reading : std::span(last_.readings).first(to))
    of_readings.push_back(predicted(reading.measurement));
  std::vector<std::pair<std::size_t, std::size_t>> weighed;  // instances, each with its group
  const double least = negligible_share * *std::max_element(last_.weights.begin(), last_.weights.end());
  for (std::size_t i = 0; i < instances_.size(); ++i) {
    if (last_.weights[i] < least) continue;
    for (std::size_t r = 0; r < to; ++r) key[r] = predictions[r] = &of_readings[r].of(i);
    const auto [at, is_new] = group_of.try_emplace(key, groups.size());
    if (is_new) {
      Learnt learnt;
      const std::span<const std::vector<PredictedOutcome>* const> of_all = predictions;
      if (from > 0) (void)likelihood_of_all(before, of_all.first(from), prober_.model(), learnt);
      groups.push_back({likelihood_of_all(readings, of_all.subspan(from), prober_.model(), learnt), 0.0});
      // Who reads volts behind a breaker that has tripped hardly fails to see it, once for all readings.
      if (!last_.trip_was_told && reads_behind_trip(of_all.subspan(from)) && !reads_behind_trip(of_all.first(from)))
        groups.back().likelihood.of_all *= sign_model_.trip_untold;
    }
    weighed.emplace_back(i, at->second);
  }
  // In one scale, that of the likeliest.
  int exponent = groups.front().likelihood.exponent;
  for (const Group& group : groups) exponent = std::max(exponent, group.likelihood.exponent);
  std::vector<double> likelihoods(instances_.size(), 0.0);
  for (const auto& [i, of_group] : weighed) {
    Group& group = groups[of_group];
    likelihoods[i] = std::ldexp(group.likelihood.of_all, group.likelihood.exponent - exponent);
    group.weight += last_.weights[i] * likelihoods[i];
  }
  const double weight_before = std::accumulate(last_.weights.begin(), last_.weights.end(), 0.0);
  const double sum = locate::weigh(last_.weights, likelihoods);
  diagnosis.log_evidence += std::log(sum / weight_before) + exponent * std::numbers::ln2;
  std::vector<double> misread(readings.size(), 0.0);
  for (const Group& group : groups)
    for (std::size_t r = 0; r < readings.size(); ++r) misread[r] += group.weight * group.likelihood.misread[r];
  for (std::size_t r = 0; r < readings.size(); ++r)
    for (const std::size_t given : readings[r].given) diagnosis.misread[given] = misread[r] / sum;
}

void Reasoner::weigh_readings(std::span<const TakenReading> readings, Diagnosis& diagnosis) {
  diagnosis.misread.assign(readings.size(), 0.0);
  last_.readings = join_repeats(prober_, readings);
  const auto planned = std::stable_partition(last_.readings.begin(), last_.readings.end(),
                                             [](const WeighedReading& reading) { return !reading.is_planned; });
  const auto taken = static_cast<std::size_t>(planned - last_.readings.begin());
  weigh(0, taken, negligible, diagnosis);
  if (taken < last_.readings.size()) weigh(taken, last_.readings.size(), negligible_in_a_plan, diagnosis);
}

std::vector<const std::vector<PredictedOutcome>*> Reasoner::predicted_of_readings(std::size_t instance) {
  std::vector<const std::vector<PredictedOutcome>*> predictions;
  for (const WeighedReading& reading : last_.readings) predictions.push_back(&predicted(instance, reading.measurement));
  return predictions;
}

Learnt Reasoner::learnt(std::size_t instance) {
  Learnt learnt;
  (void)likelihood_of_all(last_.readings, predicted_of_readings(instance), prober_.model(), learnt);
  return learnt;
}

Diagnosis Reasoner::diagnose(std::span<const TakenReading> readings, const Signs& signs) {
  Diagnosis diagnosis;
  diagnosis.sealed_system = speaks_of_sealed_system(prober_.appliance(), signs);
  weigh_signs(signs);
  weigh_readings(readings, diagnosis);
  normalise(last_.weights);
  diagnosis.candidates.assign(faults().candidates().size(), 0.0);
  for (std::size_t i = 0; i < instances_.size(); ++i) diagnosis.candidates[candidate_of_[i]] += last_.weights[i];
  sum_up(faults(), diagnosis);
  return diagnosis;
}

Diagnosis Reasoner::suppose(std::span<const TakenReading> readings, const Signs& signs) {
  class Restored {  // whatever is thrown
   public:
    explicit Restored(Weighing& last) : last_(last), before_(last) {}
    Restored(const Restored&) = delete;
    Restored& operator=(const Restored&) = delete;
    ~Restored() { last_ = std::move(before_); }

   private:
    Weighing& last_;
    Weighing before_;
  };
  const Restored restored(last_);
  return diagnose(readings, signs);
}

std::vector<Reasoner::Weighed> Reasoner::likeliest(std::size_t most) const {
  std::vector<Weighed> all;
  for (std::size_t i = 0; i < last_.weights.size(); ++i)
    if (last_.weights[i] > 0.0) all.push_back({i, last_.weights[i]});
  const std::size_t kept = std::min(most, all.size());
  std::partial_sort(all.begin(), all.begin() + static_cast<std::ptrdiff_t>(kept), all.end(),
                    [](const Weighed& a, const Weighed& b) {
                      return a.probability != b.probability ? a.probability > b.probability : a.instance < b.instance;
                    });
  all.resize(kept);
  return all;
}

}  // namespace ohmwright::locate
