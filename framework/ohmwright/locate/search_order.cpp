// Which of the steps left comes first, whatever it tells a minute.

#include <algorithm>
#include <vector>

#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/search.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

/// First the quickest of the readings that tell the parts named from good ones.
void Search::put_what_bears_it_out_first() {
  const std::span<const Candidate> candidates = faults_.candidates();
  const auto sound = std::find_if(candidates.begin(), candidates.end(),
                                  [](const Candidate& candidate) { return candidate.nothing_wrong(); });
  if (sound == candidates.end()) return;
  const std::size_t good = reasoner_.first_instance(static_cast<std::size_t>(sound - candidates.begin()));
  const std::size_t at_fault =
      reasoner_.first_instance(likeliest_candidate(faults_, diagnosis_, standing_.parts, standing_.outside_cause));
  const auto others = std::stable_partition(steps_.begin(), steps_.end(), [&](const Step& step) {
    return step.form == Step::Form::measure &&
           !look_alike(reasoner_.predicted(at_fault, step.measurement), reasoner_.predicted(good, step.measurement));
  });
  std::stable_sort(steps_.begin(), others, [](const Step& a, const Step& b) { return a.minutes < b.minutes; });
}

/// How often the part was read across its own terminals, a lead off, at one place and alike.
std::size_t Search::times_read_alone_alike(std::size_t part) const {
  std::size_t times = 0;
  for (std::size_t i = 0; i < readings_.size(); ++i) {
    if (part_alone_at(appliance_.test_points[readings_[i].measurement.test_point]) != part) continue;
    times = std::max<std::size_t>(times, was_read_twice_alike(prober_, readings_, i) ? 2 : 1);
  }
  return times;
}

/// What is said of a part that is likely at fault, and what is to be done next, are one: it is read alone, and what was
/// read of it alone is read once more. Where nothing that it shows alone tells, the other steps stay.
void Search::put_the_part_named_first() {
  const std::span<const Candidate> candidates = faults_.candidates();
  const auto sound = std::find_if(candidates.begin(), candidates.end(),
                                  [](const Candidate& candidate) { return candidate.nothing_wrong(); });
  if (sound == candidates.end()) return;
  const std::size_t good = reasoner_.first_instance(static_cast<std::size_t>(sound - candidates.begin()));
  const std::size_t at_fault =
      reasoner_.first_instance(likeliest_candidate(faults_, diagnosis_, standing_.parts, standing_.outside_cause));
  std::optional<Step> first;
  for (const std::size_t part : standing_.parts) {
    if (times_read_alone_alike(part) > 1) continue;
    NextStepSettings all = settings_.steps;
    all.allow_live = false;
    all.least_gain_bits = 1e-6;
    for (const Step& step : steps_from_here(all, 2)) {
      if (step.form != Step::Form::measure || is_live(appliance_, step.measurement)) continue;
      if (part_alone_at(appliance_.test_points[step.measurement.test_point]) != part) continue;
      if (look_alike(reasoner_.predicted(at_fault, step.measurement), reasoner_.predicted(good, step.measurement)))
        continue;
      if (!first || step.minutes < first->minutes) first = step;
    }
  }
  if (!first) return;
  std::erase_if(steps_, [&](const Step& step) {
    return step.form == Step::Form::measure && step.measurement == first->measurement;
  });
  steps_.insert(steps_.begin(), *first);
}

/// After a shock, a trip or a smell the insulation is read before all else; once a leak was read, nothing is but where
/// it is.
void Search::put_insulation_first() {
  const bool has_leak = any_tells_of_leak(appliance_, readings_, prober_.meter());
  const bool is_called_for = speaks_of_leak_or_burning(signs_) && !may_be_energised(settings_.steps.insulation_is_good);
  if (!has_leak && !is_called_for) return;
  const auto is_of_insulation = [this](const Step& step) {
    return step.form == Step::Form::measure && is_to_earth(appliance_, step.measurement);
  };
  if (std::none_of(steps_.begin(), steps_.end(), is_of_insulation)) {
    NextStepSettings all = settings_.steps;
    all.least_gain_bits = 0.0;
    std::vector<Step> steps = steps_from_here(all);
    std::erase_if(steps,
                  [&](const Step& step) { return !is_of_insulation(step) || (has_leak && !(step.gain_bits > 0.0)); });
    steps_.insert(steps_.begin(), steps.begin(), steps.end());
  }
  const auto others = std::stable_partition(steps_.begin(), steps_.end(), is_of_insulation);
  if (has_leak && others != steps_.begin()) steps_.erase(others, steps_.end());
}

/// A live step waits for one that tells as much without power.
void Search::put_dead_before_live() {
  const auto is_live_step = [this](const Step& step) {
    return step.form == Step::Form::measure && is_live(appliance_, step.measurement);
  };
  if (steps_.empty() || !is_live_step(steps_.front())) return;
  constexpr double longer_at_most = 1.2;  // what nobody minds for a step without power
  const Step live = steps_.front();
  const auto dead = std::find_if(steps_.begin(), steps_.end(), [&](const Step& step) {
    return step.form == Step::Form::measure && !is_live_step(step) && step.gain_bits >= live.gain_bits &&
           step.minutes <= longer_at_most * live.minutes;
  });
  if (dead != steps_.end()) std::rotate(steps_.begin(), dead, dead + 1);
}

/// Nothing is energised before something was read to the protective earth, where there is a place for that: the
/// quickest such reading comes before the first live step, whatever it tells.
void Search::put_earth_before_live() {
  const auto first_live = std::find_if(steps_.begin(), steps_.end(), [this](const Step& step) {
    return step.form == Step::Form::measure && is_live(appliance_, step.measurement);
  });
  constexpr std::ptrdiff_t offered = 4;  // the next step, and what may be done instead
  const bool is_offered = first_live != steps_.end() && first_live - steps_.begin() < offered;
  const bool was_read = std::any_of(readings_.begin(), readings_.end(), [this](const TakenReading& reading) {
    return is_to_earth(appliance_, reading.measurement);
  });
  if (settings_.steps.insulation_is_good || was_read || !is_offered) return;
  NextStepSettings all = settings_.steps;
  all.allow_live = false;
  all.least_gain_bits = 0.0;
  std::vector<Step> steps = steps_from_here(all);
  std::erase_if(steps, [this](const Step& step) {
    return step.form != Step::Form::measure || !is_to_earth(appliance_, step.measurement);
  });
  const auto quickest =
      std::min_element(steps.begin(), steps.end(), [](const Step& a, const Step& b) { return a.minutes < b.minutes; });
  if (quickest == steps.end()) return;
  const Step earth = *quickest;
  const auto before = static_cast<std::size_t>(first_live - steps_.begin());
  const auto same = std::find_if(steps_.begin(), steps_.end(), [&](const Step& step) {
    return step.form == Step::Form::measure && step.measurement == earth.measurement;
  });
  if (same < first_live) return;
  if (same != steps_.end()) steps_.erase(same);
  steps_.insert(steps_.begin() + static_cast<std::ptrdiff_t>(before), earth);
}

/// Before all else what showed OL is read again, on a range that is known.
void Search::ask_for_ranges() {
  for (const TakenReading& reading : readings_)
    if (is_of_unknown_range(reading)) ask_again(reading.measurement);
}

/// Puts that measurement before all others.
void Search::ask_again(const Measurement& measurement) {
  std::erase_if(steps_,
                [&](const Step& step) { return step.form == Step::Form::measure && step.measurement == measurement; });
  Step again;
  again.measurement = measurement;
  again.minutes = minutes_of(appliance_, settings_.steps.times, work(), measurement);
  again.minutes_to_go = again.minutes;
  steps_.insert(steps_.begin(), again);
}

}  // namespace ohmwright::locate
