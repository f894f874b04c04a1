#include <algorithm>
#include <utility>

#include <ohmwright/locate/search.hpp>

namespace ohmwright::locate {

namespace {

/// A reading that is more likely misread than meant may be taken again.
constexpr double is_misread = 0.5;
/// But no more often than this: what nothing modelled explains stays so.
constexpr std::ptrdiff_t most_times = 3;

}  // namespace

Search::Search(const Appliance& appliance, const Meter& meter, const Site& site, const SearchSettings& settings)
    : appliance_(appliance),
      settings_(settings),
      faults_(appliance, settings.priors, settings.weights, settings.repaired),
      prober_(faults_, site, meter, settings.readings),
      reasoner_(prober_, settings.signs) {}

void Search::add(TakenReading reading) { readings_.push_back(std::move(reading)); }

void Search::cannot_reach(std::size_t test_point) { out_of_reach_.push_back(test_point); }

void Search::reach_again() {
  if (!out_of_reach_.empty()) out_of_reach_.pop_back();
}

bool Search::take_back() {
  if (readings_.empty()) return false;
  readings_.pop_back();
  return true;
}

WorkState Search::work() const {
  WorkState state = work_at_arrival(appliance_);
  for (const TakenReading& reading : readings_) state = after(appliance_, std::move(state), reading.measurement);
  return state;
}

void Search::think() {
  diagnosis_ = reasoner_.diagnose(readings_, signs_);
  std::vector<Measurement> done;
  for (std::size_t i = 0; i < readings_.size(); ++i) {
    const auto times = std::count_if(readings_.begin(), readings_.end(), [&](const TakenReading& reading) {
      return reading.measurement == readings_[i].measurement;
    });
    if (diagnosis_.misread[i] < is_misread || times >= most_times) done.push_back(readings_[i].measurement);
  }
  std::vector<std::size_t> looked_at;
  for (const OutsideSign& sign : signs_.looked_at) looked_at.push_back(sign.outside_cause);
  steps_ = next_steps(reasoner_, diagnosis_, work(), settings_.steps, done, looked_at);
  std::erase_if(steps_, [this](const Step& step) {
    if (step.form == Step::Form::replace)
      return std::any_of(signs_.replaced.begin(), signs_.replaced.end(),
                         [&](const ReplacedSign& sign) { return sign.part == step.subject; });
    return step.form == Step::Form::measure &&
           std::find(out_of_reach_.begin(), out_of_reach_.end(), step.measurement.test_point) != out_of_reach_.end();
  });
  standing_ = locate::standing(faults_, diagnosis_, settings_.steps, steps_);
}

}  // namespace ohmwright::locate
