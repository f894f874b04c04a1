#include <algorithm>
#include <iterator>
#include <utility>

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

WorkState Search::work() {
  WorkState state = work_at_arrival(appliance_);
  for (const TakenReading& reading : readings_) {
    const Measurement& done = reading.measurement;
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
           return before && !agree(*before, *seen);
         });
}

/// What need not be read again. What may be is a slip that was not borne out, what comes and goes, OL on a range that
/// nobody stated, and with `is_asked_twice` all that was read but once.
std::vector<Measurement> Search::done(bool is_asked_twice) const {
  std::vector<Measurement> done;
  for (std::size_t i = 0; i < readings_.size(); ++i) {
    const TakenReading& reading = readings_[i];
    const auto times = std::count_if(readings_.begin(), readings_.end(), [&](const TakenReading& other) {
      return other.measurement == reading.measurement;
    });
    const bool is_open = (diagnosis_.is_unexplained(i) && !was_read_twice_alike(prober_, readings_, i)) ||
                         is_of_unknown_range(reading) || disagrees(reading) || (is_asked_twice && times < 2);
    if (!is_open || times >= most_times) done.push_back(reading.measurement);
  }
  return done;
}

std::vector<Step> Search::steps_from_here(const NextStepSettings& settings, bool is_asked_twice) {
  std::vector<std::size_t> looked_at;
  for (const OutsideSign& sign : signs_.looked_at) looked_at.push_back(sign.outside_cause);
  NextStepSettings allowed = settings;
  if (!may_be_energised(appliance_, readings_, signs_, settings.insulation_is_good, prober_.meter()))
    allowed.allow_live = allowed.insulation_is_good = false;  // no step energises it
  std::vector<Step> steps = next_steps(reasoner_, diagnosis_, work(), allowed, done(is_asked_twice), looked_at);
  std::erase_if(steps, [this](const Step& step) {
    if (step.form == Step::Form::replace)
      return std::any_of(signs_.replaced.begin(), signs_.replaced.end(),
                         [&](const ReplacedSign& sign) { return sign.part == step.subject; });
    return step.form == Step::Form::measure &&
           std::find(out_of_reach_.begin(), out_of_reach_.end(), step.measurement.test_point) != out_of_reach_.end();
  });
  return steps;
}

/// OL on a range that nobody stated condemns nothing, and neither does a code that no reading bears out: without them
/// the parts have to be named, too, or at least to be likelier than not.
void Search::hold_back_what_no_reading_says() {
  constexpr double likelier_than_not = 0.5;
  std::vector<TakenReading> of_known_range;
  std::copy_if(readings_.begin(), readings_.end(), std::back_inserter(of_known_range),
               [this](const TakenReading& reading) { return !is_of_unknown_range(reading); });
  const bool has_unknown_range = of_known_range.size() < readings_.size();
  if (!has_unknown_range && signs_.codes.empty()) return;
  if (has_unknown_range) {
    const double without = probability_of(faults_, reasoner_.diagnose(of_known_range, signs_), standing_);
    if (without < settings_.steps.likely)
      standing_.lacks = Standing::Lacks::range;
    else if (without < settings_.steps.replace)
      standing_.form = Standing::Form::likely;
  }
  if (!signs_.codes.empty() && standing_.lacks == Standing::Lacks::nothing) {
    Signs without_codes = signs_;
    without_codes.codes.clear();
    const double without = probability_of(faults_, reasoner_.diagnose(readings_, without_codes), standing_);
    if (readings_.empty() || without < likelier_than_not) standing_.lacks = Standing::Lacks::reading;
  }
  diagnosis_ = reasoner_.diagnose(readings_, signs_);  // the reasoner goes on from here
  if (standing_.lacks == Standing::Lacks::nothing) return;
  standing_.form = Standing::Form::open;
  NextStepSettings to_confirm = settings_.steps;
  to_confirm.least_gain_bits = 0.0;  // what is nearly sure by what condemns nothing is to be read all the same
  steps_ = steps_from_here(to_confirm);
  std::erase_if(steps_, [](const Step& step) { return step.form != Step::Form::measure; });
  if (standing_.lacks == Standing::Lacks::range)
    ask_for_ranges();
  else
    put_what_bears_it_out_first();
}

/// A part whose state or ohms hang on a temperature is named when none that its zone may have clears it.
void Search::hold_back_what_a_temperature_explains() {
  const std::optional<std::size_t> zone = zone_that_may_clear(reasoner_, readings_, signs_, standing_, settings_.steps);
  diagnosis_ = reasoner_.diagnose(readings_, signs_);  // the reasoner goes on from here
  if (!zone) return;
  standing_.lacks = Standing::Lacks::temperature;
  standing_.lacking = *zone;
  standing_.form = Standing::Form::open;
  if (is_said(prober_.site(), *zone)) ask_again_now_that_it_is_known(*zone);
}

/// What was read as found before the zone was measured.
void Search::ask_again_now_that_it_is_known(std::size_t zone) {
  for (const TakenReading& reading : readings_) {
    const std::optional<std::size_t>& stated = reading.measurement.set_up;
    if (!stated || !after_set_up(appliance_, prober_.site(), stated).not_measured[zone]) continue;
    const Measurement again{reading.measurement.test_point, appliance_.set_ups[*stated].based_on};
    if (is_possible(appliance_, again)) ask_again(again);
  }
}

/// A part is named when it is at fault however a timer stands that a hand can turn, and nobody said how it does.
void Search::hold_back_what_a_state_explains() {
  const std::optional<std::size_t> state =
      state_that_may_clear(reasoner_, readings_, signs_, standing_, settings_.steps);
  if (!state) return;
  standing_.lacks = Standing::Lacks::state;
  standing_.lacking = *state;
  standing_.form = Standing::Form::open;
  ask_turned_away_from(prober_.site().states_not_said[*state]);
}

/// What was read of that part as found is read again, the part turned to stand otherwise.
void Search::ask_turned_away_from(const SetState& as_found) {
  const auto turned = std::find_if(appliance_.set_ups.begin(), appliance_.set_ups.end(), [&](const SetUp& set_up) {
    return !set_up.live && !set_up.only_stated && turns_away(set_up, as_found);
  });
  if (turned == appliance_.set_ups.end()) return;
  const auto set_up = static_cast<std::size_t>(turned - appliance_.set_ups.begin());
  for (const TakenReading& reading : readings_) {
    const std::size_t point = reading.measurement.test_point;
    if (!is_between_terminals_of(appliance_.test_points[point], as_found.part)) continue;
    const Measurement again{point, set_up};
    if (is_possible(appliance_, again)) ask_again(again);
  }
}

/// A k that was lost or seen where there was none makes a good part a thousand times too high or too low: it is read
/// again, its unit looked at. What was read twice, or is ten times off, may be so; but nothing is found by it alone.
void Search::doubt_what_a_slip_explains() {
  standing_.slip = slip_that_may_clear(reasoner_, readings_, signs_, standing_, settings_.steps);
  diagnosis_ = reasoner_.diagnose(readings_, signs_);  // the reasoner goes on from here
  if (!standing_.slip) return;
  const UnitSlip& slip = *standing_.slip;
  const bool is_of_a_prefix = slip.factor >= 1000.0 || slip.factor <= 0.001;
  std::vector<std::size_t> read_once;
  std::copy_if(slip.readings.begin(), slip.readings.end(), std::back_inserter(read_once),
               [this](std::size_t reading) { return !was_read_twice_alike(prober_, readings_, reading); });
  if (!is_of_a_prefix || read_once.empty()) {
    if (standing_.form == Standing::Form::settled) standing_.form = Standing::Form::likely;
    return;
  }
  standing_.lacks = Standing::Lacks::unit;
  standing_.form = Standing::Form::open;
  for (const std::size_t reading : read_once) ask_again(readings_[reading].measurement);
}

/// The part between whose own terminals, a lead off, something was read twice alike that nothing modelled explains.
std::optional<std::size_t> Search::part_read_alone_unexplained() const {
  for (std::size_t i = 0; i < readings_.size(); ++i) {
    const TestPoint& point = appliance_.test_points[readings_[i].measurement.test_point];
    if (!diagnosis_.is_unexplained(i) || !was_read_twice_alike(prober_, readings_, i)) continue;
    const std::optional<std::size_t> part = part_alone_at(point);
    if (part) return part;
  }
  return std::nullopt;
}

/// No part is named in place of one that was read alone and is beyond all that is known of it: ohms of its own would be
/// looked for elsewhere.
void Search::hold_back_beside_what_nothing_explains() {
  const std::optional<std::size_t> part = part_read_alone_unexplained();
  if (!part || std::find(standing_.parts.begin(), standing_.parts.end(), *part) != standing_.parts.end()) return;
  standing_.lacks = Standing::Lacks::judgement;
  standing_.lacking = *part;
  standing_.form = Standing::Form::open;
}

/// Nothing is found as long as a broken test lead would have shown all of it.
void Search::doubt_leads_that_only_show_open() {
  constexpr std::size_t suspicious = 3;  // test points (assumed, no source)
  if (standing_.form == Standing::Form::settled && points_that_all_show_open(prober_, readings_) >= suspicious)
    standing_.form = Standing::Form::likely;
}

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

/// After a shock, a trip or a smell the insulation is read before all else; once a leak was read, nothing is but where
/// it is.
void Search::put_insulation_first() {
  const bool has_leak = any_tells_of_leak(appliance_, readings_, prober_.meter());
  const bool is_called_for =
      speaks_of_leak_or_burning(signs_) &&
      !may_be_energised(appliance_, readings_, signs_, settings_.steps.insulation_is_good, prober_.meter());
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

/// Before all else what showed OL is read again, on a range that is known.
void Search::ask_for_ranges() {
  for (const TakenReading& reading : readings_)
    if (is_of_unknown_range(reading)) ask_again(reading.measurement);
}

/// Puts that measurement before all others.
void Search::ask_again(const Measurement& measurement) {
  std::erase_if(steps_, [&](const Step& step) { return step.measurement == measurement; });
  Step again;
  again.measurement = measurement;
  again.minutes = minutes_of(appliance_, settings_.steps.times, work(), measurement);
  again.minutes_to_go = again.minutes;
  steps_.insert(steps_.begin(), again);
}

void Search::think() {
  diagnosis_ = reasoner_.diagnose(readings_, signs_);
  steps_ = steps_from_here(settings_.steps);
  standing_ = locate::standing(faults_, diagnosis_, settings_.steps, steps_);
  if (standing_.form == Standing::Form::no_more_steps) {
    // What is believed may hang on one reading: a slip is rarely made twice.
    steps_ = steps_from_here(settings_.steps, true);
    if (!steps_.empty()) standing_.form = Standing::Form::open;
  }
  if (standing_.is_named()) hold_back_beside_what_nothing_explains();
  if (standing_.is_named()) hold_back_what_no_reading_says();
  if (standing_.is_named()) hold_back_what_a_temperature_explains();
  if (standing_.is_named()) hold_back_what_a_state_explains();
  if (standing_.is_named()) doubt_what_a_slip_explains();
  doubt_leads_that_only_show_open();
  const bool goes_on = standing_.form == Standing::Form::open || standing_.form == Standing::Form::likely ||
                       standing_.form == Standing::Form::no_more_steps;
  if (!goes_on) return;
  // What would settle a part that a code names comes before what tells of the others. (Of a part that readings name it
  // would cost minutes: what tells most a minute ends the search sooner.)
  if (!signs_.codes.empty() && standing_.probability >= nearly_likely && standing_.lacks == Standing::Lacks::nothing)
    put_what_bears_it_out_first();
  put_dead_before_live();
  put_insulation_first();
  if (standing_.form == Standing::Form::no_more_steps && !steps_.empty()) standing_.form = Standing::Form::open;
}

}  // namespace ohmwright::locate
