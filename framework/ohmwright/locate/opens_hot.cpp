// What opens once it is hot: whole where the supply does not reach it, or has not heated it yet.

#include <algorithm>

#include <ohmwright/appliance/opens_hot.hpp>
#include <ohmwright/circuit/loop_refusal.hpp>
#include <ohmwright/locate/probed_scene.hpp>

namespace ohmwright::locate {

namespace {

/// Of live readings of what opens when it is hot: it is not hot yet, or has cooled and closed again (assumed, no
/// source).
constexpr double not_hot_yet = 0.2;

/// Input resistance of a voltmeter across it [ohm] (common practice, no source).
constexpr double input_across_it_ohm = 10e6;

}  // namespace

std::optional<OpensHot> Scene::opens_when_hot(std::size_t part, std::uint16_t fault, const Site& site) {
  if (excitation_ == Excitation::ohmmeter) return std::nullopt;
  const PlacedPart& placed = appliance_.parts[part];
  const auto elements = [&](std::uint16_t of_fault, Excitation excitation) {
    std::vector<Element> stated;
    placed.kind->call("its electrical model", [&] {
      return placed.part->electrical_model(of_fault, situation_of(appliance_, part, site, excitation, 0.0), stated);
    });
    return stated;
  };
  const std::vector<Element> powered = elements(fault, excitation_);
  if (std::none_of(powered.begin(), powered.end(), [](const Element& e) { return e.type == ElementType::open; }))
    return std::nullopt;
  const std::vector<Element> cold = elements(fault, Excitation::ohmmeter);
  const std::optional<std::size_t> opening = opening_element(elements(not_found, excitation_), cold, powered);
  if (!opening) return std::nullopt;
  OpensHot opens;
  opens.across = {node_of(part, cold[*opening].from), node_of(part, cold[*opening].to)};
  opens.element = *opening;
  opens.index = opens_hot_.size();
  return opens;
}

const OpensHot* Scene::opens_hot(std::size_t part, std::uint16_t fault) const {
  const auto found = opens_hot_.find({part, fault});
  return found == opens_hot_.end() ? nullptr : &found->second;
}

std::vector<circuit::NodePair> Scene::across_what_opens() const {
  std::vector<circuit::NodePair> pairs(opens_hot_.size());
  for (const auto& [of, opens] : opens_hot_) pairs[opens.index] = opens.across;
  return pairs;
}

/// Opens what the supply reaches while it is whole; says whether there is any.
bool Prober::ProbedScene::open_what_gets_hot(Group& group) {
  if (!group.across_what_opens) {
    const auto hertz = Frequency::from_value(appliance_.supply.frequency.value.value_in_si());
    group.across_what_opens.emplace(scene_.network(), hertz, Resistance::from_value(input_across_it_ohm),
                                    scene_.across_what_opens(), changes_of(group));
  }
  const double enough = least_share_that_heats * appliance_.supply.voltage.value.value_in_si();
  std::vector<circuit::BranchIndex> opened;
  try {
    circuit::Voltmeter::Variant volts = group.across_what_opens->with(changes_);
    for (const OpensHot* opens : opening_)
      if (circuit::magnitude(volts.reading(opens->index)).value() >= enough)
        opened.push_back(opens->cold.elements[opens->element].branch);
  } catch (const circuit::LoopOfSources&) {  // a short across the supply: nothing gets hot, for the breaker trips
    return false;
  }
  for (const circuit::BranchIndex branch : opened) {
    std::erase_if(changes_, [branch](const circuit::Change& change) { return change.branch == branch; });
    changes_.push_back({branch, circuit::open()});
  }
  return !opened.empty();
}

/// What a fault opens once it is hot may be read before it is.
void Prober::ProbedScene::read_hot_or_cold(const Place& place, double weight, std::vector<PredictedOutcome>& outcomes) {
  const std::vector<circuit::Change> cold = changes_;
  if (!opening_.empty() && open_what_gets_hot(*place.group)) {
    read_or_trip(place, (1.0 - not_hot_yet) * weight, outcomes);
    changes_ = cold;
    weight *= not_hot_yet;
  }
  read_or_trip(place, weight, outcomes);
}

}  // namespace ohmwright::locate
