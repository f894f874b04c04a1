#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include <ohmwright/locate/information.hpp>
#include <ohmwright/locate/next_step.hpp>

namespace ohmwright::locate {

namespace {

/// A hypothesis below this probability moves no expectation that a step is chosen by.
constexpr double too_unlikely = 1e-5;

/// The likeliest instances as hypotheses, each with the class of its answer.
struct Hypotheses {
  std::vector<std::size_t> instances;
  std::vector<double> probabilities;
  std::vector<std::size_t> class_of;
  /// By class: the classes in which all of its parts are at fault, itself among them.
  std::vector<std::vector<std::size_t>> taken_in_by;
  double entropy = 0.0;
};

/// Whether all that is at fault in `other` is in `key`, too; "nothing is wrong" is in nothing but itself.
bool takes_in(const AnswerKey& key, const AnswerKey& other) {
  if (other.first.empty() && other.second == 0) return key == other;
  return (other.second == 0 || key.second == other.second) &&
         std::includes(key.first.begin(), key.first.end(), other.first.begin(), other.first.end());
}

Hypotheses hypotheses_of(const Reasoner& reasoner, std::size_t most) {
  Hypotheses all;
  std::map<AnswerKey, std::size_t> classes;
  for (const Reasoner::Weighed& weighed : reasoner.likeliest(most)) {
    if (weighed.probability < too_unlikely) break;
    all.instances.push_back(weighed.instance);
    all.probabilities.push_back(weighed.probability);
    const AnswerKey key = reasoner.faults().answer_of(*reasoner.instance(weighed.instance).candidate);
    all.class_of.push_back(classes.try_emplace(key, classes.size()).first->second);
  }
  all.taken_in_by.resize(classes.size());
  for (const auto& [key, index] : classes)
    for (const auto& [other, other_index] : classes)
      if (takes_in(other, key)) all.taken_in_by[index].push_back(other_index);
  normalise(all.probabilities);
  all.entropy = entropy_in_bits(class_probabilities(all.probabilities, all.class_of));
  return all;
}

/// A reading that may be shown, with the probability that it is meant so.
struct PossibleReading {
  PredictedOutcome::Form form = PredictedOutcome::Form::value;
  SeenReading seen;
  double probability = 0.0;
};

/// What the hypotheses predict of a measurement: many of them the same.
struct Predictions {
  std::vector<const std::vector<PredictedOutcome>*> different;
  std::vector<double> probabilities;  ///< by different prediction
  std::vector<std::size_t> of;        ///< by hypothesis
};

Predictions predictions_of(Reasoner& reasoner, const Hypotheses& all, const Measurement& measurement) {
  Predictions predictions;
  Reasoner::Predicted of_measurement = reasoner.predicted(measurement);
  for (std::size_t h = 0; h < all.instances.size(); ++h) {
    const std::vector<PredictedOutcome>* const predicted = &of_measurement.of(all.instances[h]);
    const auto same = std::find(predictions.different.begin(), predictions.different.end(), predicted);
    predictions.of.push_back(static_cast<std::size_t>(same - predictions.different.begin()));
    if (same == predictions.different.end()) {
      predictions.different.push_back(predicted);
      predictions.probabilities.push_back(0.0);
    }
    predictions.probabilities[predictions.of.back()] += all.probabilities[h];
  }
  return predictions;
}

/// Every reading that some hypothesis predicts; those that a meter would not tell apart are one.
std::vector<PossibleReading> possible_readings(const Predictions& predictions) {
  std::vector<PossibleReading> readings;
  for (std::size_t i = 0; i < predictions.different.size(); ++i)
    for (const PredictedOutcome& outcome : *predictions.different[i]) {
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

/// What a step is expected to leave.
struct Expected {
  double gain_bits = 0.0;       ///< fall of the entropy
  double unsettled_bits = 0.0;  ///< entropy left, that of endings in which parts are named not counted
};

/// Probability that all parts of the likeliest answer are at fault, be it with others.
double probability_named(const Hypotheses& all, std::span<const double> by_class) {
  const auto likeliest =
      static_cast<std::size_t>(std::max_element(by_class.begin(), by_class.end()) - by_class.begin());
  double sum = 0.0;
  for (const std::size_t other : all.taken_in_by[likeliest])
    if (other < by_class.size()) sum += by_class[other];
  return sum;
}

/// A misreading tells nothing and has no part in it.
Expected expected_of(Reasoner& reasoner, const Hypotheses& all, const Measurement& measurement, double named) {
  const ReadingModel& model = reasoner.prober().model();
  const Probe probe = reasoner.prober().appliance().test_points[measurement.test_point].probe;
  const Predictions predictions = predictions_of(reasoner, all, measurement);
  if (predictions.different.size() < 2) return {0.0, all.entropy};
  double left = 0.0;
  double unsettled = 0.0;
  double total = 0.0;
  std::vector<double> likelihoods(predictions.different.size());
  std::vector<double> by_class(all.taken_in_by.size());
  for (const PossibleReading& reading : possible_readings(predictions)) {
    const double misread = model.misread_share * likelihood_if_misread(reading.seen, probe, model);
    for (std::size_t i = 0; i < likelihoods.size(); ++i)
      likelihoods[i] =
          misread + (1.0 - model.misread_share) * likelihood(*predictions.different[i], reading.seen, probe, model);
    std::fill(by_class.begin(), by_class.end(), 0.0);
    for (std::size_t h = 0; h < all.probabilities.size(); ++h)
      by_class[all.class_of[h]] += all.probabilities[h] * likelihoods[predictions.of[h]];
    normalise(by_class);
    const double entropy = entropy_in_bits(by_class);
    left += reading.probability * entropy;
    if (probability_named(all, by_class) < named) unsettled += reading.probability * entropy;
    total += reading.probability;
  }
  if (!(total > 0.0)) return {0.0, all.entropy};
  return {(1.0 - model.misread_share) * (all.entropy - left / total),
          (1.0 - model.misread_share) * unsettled / total + model.misread_share * all.entropy};
}

/// The same of a yes-or-no answer: `positive` says of each hypothesis how likely it says yes.
Expected expected_of_answer(const Hypotheses& all, std::span<const double> positive, double named) {
  Expected expected{all.entropy, 0.0};
  for (const bool yes : {true, false}) {
    std::vector<double> posterior(all.instances.size());
    double seen = 0.0;
    for (std::size_t h = 0; h < posterior.size(); ++h) {
      posterior[h] = all.probabilities[h] * (yes ? positive[h] : 1.0 - positive[h]);
      seen += posterior[h];
    }
    normalise(posterior);
    const std::vector<double> by_class = class_probabilities(posterior, all.class_of);
    const double entropy = entropy_in_bits(by_class);
    expected.gain_bits -= seen * entropy;
    if (probability_named(all, by_class) < named) expected.unsettled_bits += seen * entropy;
  }
  return expected;
}

class StepFinder {
 public:
  StepFinder(Reasoner& reasoner, const WorkState& state, const NextStepSettings& settings)
      : reasoner_(reasoner),
        appliance_(reasoner.prober().appliance()),
        state_(state),
        settings_(settings),
        all_(hypotheses_of(reasoner, settings.most_instances)) {}

  void add_measurements(std::span<const Measurement> done) {
    for (std::size_t point = 0; point < appliance_.test_points.size(); ++point) add_measurements_at(point, done);
  }

  void add_looks(std::span<const std::size_t> looked_at, const Diagnosis& diagnosis) {
    const double overlooked = reasoner_.sign_model().overlooked;
    const std::vector<double> assumed = assumed_of_causes();
    for (std::size_t i = 0; i < appliance_.outside_causes.size(); ++i) {
      if (std::find(looked_at.begin(), looked_at.end(), i) != looked_at.end()) continue;
      if (diagnosis.outside_causes[i] < as_assumed * assumed[i]) spoken_against_.push_back(i);
      std::vector<double> positive;
      for (const std::size_t instance : all_.instances)
        positive.push_back(reasoner_.instance(instance).candidate->outside_cause == i ? 1.0 - overlooked : overlooked);
      add({Step::Form::look, {}, i, std::max(0.5, appliance_.outside_causes[i].minutes)},
          expected_of_answer(all_, positive, settings_.likely));
    }
  }

  /// It runs after a part was replaced when nothing else was at fault.
  void add_replacements(const Diagnosis& diagnosis) {
    constexpr double worth_thinking_of = 0.5;
    if (!settings_.insulation_is_good) return;
    for (std::size_t part = 0; part < appliance_.parts.size(); ++part) {
      if (diagnosis.parts[part] < worth_thinking_of) continue;
      std::vector<double> positive;
      for (const std::size_t instance : all_.instances) {
        const Candidate& candidate = *reasoner_.instance(instance).candidate;
        const AnswerKey key = reasoner_.faults().answer_of(candidate);
        positive.push_back(key.second == 0 && key.first == std::vector<std::size_t>{part} ? 0.99 : 0.01);
      }
      add({Step::Form::replace, {}, part, appliance_.parts[part].minutes_to_replace + settings_.times.test_run},
          expected_of_answer(all_, positive, settings_.likely));
    }
  }

  /// What is left after a step takes as long as the best steps here need for a bit.
  std::vector<Step> take() {
    double best_rate = 0.0;
    for (const Step& step : steps_) best_rate = std::max(best_rate, step.gain_per_minute());
    for (Step& step : steps_) step.minutes_to_go = step.minutes + step.unsettled_bits / best_rate;
    std::stable_sort(steps_.begin(), steps_.end(), [](const Step& a, const Step& b) {
      return a.minutes_to_go != b.minutes_to_go ? a.minutes_to_go < b.minutes_to_go : a.gain_bits > b.gain_bits;
    });
    std::stable_partition(steps_.begin(), steps_.end(), [this](const Step& step) { return !is_spoken_against(step); });
    return std::move(steps_);
  }

 private:
  static constexpr double as_assumed = 1.0 - 1e-9;

  /// Probability of each outside cause before anything was seen.
  std::vector<double> assumed_of_causes() const {
    std::vector<double> assumed(appliance_.outside_causes.size(), 0.0);
    for (const Candidate& candidate : reasoner_.faults().candidates())
      if (candidate.outside_cause) assumed[*candidate.outside_cause] += candidate.prior;
    return assumed;
  }

  /// A quick look costs little, but nobody looks first at what the evidence has made less likely than it was.
  bool is_spoken_against(const Step& step) const {
    return step.form == Step::Form::look &&
           std::find(spoken_against_.begin(), spoken_against_.end(), step.subject) != spoken_against_.end();
  }

  /// Whether a reading after that set-up says the same as one as found, whatever of the likeliest is at fault.
  bool says_the_same(std::size_t test_point, std::size_t set_up) {
    if (!is_possible(appliance_, {test_point, set_up})) return false;
    Reasoner::Predicted as_found = reasoner_.predicted({test_point, {}});
    Reasoner::Predicted after_it = reasoner_.predicted({test_point, set_up});
    return std::all_of(all_.instances.begin(), all_.instances.end(),
                       [&](std::size_t instance) { return look_alike(as_found.of(instance), after_it.of(instance)); });
  }

  /// As found, unless a set-up makes a difference to it; in the set-up at hand where that makes none.
  void add_measurements_at(std::size_t point, std::span<const Measurement> done) {
    const Measurement as_found{point, {}};
    const auto is_done = [done](const Measurement& one) {
      return std::any_of(done.begin(), done.end(), [&](const Measurement& other) {
        return other.test_point == one.test_point && other.set_up == one.set_up;
      });
    };
    bool is_read = is_done(as_found);
    WorkState state = state_;
    for (std::size_t set_up = 0; set_up < appliance_.set_ups.size(); ++set_up) {
      const Measurement after_it{point, set_up};
      if (!is_allowed(after_it)) continue;
      if (!says_the_same(point, set_up)) {
        if (!is_done(after_it)) add_measurement(after_it, state_, false);
        continue;
      }
      is_read = is_read || is_done(after_it);
      if (state_.set_up == set_up) state.set_up.reset();
    }
    if (!is_read && is_allowed(as_found)) add_measurement(as_found, state, state.set_up != state_.set_up);
  }

  bool is_allowed(const Measurement& measurement) const {
    return is_possible(appliance_, measurement) && (settings_.allow_live || !is_live(appliance_, measurement));
  }

  void add_measurement(const Measurement& measurement, const WorkState& state, bool leaves_set_up) {
    Step step{Step::Form::measure, measurement, 0, minutes_of(appliance_, settings_.times, state, measurement)};
    step.leaves_set_up = leaves_set_up;
    add(step, expected_of(reasoner_, all_, measurement, settings_.likely));
  }

  void add(Step step, const Expected& expected) {
    step.gain_bits = expected.gain_bits;
    step.unsettled_bits = expected.unsettled_bits;
    if (step.gain_bits >= settings_.least_gain_bits) steps_.push_back(step);
  }

  Reasoner& reasoner_;
  const Appliance& appliance_;
  const WorkState& state_;
  const NextStepSettings& settings_;
  Hypotheses all_;
  std::vector<std::size_t> spoken_against_;  ///< outside causes
  std::vector<Step> steps_;
};

}  // namespace

std::vector<AnswerSet> answers(const FaultList& faults, const Diagnosis& diagnosis) {
  std::map<AnswerKey, double> sums;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    sums[faults.answer_of(faults.candidates()[i])] += diagnosis.candidates[i];
  std::vector<AnswerSet> sets;
  for (const auto& [key, probability] : sums) {
    AnswerSet set{key.first, {}, probability};
    if (key.second > 0) set.outside_cause = key.second - 1;
    sets.push_back(std::move(set));
  }
  std::stable_sort(sets.begin(), sets.end(),
                   [](const AnswerSet& a, const AnswerSet& b) { return a.probability > b.probability; });
  return sets;
}

double probability_of(const FaultList& faults, const Diagnosis& diagnosis, const Standing& standing) {
  const AnswerKey named{standing.parts, standing.outside_cause ? *standing.outside_cause + 1 : 0};
  double sum = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    if (diagnosis.candidates[i] > 0.0 && takes_in(faults.answer_of(faults.candidates()[i]), named))
      sum += diagnosis.candidates[i];
  return sum;
}

std::vector<Step> next_steps(Reasoner& reasoner, const Diagnosis& diagnosis, const WorkState& state,
                             const NextStepSettings& settings, std::span<const Measurement> done,
                             std::span<const std::size_t> looked_at) {
  if (diagnosis.sealed_system) return {};
  StepFinder finder(reasoner, state, settings);
  finder.add_measurements(done);
  finder.add_looks(looked_at, diagnosis);
  finder.add_replacements(diagnosis);
  return finder.take();
}

Standing standing(const FaultList& faults, const Diagnosis& diagnosis, const NextStepSettings& settings,
                  std::span<const Step> steps) {
  const std::vector<AnswerSet> sets = answers(faults, diagnosis);
  const AnswerSet& likeliest = sets.front();
  Standing at{Standing::Form::open, likeliest.parts, likeliest.outside_cause};
  at.probability = probability_of(faults, diagnosis, at);
  const bool sealed_cause =
      likeliest.outside_cause && faults.appliance().outside_causes[*likeliest.outside_cause].sealed_system;
  if (diagnosis.sealed_system || (sealed_cause && at.probability >= settings.likely))
    at.form = Standing::Form::sealed_system;
  else if (at.probability >= settings.replace)
    at.form = Standing::Form::settled;
  else if (at.probability >= settings.likely)
    at.form = Standing::Form::likely;
  else if (steps.empty())
    at.form = Standing::Form::no_more_steps;
  return at;
}

}  // namespace ohmwright::locate
