#pragma once

#include <cstddef>
#include <limits>
#include <map>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include <ohmwright/appliance/appliance.hpp>
#include <ohmwright/circuit/network.hpp>
#include <ohmwright/locate/faults.hpp>
#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/locate/site.hpp>

namespace ohmwright::locate {

/// An element of a part as a branch of the network: its choices and the branch that takes them.
struct PlacedElement {
  circuit::BranchIndex branch = 0;
  bool is_contact = false;
  bool stays = false;           ///< as `ElementSpread::stays`
  bool is_other_piece = false;  ///< as `ElementSpread::is_other_piece`
  std::vector<ElementChoice> choices;
  ElementChoice whole;  ///< as `ElementSpread::whole`
};

/// A part in one of its ways of being, healthy or with one fault: what each of its branches is then.
struct PlacedModel {
  std::vector<PlacedElement> elements;
  std::vector<circuit::BranchIndex> absent;  ///< branches of other models of this part, open in this one
};

/// A part at fault that opens once it is hot, in a live scene: what it is before.
struct OpensHot {
  PlacedModel cold;
  std::size_t element = 0;   ///< of `cold`: what opens
  circuit::NodePair across;  ///< its ends
  std::size_t index = 0;     ///< among all of the scene
};

/// The lead of a terminal at which no wire is.
inline constexpr circuit::BranchIndex no_lead = std::numeric_limits<circuit::BranchIndex>::max();

/// The appliance's wiring at one site with one kind of supply, and every part in each of its ways of being.
///
/// Every terminal of a part is a node of its own, joined to the wiring by a branch that a lifted lead opens. The
/// network itself has every part healthy and settles nothing about it; anything else is changes to it.
class Scene {
 public:
  Scene(const FaultList& faults, const Site& site, Excitation excitation);
  ~Scene() = default;
  Scene(const Scene&) = delete;
  Scene& operator=(const Scene&) = delete;

  const circuit::Network& network() const { return network_; }
  Excitation excitation() const { return excitation_; }

  /// The model of a part with a fault, or `not_found` for the healthy one.
  const PlacedModel& model(std::size_t part, std::uint16_t fault) const;

  /// What a part with that fault is before it opens because it is hot; null for a fault that does no such thing, and to
  /// an ohmmeter.
  const OpensHot* opens_hot(std::size_t part, std::uint16_t fault) const;
  /// The ends of all that may open so, by `OpensHot::index`.
  std::vector<circuit::NodePair> across_what_opens() const;

  /// Every branch that the part takes in one of its ways of being.
  std::span<const circuit::BranchIndex> branches_of(std::size_t part) const { return branches_of_[part]; }

  circuit::NodeIndex node(const ProbePlace& place) const;
  /// The branch between a part's terminal and the wiring; what a lifted lead opens and a clamp goes around;
  /// `no_lead` where no wire is at the terminal.
  circuit::BranchIndex lead(const PartTerminal& terminal) const;
  circuit::BranchIndex supply() const { return supply_; }

  /// Relative standard uncertainty of a branch's value in the network as built, 0 where it has none.
  std::span<const double> spread_as_built() const { return spread_as_built_; }

 private:
  void add_wiring();
  void add_part(std::size_t part, const Site& site);
  /// Whether the fault opens once it is hot; its `cold` model is left out.
  std::optional<OpensHot> opens_when_hot(std::size_t part, std::uint16_t fault, const Site& site);
  circuit::NodeIndex node_of(std::size_t part, std::uint16_t end);
  void add_supply();
  void add_stray_capacitance();

  const Appliance& appliance_;
  const FaultList& faults_;
  Excitation excitation_;
  circuit::Network network_;
  std::vector<circuit::NodeIndex> wiring_;
  std::vector<std::vector<circuit::NodeIndex>> terminals_;               ///< by part; inner nodes behind the terminals
  std::vector<std::vector<circuit::BranchIndex>> leads_;                 ///< by part and terminal; `no_lead` for none
  std::vector<std::map<std::uint16_t, PlacedModel>> models_;             ///< by part, then by fault
  std::vector<std::vector<circuit::BranchIndex>> branches_of_;           ///< by part
  std::map<std::pair<std::size_t, std::uint16_t>, OpensHot> opens_hot_;  ///< by part and fault
  std::vector<double> spread_as_built_;
  circuit::BranchIndex supply_ = 0;
};

/// What a branch is when it takes that choice.
circuit::BranchModel branch_model(const ElementChoice& choice);

}  // namespace ohmwright::locate
