#include <algorithm>
#include <numeric>
#include <utility>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/locate/expected_reading.hpp>
#include <ohmwright/locate/next_step.hpp>

namespace ohmwright::locate {

namespace {

/// What a yes-or-no answer is expected to leave; `positive` says of each hypothesis how likely it says yes.
Expected expected_of_answer(const Hypotheses& all, std::vector<double> positive, double named) {
  std::vector<std::size_t> each_its_own(positive.size());
  std::iota(each_its_own.begin(), each_its_own.end(), std::size_t{0});
  Expectation expectation(all, each_its_own, named);
  expectation.add(positive);
  for (double& share : positive) share = 1.0 - share;
  expectation.add(positive);
  return expectation.expected();
}

class StepFinder {
 public:
  StepFinder(Reasoner& reasoner, const WorkState& state, const NextStepSettings& settings)
      : reasoner_(reasoner),
        appliance_(reasoner.prober().appliance()),
        state_(state),
        settings_(settings),
        likely_(likely_instances(reasoner, settings.most_instances)) {}

  void add_measurements(std::span<const Measurement> done) {
    for (std::size_t point = 0; point < appliance_.test_points.size(); ++point) add_measurements_at(point, done);
  }

  void add_looks(std::span<const std::size_t> looked_at, const Diagnosis& diagnosis) {
    const FaultList& faults = reasoner_.faults();
    for (std::size_t i = 0; i < number_of_looks(appliance_); ++i) {
      if (std::find(looked_at.begin(), looked_at.end(), i) != looked_at.end()) continue;
      if (probability_of_look(faults, diagnosis, i) < as_assumed * assumed_of_look(i)) spoken_against_.push_back(i);
      std::vector<double> positive;
      for (const std::size_t instance : likely_.instances)
        positive.push_back(
            reasoner_.sign_model().found_if(is_seen_by_look(faults, *reasoner_.instance(instance).candidate, i)));
      add({Step::Form::look, {}, i, std::max(0.5, look_minutes(appliance_, i))},
          expected_of_answer(likely_.hypotheses, std::move(positive), settings_.likely));
    }
  }

  /// It runs after a part was replaced when nothing else was at fault.
  void add_replacements(const Diagnosis& diagnosis) {
    constexpr double worth_thinking_of = 0.5;
    if (!settings_.insulation_is_good) return;
    for (std::size_t part = 0; part < appliance_.parts.size(); ++part) {
      if (diagnosis.parts[part] < worth_thinking_of) continue;
      std::vector<double> positive;
      for (const std::size_t instance : likely_.instances) {
        const Candidate& candidate = *reasoner_.instance(instance).candidate;
        const AnswerKey key = reasoner_.faults().answer_of(candidate);
        positive.push_back(key.second == 0 && key.first == std::vector<std::size_t>{part} ? 0.99 : 0.01);
      }
      add({Step::Form::replace, {}, part, appliance_.parts[part].minutes_to_replace + settings_.times.test_run},
          expected_of_answer(likely_.hypotheses, std::move(positive), settings_.likely));
    }
  }

  /// What is left after a step takes as long as the best steps here need for a bit; where all of them tell little, it
  /// is not for one of them to fetch, and the quick ones come first.
  std::vector<Step> take() {
    constexpr double slowest = 0.1;  // bits a minute (assumed, no source)
    double best_rate = slowest;
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

  /// Probability of what a look is at before anything was seen.
  double assumed_of_look(std::size_t look) const {
    double assumed = 0.0;
    for (const Candidate& candidate : reasoner_.faults().candidates())
      if (is_seen_by_look(reasoner_.faults(), candidate, look)) assumed += candidate.prior;
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
    return std::all_of(likely_.instances.begin(), likely_.instances.end(),
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
      if (settings_.set_ups_that_change_nothing && !is_done(after_it)) add_measurement(after_it, state_, false);
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
    add(step, expected_of(reasoner_, likely_, measurement, settings_.likely));
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
  LikelyInstances likely_;
  std::vector<std::size_t> spoken_against_;  ///< looks
  std::vector<Step> steps_;
};

}  // namespace

double probability_of_look(const FaultList& faults, const Diagnosis& diagnosis, std::size_t look) {
  if (const auto cause = outside_cause_of_look(faults.appliance(), look)) return diagnosis.outside_causes[*cause];
  double probability = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    if (is_seen_by_look(faults, faults.candidates()[i], look)) probability += diagnosis.candidates[i];
  return probability;
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

}  // namespace ohmwright::locate
