// What keeps a search from naming a part that is likely at fault: ways in which a good one shows the same.

#include <algorithm>
#include <iterator>
#include <variant>
#include <vector>

#include <ohmwright/component/role.hpp>
#include <ohmwright/locate/innocent_ways.hpp>
#include <ohmwright/locate/search.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

/// Parts that are sure are found once each was read alone, twice alike: what more may be wrong beside them is said.
void Search::settle_what_was_read_alone_twice() {
  if (standing_.form != Standing::Form::likely || standing_.probability < settings_.steps.replace) return;
  const bool were_all =
      !standing_.parts.empty() && std::all_of(standing_.parts.begin(), standing_.parts.end(),
                                              [this](std::size_t part) { return times_read_alone_alike(part) > 1; });
  if (were_all) standing_.form = Standing::Form::settled;
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
    const double without = probability_of(faults_, reasoner_.suppose(of_known_range, signs_), standing_);
    if (without < settings_.steps.likely)
      standing_.lacks = Standing::Lacks::range;
    else if (without < settings_.steps.replace)
      standing_.form = Standing::Form::likely;
  }
  if (!signs_.codes.empty() && standing_.lacks == Standing::Lacks::nothing) {
    Signs without_codes = signs_;
    without_codes.codes.clear();
    const double without = probability_of(faults_, reasoner_.suppose(readings_, without_codes), standing_);
    if (readings_.empty() || without < likelier_than_not) standing_.lacks = Standing::Lacks::reading;
  }
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

/// What was read of that part as found, and what hangs on how it stands, is read again, the part turned to stand
/// otherwise.
void Search::ask_turned_away_from(const SetState& as_found) {
  const auto turned = std::find_if(appliance_.set_ups.begin(), appliance_.set_ups.end(), [&](const SetUp& set_up) {
    return !set_up.live && !set_up.only_stated && turns_away(set_up, as_found);
  });
  if (turned == appliance_.set_ups.end()) return;
  const auto set_up = static_cast<std::size_t>(turned - appliance_.set_ups.begin());
  for (const TakenReading& reading : readings_) {
    const std::size_t point = reading.measurement.test_point;
    const Measurement again{point, set_up};
    if (!is_possible(appliance_, again)) continue;
    const bool hangs_on_it = !reading.measurement.set_up && !reasoner_.says_the_same(point, set_up);
    if (hangs_on_it || is_between_terminals_of(appliance_.test_points[point], as_found.part)) ask_again(again);
  }
}

/// A k that was lost or seen where there was none makes a good part a thousand times too high or too low: it is read
/// again, its unit looked at. What was read twice, or is ten times off, may be so; but nothing is found by it alone.
void Search::doubt_what_a_slip_explains() {
  standing_.slip = slip_that_may_clear(reasoner_, readings_, signs_, standing_, settings_.steps);
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

/// Nothing is found by what a good motor shows that ran a moment ago.
void Search::doubt_what_own_heat_explains() {
  standing_.warm_part = part_that_may_be_warm(reasoner_, readings_, signs_, standing_, settings_.steps);
  if (!standing_.warm_part) return;
  if (standing_.form == Standing::Form::settled) standing_.form = Standing::Form::likely;
  ask_again_once_it_has_cooled(*standing_.warm_part);
}

/// What was read last of it as found, of the part alone if it was.
void Search::ask_again_once_it_has_cooled(std::size_t part) {
  const auto cooled = std::find_if(appliance_.set_ups.begin(), appliance_.set_ups.end(),
                                   [](const SetUp& set_up) { return set_up.cools_down; });
  if (cooled == appliance_.set_ups.end()) return;
  std::optional<std::size_t> again;
  for (const TakenReading& reading : readings_) {
    const TestPoint& point = appliance_.test_points[reading.measurement.test_point];
    if (point.probe != Probe::ohms || !std::holds_alternative<StatedValue>(reading.observed)) continue;
    const bool is_of_it_alone = part_alone_at(point) == part;
    if (!again || is_of_it_alone || part_alone_at(appliance_.test_points[*again]) != part)
      again = reading.measurement.test_point;
  }
  if (again) ask_again({*again, static_cast<std::size_t>(cooled - appliance_.set_ups.begin())});
}

/// Nothing is found by the ohms of a heater while nobody read for how many volts it is made: one of another supply has
/// four times as many, or a quarter. OL is of no supply.
void Search::doubt_what_assumed_volts_explain() {
  if (!appliance_.supply.is_assumed) return;
  const bool is_of_volts = std::any_of(standing_.parts.begin(), standing_.parts.end(), [this](std::size_t part) {
    const auto& roles = appliance_.parts[part].kind->descriptor().roles;
    return std::any_of(roles.begin(), roles.end(), [](std::string_view role) { return role.starts_with(role::heats); });
  });
  if (!is_of_volts) return;
  std::vector<TakenReading> without_values;
  std::copy_if(readings_.begin(), readings_.end(), std::back_inserter(without_values),
               [](const TakenReading& reading) { return !std::holds_alternative<StatedValue>(reading.observed); });
  const double without = probability_of(faults_, reasoner_.suppose(without_values, signs_), standing_);
  if (without >= settings_.steps.likely) return;
  standing_.hangs_on_assumed_volts = true;
  if (standing_.form == Standing::Form::settled) standing_.form = Standing::Form::likely;
}

/// Whether what was read is what a good part of that class shows, and nobody would name the same parts with it.
bool Search::is_explained_by(const OtherClass& other, std::size_t part) const {
  Appliance with_other = appliance_;
  with_other.parts[part].part = other.part;
  PriorSettings of_one_fault = settings_.priors;
  of_one_fault.most_faults = 1;  // good ones are compared, which costs less so
  const auto is_fitting = [&] {
    const FaultList few(appliance_, of_one_fault, settings_.weights, settings_.repaired);
    const FaultList few_of_other(with_other, of_one_fault, settings_.weights, settings_.repaired);
    Prober stated(few, prober_.site(), prober_.meter(), prober_.model());
    Prober fitted(few_of_other, prober_.site(), prober_.meter(), prober_.model());
    Reasoner as_stated(stated, reasoner_.sign_model());
    Reasoner as_fitted(fitted, reasoner_.sign_model());
    return fits_the_other(as_stated, as_fitted, readings_);
  };
  if (!is_fitting()) return false;
  const FaultList faults(with_other, settings_.priors, settings_.weights, settings_.repaired);
  Prober prober(faults, prober_.site(), prober_.meter(), prober_.model());
  Reasoner reasoner(prober, reasoner_.sign_model());
  return probability_of(faults, reasoner.diagnose(readings_, signs_), standing_) < settings_.steps.likely;
}

/// Nothing is found by what a good part shows of another class that is known: the file may be mixed up, or the part
/// that somebody fitted the wrong one.
void Search::doubt_what_another_class_explains() {
  if (!settings_.other_classes || readings_.empty()) return;
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part)
    for (const OtherClass& other : settings_.other_classes(appliance_.parts[part])) {
      if (!is_explained_by(other, part)) continue;
      standing_.fits = FittingClass{part, other.title};
      if (standing_.form == Standing::Form::settled) standing_.form = Standing::Form::likely;
      return;
    }
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

}  // namespace ohmwright::locate
