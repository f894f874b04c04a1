// The network that an instance is: what every branch becomes when its faults and its choices are settled.

#include <algorithm>

#include <ohmwright/locate/error_source.hpp>
#include <ohmwright/locate/probed_scene.hpp>

namespace ohmwright::locate {

namespace {

/// The choice at a place of the range: their weights, laid end to end, reach from 0 to 1.
const ElementChoice& choice_at(const PlacedElement& element, double place) {
  double below = 0.0;
  for (const ElementChoice& choice : element.choices) {
    below += choice.weight;
    if (place < below) return choice;
  }
  return element.choices.back();
}

}  // namespace

void Prober::ProbedScene::take(const PlacedElement& element, const ElementChoice& choice, bool as_built) {
  touched_.push_back(element.branch);
  spread_[element.branch] = choice.relative_uncertainty;
  values_[element.branch] = choice.value_in_si;
  of_temperature_[element.branch] = choice.share_of_temperature;
  of_cut_[element.branch] = choice.of_cut;
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
  const bool healthy = fault == not_found;
  const OpensHot* const opens = healthy ? nullptr : scene_.opens_hot(part, fault);
  if (opens != nullptr) opening_.push_back(opens);
  const Excitation excitation = opens == nullptr ? scene_.excitation() : Excitation::ohmmeter;
  const PlacedModel& model = opens == nullptr ? scene_.model(part, fault) : opens->cold;
  for (std::size_t i = 0; i < model.elements.size(); ++i) {
    const PlacedElement& element = model.elements[i];
    const std::size_t wire = element.is_other_piece ? i - 1 : i;
    sources_[element.branch] = source::of_element(part, wire, excitation);
    cut_sources_[element.branch] = source::of_cut(part, wire);
    touched_.push_back(element.branch);
    const auto settled = std::find_if(instance.settled.begin(), instance.settled.end(),
                                      [&](const Instance::Settled& s) { return s.part == part && s.element == wire; });
    if (element.is_contact && element.choices.size() > 1 && (!element.stays || settled == instance.settled.end())) {
      const bool comes_and_goes =
          !healthy && appliance_.parts[part].kind->descriptor().fault_modes[fault].id == comes_and_goes_mode;
      wavering_.push_back({&element, 0, comes_and_goes ? 0 : source_of_state(part, i), sources_[element.branch]});
      continue;
    }
    const bool is_whole_range = settled == instance.settled.end() || settled->is_whole_range;
    const ElementChoice& choice = is_whole_range ? element.whole : choice_at(element, settled->place);
    if (!healthy && may_trip(scene_.network().branches()[element.branch].model, choice)) may_trip_ = true;
    take(element, choice, healthy && is_whole_range);
  }
  if (!healthy)
    for (const circuit::BranchIndex branch : model.absent)
      if (scene_.network().branches()[branch].model.type != circuit::BranchType::open)
        changes_.push_back({branch, circuit::open()});
}

void Prober::ProbedScene::settle(const Instance& instance) {
  changes_.clear();
  wavering_.clear();
  opening_.clear();
  may_trip_ = false;
  for (const circuit::BranchIndex branch : touched_) {
    spread_[branch] = as_built_.spread[branch];
    values_[branch] = as_built_.values[branch];
    sources_[branch] = as_built_.sources[branch];
    of_temperature_[branch] = as_built_.of_temperature[branch];
    of_cut_[branch] = 0.0;
  }
  touched_.clear();
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part) {
    const std::uint16_t fault = faults_.fault_of(*instance.candidate, part);
    const bool is_as_built =
        fault == not_found && std::none_of(instance.settled.begin(), instance.settled.end(),
                                           [part](const Instance::Settled& settled) { return settled.part == part; });
    if (is_as_built)
      wavering_.insert(wavering_.end(), as_built_.wavering[part].begin(), as_built_.wavering[part].end());
    else
      settle_part(instance, part, fault);
  }
  const std::optional<std::size_t> outside = instance.candidate->outside_cause;
  if (outside && appliance_.outside_causes[*outside].cuts_supply && scene_.excitation() != Excitation::ohmmeter)
    changes_.push_back({scene_.supply(), circuit::open()});
}

}  // namespace ohmwright::locate
