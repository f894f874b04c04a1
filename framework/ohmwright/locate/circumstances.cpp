// What of an instance can matter to a reading at all: instances that differ in nothing else share their prediction.

#include <algorithm>
#include <bit>

#include <ohmwright/locate/probed_scene.hpp>
#include <ohmwright/locate/reach.hpp>

namespace ohmwright::locate {

/// Leads are one point with the wiring, and so is a supply on both its sides: it keeps its voltage.
void Prober::ProbedScene::find_what_matters() {
  const circuit::Network& network = scene_.network();
  std::vector<bool> is_of_parts(network.branches().size(), false);
  conducts_when_good_.assign(network.branches().size(), true);
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part) {
    for (const circuit::BranchIndex branch : scene_.branches_of(part)) {
      is_of_parts[branch] = true;
      conducts_when_good_[branch] = false;
    }
    for (const PlacedElement& element : scene_.model(part, not_found).elements) {
      const bool conducts = std::any_of(element.choices.begin(), element.choices.end(),
                                        [](const ElementChoice& choice) { return choice.type != ElementType::open; });
      if (!conducts) continue;
      conducts_when_good_[element.branch] = true;
      conducting_.push_back(element.branch);
    }
  }
  for (circuit::BranchIndex branch = 0; branch < network.branches().size(); ++branch) {
    const circuit::BranchType type = network.branches()[branch].model.type;
    if (is_of_parts[branch]) continue;
    if (type == circuit::BranchType::closed || type == circuit::BranchType::voltage_source)
      joined_.push_back(branch);
    else if (type != circuit::BranchType::open)
      conducting_.push_back(branch);
  }
  if (scene_.excitation() == Excitation::ohmmeter) std::erase(joined_, scene_.supply());
  for (Place& place : places_)
    if (place.group != nullptr) place.matters[{}] = what_matters_at(place, conducting_);
}

std::vector<bool> Prober::ProbedScene::what_matters_at(const Place& place,
                                                       std::span<const circuit::BranchIndex> conducting) const {
  std::vector<circuit::BranchIndex> joined = joined_;
  for (const PartTerminal& terminal : place.group->lifted) std::erase(joined, scene_.lead(terminal));
  if (place.probe != Probe::amperes)
    return branches_between(scene_.network(), joined, conducting, place.group->pairs[place.index]);
  const circuit::BranchIndex clamped = place.group->around[place.index];
  std::erase(joined, clamped);
  const circuit::Branch& around = scene_.network().branches()[clamped];
  return branches_between(scene_.network(), joined, conducting, {around.from, around.to});
}

/// Where a fault shorts a supply or cuts it, everything matters; where it joins what is apart in a good appliance, that
/// way counts, too.
void Prober::ProbedScene::leave_out_what_does_not_matter(Place& place) {
  const bool is_live = scene_.excitation() != Excitation::ohmmeter;
  if (is_live && may_trip_) return;  // a short anywhere makes it dead everywhere
  joined_by_faults_.clear();
  for (const circuit::Change& change : changes_) {
    if (is_live && (change.branch == scene_.supply() || change.model.type == circuit::BranchType::closed)) return;
    if (!conducts_when_good_[change.branch] && change.model.type != circuit::BranchType::open)
      joined_by_faults_.push_back(change.branch);
  }
  for (const Wavering& contact : wavering_)
    if (!conducts_when_good_[contact.element->branch]) joined_by_faults_.push_back(contact.element->branch);
  std::vector<bool>& matters = place.matters[joined_by_faults_];
  if (matters.empty()) {
    std::vector<circuit::BranchIndex> conducting = conducting_;
    conducting.insert(conducting.end(), joined_by_faults_.begin(), joined_by_faults_.end());
    matters = what_matters_at(place, conducting);
  }
  const auto opens_here = [&](const OpensHot* one) { return matters[one->cold.elements[one->element].branch]; };
  if (std::any_of(opening_.begin(), opening_.end(), opens_here)) return;  // all of the circuit says whether it gets hot
  opening_.clear();
  std::erase_if(changes_, [&](const circuit::Change& change) { return !matters[change.branch]; });
  std::erase_if(wavering_, [&](const Wavering& contact) { return !matters[contact.element->branch]; });
}

Prober::ProbedScene::Circumstances Prober::ProbedScene::circumstances(const Place& place) const {
  Circumstances all = circumstances();
  if (place.low_impedance) all.push_back(0);
  return all;
}

Prober::ProbedScene::Circumstances Prober::ProbedScene::circumstances() const {
  Circumstances all;
  for (const circuit::Change& change : changes_) {
    all.push_back(change.branch);
    all.push_back(static_cast<std::uint64_t>(change.model.type));
    all.push_back(std::bit_cast<std::uint64_t>(change.model.value_in_si));
    all.push_back(std::bit_cast<std::uint64_t>(spread_[change.branch]));
    all.push_back(std::bit_cast<std::uint64_t>(of_temperature_[change.branch]));
    if (of_cut_[change.branch] != 0.0) all.push_back(std::bit_cast<std::uint64_t>(of_cut_[change.branch]));
  }
  for (const Wavering& contact : wavering_) all.push_back(reinterpret_cast<std::uintptr_t>(contact.element));
  for (const OpensHot* opens : opening_) all.push_back(reinterpret_cast<std::uintptr_t>(opens));
  return all;
}

}  // namespace ohmwright::locate
