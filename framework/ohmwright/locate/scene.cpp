#include <algorithm>
#include <numbers>

#include <ohmwright/locate/scene.hpp>

namespace ohmwright::locate {

namespace {

/// Between a live wire and one that hangs in the air beside it: some metres of appliance wiring (assumed, no source).
constexpr double stray_farad = 200e-12;

/// A branch of a part between two of its points.
struct Slot {
  std::uint16_t from = 0;
  std::uint16_t to = 0;
  circuit::BranchIndex branch = 0;
};

}  // namespace

circuit::BranchModel branch_model(const ElementChoice& choice) {
  switch (choice.type) {
    case ElementType::resistance:
    case ElementType::contact:
      return circuit::resistance(Resistance::from_value(choice.value_in_si));
    case ElementType::capacitance:
      return circuit::capacitance(Capacitance::from_value(choice.value_in_si));
    case ElementType::inductance:
      return circuit::inductance(Inductance::from_value(choice.value_in_si));
    case ElementType::voltage_source:
      return circuit::voltage_source(Voltage::from_value(choice.value_in_si));
    case ElementType::closed:
      return circuit::closed();
    case ElementType::open:
      break;
  }
  return circuit::open();
}

Scene::Scene(const FaultList& faults, const Site& site, Excitation excitation)
    : appliance_(faults.appliance()), faults_(faults), excitation_(excitation) {
  add_wiring();
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part) add_part(part, site);
  add_supply();
  spread_as_built_.resize(network_.branches().size(), 0.0);
  for (const auto& models : models_)
    for (const PlacedElement& element : models.at(not_found).elements)
      spread_as_built_[element.branch] = element.whole.relative_uncertainty;
  const StatedValue& volts = appliance_.supply.voltage;
  spread_as_built_[supply_] = volts.half_width.value_or(0.0) / std::numbers::sqrt3 / volts.value.value_in_si();
}

void Scene::add_wiring() {
  for (std::size_t i = 0; i < appliance_.nodes.size(); ++i) wiring_.push_back(network_.add_node());
  for (const PlacedPart& part : appliance_.parts) {
    std::vector<circuit::NodeIndex>& own = terminals_.emplace_back();
    std::vector<circuit::BranchIndex>& leads = leads_.emplace_back();
    for (std::size_t terminal = 0; terminal < part.nodes.size(); ++terminal) {
      own.push_back(network_.add_node());
      const std::string name = part.id + "." + std::string(part.kind->descriptor().terminals[terminal]);
      leads.push_back(part.nodes[terminal]
                          ? network_.add_branch(own.back(), wiring_[*part.nodes[terminal]], circuit::closed(), name)
                          : no_lead);
    }
  }
}

circuit::NodeIndex Scene::node_of(std::size_t part, std::uint16_t end) {
  std::vector<circuit::NodeIndex>& own = terminals_[part];
  while (own.size() <= end) own.push_back(network_.add_node());
  return own[end];
}

/// Each element takes a branch between its ends that no element before it took; the models of a part share them.
void Scene::add_part(std::size_t part, const Site& site) {
  std::vector<Slot> slots;
  std::map<std::uint16_t, PlacedModel>& models = models_.emplace_back();
  const auto model_of = [&](std::uint16_t fault, Excitation excitation) {
    PlacedModel model;
    std::vector<bool> taken(slots.size(), false);
    for (ElementSpread& spread : part_model(appliance_, part, fault, site, excitation)) {
      std::size_t slot = 0;
      while (slot < slots.size() && (taken[slot] || slots[slot].from != spread.from || slots[slot].to != spread.to))
        ++slot;
      if (slot == slots.size()) {
        const bool as_built = fault == not_found;
        slots.push_back(
            {spread.from, spread.to,
             network_.add_branch(node_of(part, spread.from), node_of(part, spread.to),
                                 as_built ? branch_model(spread.whole) : circuit::open(), appliance_.parts[part].id)});
        taken.push_back(false);
      }
      taken[slot] = true;
      model.elements.push_back({slots[slot].branch, spread.is_contact, spread.stays, spread.is_other_piece,
                                std::move(spread.choices), spread.whole});
    }
    return model;
  };
  models.emplace(not_found, model_of(not_found, excitation_));
  for (const PossibleFault& possible : faults_.faults()) {
    if (possible.fault.part != part) continue;
    const std::uint16_t fault = possible.fault.fault;
    models.emplace(fault, model_of(fault, excitation_));
    if (std::optional<OpensHot> opens = opens_when_hot(part, fault, site)) {
      opens->cold = model_of(fault, Excitation::ohmmeter);
      opens_hot_.emplace(std::pair(part, fault), std::move(*opens));
    }
  }
  const auto note_absent = [&](PlacedModel& model) {
    for (const Slot& slot : slots) {
      const bool is_used = std::any_of(model.elements.begin(), model.elements.end(),
                                       [&](const PlacedElement& element) { return element.branch == slot.branch; });
      if (!is_used) model.absent.push_back(slot.branch);
    }
  };
  for (auto& [fault, model] : models) note_absent(model);
  for (auto& [of, opens] : opens_hot_)
    if (of.first == part) note_absent(opens.cold);
  std::vector<circuit::BranchIndex>& taken = branches_of_.emplace_back();
  for (const Slot& slot : slots) taken.push_back(slot.branch);
}

void Scene::add_supply() {
  const MainsSupply& supply = appliance_.supply;
  const bool live = excitation_ != Excitation::ohmmeter;
  const circuit::NodeIndex from = wiring_[supply.live];
  const circuit::NodeIndex to = wiring_[supply.neutral];
  supply_ = network_.add_branch(
      from, to, circuit::voltage_source(Voltage::from_value(supply.voltage.value.value_in_si())), "the supply");
  if (!live) return;  // the plug is out: neither the supply's bond of neutral and earth nor its fields are there
  if (supply.earth) network_.add_branch(to, wiring_[*supply.earth], circuit::closed(), "the supply's earth");
  add_stray_capacitance();
}

void Scene::add_stray_capacitance() {
  const circuit::NodeIndex live = wiring_[appliance_.supply.live];
  const auto add = [&](circuit::NodeIndex node) {
    if (node != live)
      network_.add_branch(live, node, circuit::capacitance(Capacitance::from_value(stray_farad)), "stray capacitance");
  };
  for (const circuit::NodeIndex node : wiring_) add(node);
}

const PlacedModel& Scene::model(std::size_t part, std::uint16_t fault) const { return models_[part].at(fault); }

circuit::NodeIndex Scene::node(const ProbePlace& place) const {
  return place.terminal ? terminals_[place.terminal->part][place.terminal->terminal] : wiring_[*place.node];
}

circuit::BranchIndex Scene::lead(const PartTerminal& terminal) const {
  return leads_[terminal.part][terminal.terminal];
}

}  // namespace ohmwright::locate
