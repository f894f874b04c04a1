#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include <ohmwright/circuit/loop_refusal.hpp>
#include <ohmwright/locate/probed_scene.hpp>

namespace ohmwright::locate {

namespace {

/// Input resistances of a voltmeter as it is, and in its low-impedance mode [ohm] (common practice, no source).
constexpr double input_ohm = 10e6;
constexpr double low_input_ohm = 10e3;
/// A conductor hangs in the air when it is behind more than this: no coil or winding has as much, and what stray
/// capacitance there is between metres of wire has ten times as much at the line's frequency (assumed, no source).
constexpr double hangs_behind_ohm = 0.5e6;
/// Past this current a breaker trips before anybody reads [A] (common practice, no source).
constexpr double breaker_amperes = 60.0;
/// Below this share of the supply nobody takes it for a voltage.
constexpr double ghost_share = 0.05;
/// What a probe on bare metal adds [ohm], half-width of a rectangle (common practice, no source).
constexpr double probe_contact_ohm = 0.1;
/// Combinations of wavering contacts below this probability are left out.
constexpr double least_weight = 1e-3;

/// The choice at a place of the range: their weights, laid end to end, reach from 0 to 1.
const ElementChoice& choice_at(const PlacedElement& element, double place) {
  double below = 0.0;
  for (const ElementChoice& choice : element.choices) {
    below += choice.weight;
    if (place < below) return choice;
  }
  return element.choices.back();
}

/// The choice with the spread of all of them, which are of equal width.
ElementChoice over_all(const PlacedElement& element, ElementChoice choice) {
  choice.relative_uncertainty *= static_cast<double>(element.choices.size());
  return choice;
}

double squared(double x) { return x * x; }

/// Sources of errors that readings share, as `SharedError::source`.
namespace source {
constexpr std::uint64_t leads = 1;
constexpr std::uint64_t gain = 2;  ///< and the probe's number
constexpr std::uint64_t supply = 8;
constexpr std::uint64_t elements = 16;
constexpr std::uint64_t most_elements = 1024;  ///< of one part

/// An element is one thing to an ohmmeter and another to the line.
std::uint64_t of_element(std::size_t part, std::size_t element, Excitation excitation) {
  const auto of_part = static_cast<std::uint64_t>(part) * most_elements;
  assert(element < most_elements);
  return elements + 2 * (of_part + static_cast<std::uint64_t>(element)) +
         (excitation == Excitation::ohmmeter ? 0U : 1U);
}

/// Added to an element's source where another temperature makes it another error: millikelvins, above all elements.
std::uint64_t of_temperature(const StatedValue& temperature) {
  constexpr std::uint64_t above_elements = std::uint64_t{1} << 32U;
  return above_elements * static_cast<std::uint64_t>(std::lround(1e3 * temperature.value.value_in_si()));
}
}  // namespace source

/// Standard uncertainty of a meter: what its gain has in all its readings, and all of it [SI].
struct MeterUncertainty {
  double of_gain = 0.0;
  double whole = 0.0;
};

MeterUncertainty meter_uncertainty(const Meter& meter, Probe probe, double value_in_si) {
  const Dimension dimension = dimension_of(probe);
  const MeterFunction* function = function_for(meter, dimension);
  double gain = 0.02 * value_in_si;  // of an instrument whose data sheet does not name this function
  double whole = gain;
  if (function != nullptr && !function->ranges.empty()) {
    const MeterRange* range = range_for(*function, {}, AnyQuantity(dimension, value_in_si));
    if (range == nullptr) range = &function->ranges.back();
    gain = range->percent_of_reading / 100.0 * value_in_si;
    whole = accuracy_half_width(*range, value_in_si);
  }
  return {gain / std::numbers::sqrt3, whole / std::numbers::sqrt3};
}

}  // namespace

Prober::ProbedScene::ProbedScene(const FaultList& faults, const Site& site, Excitation excitation, const Meter& meter)
    : faults_(faults), appliance_(faults.appliance()), meter_(meter), scene_(faults, site, excitation) {
  sort_test_points();
  for (const std::unique_ptr<Group>& group : groups_) prepare(*group);
  find_what_matters();
  for (const PlacedPart& part : appliance_.parts)
    temperature_marks_.push_back(part.zone ? source::of_temperature(site.zone_temperatures[*part.zone]) : 0U);
  sensitivities_.resize(scene_.network().branches().size());
}

void Prober::ProbedScene::sort_test_points() {
  places_.resize(appliance_.test_points.size());
  for (std::size_t i = 0; i < appliance_.test_points.size(); ++i) {
    const TestPoint& point = appliance_.test_points[i];
    if ((point.probe == Probe::ohms) != (scene_.excitation() == Excitation::ohmmeter)) continue;
    const auto same = [&](const std::unique_ptr<Group>& group) { return group->lifted == point.lifted; };
    auto found = std::find_if(groups_.begin(), groups_.end(), same);
    if (found == groups_.end()) {
      found = groups_.insert(groups_.end(), std::make_unique<Group>());
      (*found)->lifted = point.lifted;
    }
    Group& group = **found;
    if (point.probe == Probe::amperes) {
      places_[i] = {&group, point.probe, group.around.size(), false, {}, {}};
      group.around.push_back(scene_.lead(*point.from.terminal));
    } else {
      places_[i] = {&group, point.probe, group.pairs.size(), false, {}, {}};
      group.pairs.push_back({scene_.node(point.from), scene_.node(point.to)});
    }
  }
}

void Prober::ProbedScene::prepare(Group& group) {
  const std::vector<circuit::Change> lifted = changes_of(group);
  const circuit::Network& network = scene_.network();
  if (scene_.excitation() == Excitation::ohmmeter) {
    group.ohmmeter.emplace(network, group.pairs, lifted);
    return;
  }
  const auto hertz = Frequency::from_value(appliance_.supply.frequency.value.value_in_si());
  if (!group.pairs.empty()) {
    group.voltmeter.emplace(network, hertz, Resistance::from_value(input_ohm), group.pairs, lifted);
  }
  if (!group.around.empty()) group.ammeter.emplace(network, hertz, group.around, lifted);
}

std::vector<circuit::Change> Prober::ProbedScene::changes_of(const Group& group) const {
  std::vector<circuit::Change> changes;
  for (const PartTerminal& terminal : group.lifted)  // of a plug whose wires are not all there, those that are
    if (scene_.lead(terminal) != no_lead) changes.push_back({scene_.lead(terminal), circuit::open()});
  return changes;
}

void Prober::ProbedScene::take(const PlacedElement& element, const ElementChoice& choice, bool as_built) {
  spread_[element.branch] = choice.relative_uncertainty;
  values_[element.branch] = choice.value_in_si;
  if (as_built) return;
  const circuit::BranchModel model = branch_model(choice);
  const circuit::BranchModel& built = scene_.network().branches()[element.branch].model;
  if (model.type != built.type || model.value_in_si != built.value_in_si ||
      choice.relative_uncertainty != scene_.spread_as_built()[element.branch])
    changes_.push_back({element.branch, model});
}

/// Whether so little resistance stands where there was none, or a load, that the breaker may trip.
bool Prober::ProbedScene::may_trip(const circuit::BranchModel& built, const ElementChoice& choice) const {
  const double least_ohm = appliance_.supply.voltage.value.value_in_si() / breaker_amperes;
  const bool was_apart = built.type == circuit::BranchType::open ||
                         (built.type == circuit::BranchType::resistance && built.value_in_si > least_ohm);
  return was_apart && choice.type == ElementType::resistance && choice.value_in_si < least_ohm;
}

void Prober::ProbedScene::settle_part(const Instance& instance, std::size_t part, std::uint16_t fault) {
  const PlacedModel& model = scene_.model(part, fault);
  const bool healthy = fault == not_found;
  for (std::size_t i = 0; i < model.elements.size(); ++i) {
    const PlacedElement& element = model.elements[i];
    sources_[element.branch] = source::of_element(part, i, scene_.excitation());
    if (element.choices.front().is_of_temperature) sources_[element.branch] += temperature_marks_[part];
    const auto settled = std::find_if(instance.settled.begin(), instance.settled.end(),
                                      [&](const Instance::Settled& s) { return s.part == part && s.element == i; });
    if (element.is_contact && element.choices.size() > 1 && (!element.stays || settled == instance.settled.end())) {
      wavering_.push_back({&element, 0});
      continue;
    }
    const ElementChoice& choice =
        settled == instance.settled.end() ? element.choices.front() : choice_at(element, settled->place);
    if (!healthy && may_trip(scene_.network().branches()[element.branch].model, choice)) may_trip_ = true;
    if (settled != instance.settled.end() && settled->is_whole_range && element.choices.size() > 1)
      take(element, over_all(element, choice), false);
    else
      take(element, choice, healthy && &choice == &element.choices.front());
  }
  if (!healthy)
    for (const circuit::BranchIndex branch : model.absent)
      if (scene_.network().branches()[branch].model.type != circuit::BranchType::open)
        changes_.push_back({branch, circuit::open()});
}

void Prober::ProbedScene::settle(const Instance& instance) {
  changes_.clear();
  wavering_.clear();
  may_trip_ = false;
  spread_.assign(scene_.spread_as_built().begin(), scene_.spread_as_built().end());
  sources_.assign(spread_.size(), 0);
  sources_[scene_.supply()] = source::supply;
  values_.clear();
  for (const circuit::Branch& branch : scene_.network().branches()) values_.push_back(branch.model.value_in_si);
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part)
    settle_part(instance, part, faults_.fault_of(*instance.candidate, part));
  const std::optional<std::size_t> outside = instance.candidate->outside_cause;
  if (outside && appliance_.outside_causes[*outside].cuts_supply && scene_.excitation() != Excitation::ohmmeter)
    changes_.push_back({scene_.supply(), circuit::open()});
}

const std::vector<PredictedOutcome>& Prober::ProbedScene::predict(const Instance& instance, std::size_t test_point,
                                                                  bool low_impedance) {
  Place& place = places_[test_point];
  place.low_impedance = low_impedance;
  settle(instance);
  leave_out_what_does_not_matter(place);
  const auto [at, is_new] = place.predictions.try_emplace(circumstances(place));
  if (is_new) read_in_every_state(place, at->second);
  return at->second;
}

void Prober::ProbedScene::read_in_every_state(const Place& place, std::vector<PredictedOutcome>& outcomes) {
  const std::size_t settled = changes_.size();
  for (;;) {  // every combination of the wavering contacts' states
    double weight = 1.0;
    for (const Wavering& contact : wavering_) {
      const ElementChoice& choice = contact.element->choices[contact.choice];
      weight *= choice.weight;
      take(*contact.element, choice, false);
    }
    if (weight >= least_weight) read_or_trip(place, weight, outcomes);
    changes_.resize(settled);
    std::size_t next = 0;
    while (next < wavering_.size() && ++wavering_[next].choice == wavering_[next].element->choices.size())
      wavering_[next++].choice = 0;
    if (next == wavering_.size()) return;
  }
}

/// A dead short across the supply has no reading: the breaker has tripped, and a meter shows near nothing.
void Prober::ProbedScene::read_or_trip(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  try {
    if (!trips(*place.group)) return read(place, weight, outcomes);
  } catch (const circuit::LoopOfSources&) {  // a supply that is bridged without any resistance trips it, too
  }
  constexpr double on_a_dead_circuit = 0.5;
  outcomes.push_back({weight, PredictedOutcome::Form::value, 0.0, on_a_dead_circuit, {}});
}

const circuit::Voltmeter& Prober::ProbedScene::low_impedance_voltmeter(Group& group) const {
  if (!group.low_impedance_voltmeter) {
    const auto hertz = Frequency::from_value(appliance_.supply.frequency.value.value_in_si());
    const std::vector<circuit::Change> lifted = changes_of(group);
    group.low_impedance_voltmeter.emplace(scene_.network(), hertz, Resistance::from_value(low_input_ohm), group.pairs,
                                          lifted);
  }
  return *group.low_impedance_voltmeter;
}

bool Prober::ProbedScene::trips(Group& group) const {
  if (!may_trip_ || scene_.excitation() == Excitation::ohmmeter) return false;
  if (!group.around_supply) {
    const auto hertz = Frequency::from_value(appliance_.supply.frequency.value.value_in_si());
    const std::vector<circuit::BranchIndex> supply{scene_.supply()};
    group.around_supply.emplace(scene_.network(), hertz, supply, changes_of(group));
  }
  const std::optional<circuit::CurrentPhasor> amperes = group.around_supply->with(changes_).reading(0);
  return amperes && circuit::magnitude(*amperes).value() > breaker_amperes;
}

void Prober::ProbedScene::read(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  switch (place.probe) {
    case Probe::ohms:
      return read_ohms(place, weight, outcomes);
    case Probe::volts:
      return read_volts(place, weight, outcomes);
    case Probe::amperes:
      return read_amperes(place, weight, outcomes);
  }
}

PredictedOutcome Prober::ProbedScene::value_outcome(Probe probe, double weight, double value_in_si) const {
  const Scale scale = scale_of(probe);
  std::vector<SharedError> errors;  // shares still in the reading's unit
  double variance = 0.0;
  const auto add = [&](std::uint64_t from, double share) {
    variance += squared(share);
    if (from != 0 && share != 0.0) errors.push_back({from, share});
  };
  for (std::size_t i = 0; i < sensitivities_.size(); ++i)
    if (spread_[i] > 0.0) add(sources_[i], sensitivities_[i] * values_[i] * spread_[i]);
  const MeterUncertainty of_meter = meter_uncertainty(meter_, probe, value_in_si);
  add(source::gain + static_cast<std::uint64_t>(probe), of_meter.of_gain);
  variance += squared(of_meter.whole) - squared(of_meter.of_gain);
  if (probe == Probe::ohms) {
    add(source::leads, meter_.lead_resistance.half_width.value_or(0.0) / std::numbers::sqrt3);
    variance += squared(probe_contact_ohm) / 3.0;
  }
  PredictedOutcome outcome{weight,
                           PredictedOutcome::Form::value,
                           scale.at(value_in_si),
                           scale.uncertainty_at(value_in_si, std::sqrt(variance)),
                           {}};
  const auto most = static_cast<std::ptrdiff_t>(std::min(PredictedOutcome::most_shared, errors.size()));
  std::partial_sort(errors.begin(), errors.begin() + most, errors.end(),
                    [](const SharedError& a, const SharedError& b) { return std::abs(a.share) > std::abs(b.share); });
  constexpr double worth_keeping = 0.05;  // of the whole uncertainty
  for (std::ptrdiff_t i = 0; i < most; ++i) {
    const SharedError& error = errors[static_cast<std::size_t>(i)];
    if (std::abs(error.share) < worth_keeping * std::sqrt(variance)) break;
    outcome.shared.push_back({error.source, error.share * scale.uncertainty_at(value_in_si, 1.0)});
  }
  return outcome;
}

void Prober::ProbedScene::read_ohms(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  circuit::Ohmmeter::Variant variant = place.group->ohmmeter->with(changes_);
  const std::optional<Resistance> reading = variant.reading(place.index);
  if (!reading) {
    outcomes.push_back({weight, PredictedOutcome::Form::over_range, 0.0, 0.0, {}});
    return;
  }
  variant.sensitivities(place.index, sensitivities_);
  outcomes.push_back(value_outcome(Probe::ohms, weight, reading->value()));
}

void Prober::ProbedScene::read_volts(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  const bool has_low_input = place.low_impedance || meter_.low_impedance;
  const circuit::Voltmeter& voltmeter = has_low_input ? low_impedance_voltmeter(*place.group) : *place.group->voltmeter;
  circuit::Voltmeter::Variant variant = voltmeter.with(changes_);
  const double volts = circuit::magnitude(variant.reading(place.index)).value();
  const bool hangs = !has_low_input && variant.source_impedance(place.index).value() > hangs_behind_ohm;
  if (hangs && volts > ghost_share * appliance_.supply.voltage.value.value_in_si()) {
    outcomes.push_back({weight, PredictedOutcome::Form::floating, 0.0, 0.0, {}});
    return;
  }
  variant.sensitivities(place.index, sensitivities_);
  outcomes.push_back(value_outcome(Probe::volts, weight, volts));
}

void Prober::ProbedScene::read_amperes(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  circuit::ClampAmmeter::Variant variant = place.group->ammeter->with(changes_);
  const std::optional<circuit::CurrentPhasor> reading = variant.reading(place.index);
  if (!reading) {  // joined conductors share it in a way that no value tells
    outcomes.push_back({weight, PredictedOutcome::Form::value, 0.0, scale_of(Probe::amperes).at(60.0), {}});
    return;
  }
  variant.sensitivities(place.index, sensitivities_);
  outcomes.push_back(value_outcome(Probe::amperes, weight, circuit::magnitude(*reading).value()));
}

}  // namespace ohmwright::locate
