#include <algorithm>
#include <utility>
#include <variant>

#include <ohmwright/appliance/looks.hpp>
#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/innocent_ways.hpp>
#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/locate/search.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

/// A part that leads with this probability is the one to be read next, to bear it out or to clear it.
constexpr double nearly_likely = 0.9;
/// A reading is taken no more often than this: what nothing modelled explains stays so.
constexpr std::ptrdiff_t most_times = 3;

}  // namespace

Search::Search(const Appliance& appliance, const Meter& meter, const Site& site, const SearchSettings& settings)
    : appliance_(appliance),
      settings_(settings),
      faults_(appliance, settings.priors, settings.weights, settings.repaired),
      prober_(faults_, site, meter, settings.readings),
      reasoner_(prober_, settings.signs),
      leaks_(faults_that_leak(faults_, site)) {}

void Search::add(TakenReading reading) {
  if (has_cooled(reading))
    for (Taken& before : taken_)
      if (!before.other && is_of_a_warm_one(before.reading, reading)) before.other = taken_.size();
  taken_.push_back({std::move(reading), std::nullopt});
  keep_those_that_stand();
}

void Search::keep_those_that_stand() {
  readings_.clear();
  for (const Taken& one : taken_)
    if (!one.other) readings_.push_back(one.reading);
}

/// Whether ohms were read as found where another value was read once all had cooled.
bool Search::is_of_a_warm_one(const TakenReading& as_found, const TakenReading& cooled) const {
  const std::optional<std::size_t>& set_up = as_found.measurement.set_up;
  const bool is_as_found =
      !set_up || (appliance_.set_ups[*set_up].only_stated && !appliance_.set_ups[*set_up].based_on);
  const bool is_same_point = as_found.measurement.test_point == cooled.measurement.test_point;
  if (!is_as_found || !is_same_point || !std::holds_alternative<StatedValue>(as_found.observed)) return false;
  const Probe probe = appliance_.test_points[cooled.measurement.test_point].probe;
  const std::optional<SeenReading> before = seen_reading(as_found, probe, prober_.meter());
  const std::optional<SeenReading> since = seen_reading(cooled, probe, prober_.meter());
  return before && since && !agree(*before, *since);
}

bool Search::has_cooled(const TakenReading& reading) const {
  const std::optional<std::size_t>& set_up = reading.measurement.set_up;
  return set_up && appliance_.set_ups[*set_up].cools_down;
}

void Search::cannot_reach(std::size_t test_point) { out_of_reach_.push_back(test_point); }

void Search::reach_again() {
  if (!out_of_reach_.empty()) out_of_reach_.pop_back();
}

bool Search::take_back() {
  if (taken_.empty()) return false;
  taken_.pop_back();
  for (Taken& before : taken_)
    if (before.other == taken_.size()) before.other.reset();
  keep_those_that_stand();
  return true;
}

void Search::take_over(const Search& other) {
  taken_ = other.taken_;
  readings_ = other.readings_;
  out_of_reach_ = other.out_of_reach_;
  signs_ = other.signs_;
}

WorkState Search::work() {
  WorkState state = work_at_arrival(appliance_);
  for (std::size_t i = first_since_closed_; i < readings_.size(); ++i) {
    const Measurement& done = readings_[i].measurement;
    const std::optional<std::size_t> before = state.set_up;
    state = after(appliance_, std::move(state), done);
    const bool stays = before && !done.set_up && is_possible(appliance_, {done.test_point, before}) &&
                       reasoner_.says_the_same(done.test_point, *before);
    if (stays) state.set_up = before;  // nobody ended it for a reading that it makes no difference to
  }
  return state;
}

bool Search::is_of_unknown_range(const TakenReading& reading) const {
  const Probe probe = appliance_.test_points[reading.measurement.test_point].probe;
  return locate::is_of_unknown_range(reading, probe, prober_.meter());
}

bool Search::disagrees(const TakenReading& reading) const {
  const Probe probe = appliance_.test_points[reading.measurement.test_point].probe;
  const std::optional<SeenReading> seen = seen_reading(reading, probe, prober_.meter());
  return seen && std::any_of(readings_.begin(), readings_.end(), [&](const TakenReading& other) {
           if (!(other.measurement == reading.measurement)) return false;
           const std::optional<SeenReading> before = seen_reading(other, probe, prober_.meter());
           return before && !may_agree(*before, *seen);
         });
}

/// What need not be read again. What may be is a slip that was not borne out, what comes and goes, OL on a range that
/// nobody stated, and all that was read less than `asked_times`.
std::vector<Measurement> Search::done(std::ptrdiff_t asked_times) const {
  std::vector<Measurement> done;
  for (std::size_t i = 0; i < readings_.size(); ++i) {
    const TakenReading& reading = readings_[i];
    const auto times = std::count_if(readings_.begin(), readings_.end(), [&](const TakenReading& other) {
      return other.measurement == reading.measurement;
    });
    const bool is_open = (diagnosis_.is_unexplained(i) && !was_read_twice_alike(prober_, readings_, i)) ||
                         is_of_unknown_range(reading) || disagrees(reading) || times < asked_times;
    if (!is_open || times >= most_times) done.push_back(reading.measurement);
  }
  return done;
}

bool Search::may_be_energised(bool insulation_is_good) const {
  return locate::may_be_energised(appliance_, readings_, signs_,
                                  {insulation_is_good, probability_of_leak(faults_, leaks_, diagnosis_)},
                                  prober_.meter());
}

std::vector<Step> Search::steps_from_here(const NextStepSettings& settings, std::ptrdiff_t asked_times) {
  std::vector<std::size_t> looked_at;
  for (const LookSign& sign : signs_.looked_at) looked_at.push_back(sign.look);
  NextStepSettings allowed = settings;
  const bool may_run = may_be_energised(settings.insulation_is_good);
  if (!may_run) allowed.allow_live = allowed.insulation_is_good = false;  // no step energises it
  std::vector<Step> steps = next_steps(reasoner_, diagnosis_, work(), allowed, done(asked_times), looked_at);
  std::erase_if(steps, [&](const Step& step) {
    if (step.form == Step::Form::look) return !may_run && runs_for_look(appliance_, step.subject);
    if (step.form == Step::Form::replace)
      return std::any_of(signs_.replaced.begin(), signs_.replaced.end(),
                         [&](const ReplacedSign& sign) { return sign.part == step.subject; });
    return step.form == Step::Form::measure &&
           std::find(out_of_reach_.begin(), out_of_reach_.end(), step.measurement.test_point) != out_of_reach_.end();
  });
  return steps;
}

/// What is believed may hang on one reading: a slip is rarely made twice, more rarely three times, and hardly after a
/// set-up that makes no difference to what is read.
std::vector<Step> Search::steps_that_repeat() {
  for (std::ptrdiff_t times = 2; times <= most_times; ++times)
    if (std::vector<Step> steps = steps_from_here(settings_.steps, times); !steps.empty()) return steps;
  NextStepSettings all = settings_.steps;
  all.set_ups_that_change_nothing = true;
  return steps_from_here(all);
}

void Search::think() {
  diagnosis_ = reasoner_.diagnose(readings_, signs_);
  steps_ = steps_from_here(settings_.steps);
  standing_ = locate::standing(faults_, diagnosis_, settings_.steps, steps_);
  if (standing_.form == Standing::Form::no_more_steps) {
    steps_ = steps_that_repeat();
    if (!steps_.empty()) standing_.form = Standing::Form::open;
  }
  settle_what_was_read_alone_twice();
  if (standing_.is_named()) hold_back_beside_what_nothing_explains();
  if (standing_.is_named()) hold_back_what_no_reading_says();
  if (standing_.is_named()) hold_back_what_a_temperature_explains();
  if (standing_.is_named()) hold_back_what_a_state_explains();
  if (standing_.is_named()) doubt_what_a_slip_explains();
  if (standing_.is_named()) doubt_what_own_heat_explains();
  if (standing_.is_named()) doubt_what_assumed_volts_explain();
  if (standing_.is_named()) doubt_what_another_class_explains();
  doubt_leads_that_only_show_open();
  const bool goes_on = standing_.form == Standing::Form::open || standing_.form == Standing::Form::likely ||
                       standing_.form == Standing::Form::no_more_steps;
  if (!goes_on) return;
  // What would settle a part that a code names comes before what tells of the others. (Of a part that readings name it
  // would cost minutes: what tells most a minute ends the search sooner.)
  if (!signs_.codes.empty() && standing_.probability >= nearly_likely && standing_.lacks == Standing::Lacks::nothing)
    put_what_bears_it_out_first();
  if (standing_.form == Standing::Form::likely && !standing_.warm_part && !standing_.slip) put_the_part_named_first();
  put_dead_before_live();
  put_earth_before_live();
  put_insulation_first();
  if (standing_.form == Standing::Form::no_more_steps && !steps_.empty()) standing_.form = Standing::Form::open;
}

}  // namespace ohmwright::locate
