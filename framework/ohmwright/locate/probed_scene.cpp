#include <algorithm>

#include <ohmwright/locate/error_source.hpp>
#include <ohmwright/locate/probed_scene.hpp>

namespace ohmwright::locate {

namespace {

/// Input resistance of a voltmeter as it is [ohm] (common practice, no source).
constexpr double input_ohm = 10e6;

}  // namespace

Prober::ProbedScene::ProbedScene(const FaultList& faults, const Site& site, Excitation excitation, const Meter& meter)
    : faults_(faults), appliance_(faults.appliance()), meter_(meter), scene_(faults, site, excitation) {
  sort_test_points();
  for (const std::unique_ptr<Group>& group : groups_) prepare(*group);
  find_what_matters();
  for (const PlacedPart& part : appliance_.parts)
    temperature_marks_.push_back(part.zone ? source::of_temperature(site.zone_temperatures[*part.zone]) : 0U);
  sensitivities_.resize(scene_.network().branches().size());
  branch_marks_.resize(scene_.network().branches().size());
  of_cut_.resize(scene_.network().branches().size());
  cut_sources_.resize(scene_.network().branches().size());
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part)
    for (const circuit::BranchIndex branch : scene_.branches_of(part)) branch_marks_[branch] = temperature_marks_[part];
  tripped_.push_back(on_a_dead_circuit(1.0));
  note_as_built();
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

std::uint64_t Prober::ProbedScene::source_of_state(std::size_t part, std::size_t index) const {
  return source::of_element(part, index, scene_.excitation()) + temperature_marks_[part];
}

/// Every part good and as its network was built: what an instance without a word on it starts from.
void Prober::ProbedScene::note_as_built() {
  const std::size_t branches = scene_.network().branches().size();
  as_built_.spread.assign(scene_.spread_as_built().begin(), scene_.spread_as_built().end());
  as_built_.sources.assign(branches, 0);
  as_built_.of_temperature.assign(branches, 0.0);
  as_built_.sources[scene_.supply()] = source::supply;
  for (const circuit::Branch& branch : scene_.network().branches())
    as_built_.values.push_back(branch.model.value_in_si);
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part) {
    std::vector<Wavering>& wavering = as_built_.wavering.emplace_back();
    const PlacedModel& model = scene_.model(part, not_found);
    for (std::size_t i = 0; i < model.elements.size(); ++i) {
      const PlacedElement& element = model.elements[i];
      as_built_.sources[element.branch] = source::of_element(part, i, scene_.excitation());
      as_built_.of_temperature[element.branch] = element.whole.share_of_temperature;
      if (element.is_contact && element.choices.size() > 1)
        wavering.push_back({&element, 0, source_of_state(part, i), as_built_.sources[element.branch]});
    }
  }
  spread_ = as_built_.spread;
  values_ = as_built_.values;
  sources_ = as_built_.sources;
  of_temperature_ = as_built_.of_temperature;
}

const std::vector<PredictedOutcome>& Prober::ProbedScene::predict(const Instance& instance, std::size_t test_point,
                                                                  bool low_impedance) {
  Place& place = places_[test_point];
  place.low_impedance = low_impedance;
  settle(instance);
  if (is_tripped(*place.group)) return tripped_;
  leave_out_what_does_not_matter(place);
  const auto [at, is_new] = place.predictions.try_emplace(circumstances(place));
  if (is_new) read_in_every_state(place, at->second);
  return at->second;
}

}  // namespace ohmwright::locate
