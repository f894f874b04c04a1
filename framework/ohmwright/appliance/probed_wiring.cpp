#include <algorithm>

#include <ohmwright/appliance/probed_wiring.hpp>

namespace ohmwright {

namespace {

/// Points that a part needs: its terminals and those within it.
std::size_t points_of(const PlacedPart& part, const Conduction& healthy, const std::vector<Conduction>& faulty) {
  std::size_t count = part.nodes.size();
  const auto take_in = [&count](const Conduction& conduction) {
    for (const Element& element : conduction.elements)
      count = std::max({count, std::size_t{element.from} + 1, std::size_t{element.to} + 1});
  };
  take_in(healthy);
  std::for_each(faulty.begin(), faulty.end(), take_in);
  return count;
}

}  // namespace

ProbedWiring::ProbedWiring(const Appliance& appliance, std::optional<std::size_t> set_up, Excitation excitation)
    : appliance_(appliance), excitation_(excitation), points_(appliance.nodes.size()) {
  for (std::size_t part = 0; part < appliance.parts.size(); ++part) {
    const PlacedPart& placed = appliance.parts[part];
    healthy_.push_back(conduction_of(appliance, part, not_found, set_up, excitation));
    std::vector<Conduction>& faulty = faulty_.emplace_back();
    for (std::size_t mode = 0; mode < placed.kind->descriptor().fault_modes.size(); ++mode)
      faulty.push_back(conduction_of(appliance, part, static_cast<std::uint16_t>(mode), set_up, excitation));
    first_point_.push_back(points_);
    points_ += points_of(placed, healthy_.back(), faulty);
  }
}

std::size_t ProbedWiring::node_point(std::size_t node, SupplyAs supply) const {
  const MainsSupply& mains = appliance_.supply;
  const bool is_of_supply = node == mains.neutral || node == mains.earth;
  return supply == SupplyAs::point && is_of_supply ? mains.live : node;
}

std::size_t ProbedWiring::place(const ProbePlace& place, SupplyAs supply) const {
  return place.node ? node_point(*place.node, supply) : point(place.terminal->part, place.terminal->terminal);
}

bool ProbedWiring::is_read_here(const TestPoint& point) const {
  return (point.probe == Probe::ohms) == (excitation_ == Excitation::ohmmeter);
}

bool ProbedWiring::is_lifted(const TestPoint& at, std::size_t part, std::size_t terminal) const {
  const PartTerminal lead{part, static_cast<std::uint16_t>(terminal)};
  return std::find(at.lifted.begin(), at.lifted.end(), lead) != at.lifted.end();
}

/// Healthy parts, their leads but for those that are lifted, and the supply where it is on.
ProbedWiring::Wired ProbedWiring::wired(const TestPoint& at, SupplyAs supply) const {
  Wired wired(points_);
  for (std::size_t part = 0; part < appliance_.parts.size(); ++part) {
    auto& leads = wired.leads.emplace_back(appliance_.parts[part].nodes.size());
    for (std::size_t terminal = 0; terminal < leads.size(); ++terminal)
      if (const auto node = appliance_.parts[part].nodes[terminal]; node && !is_lifted(at, part, terminal))
        leads[terminal] =
            wired.graph.join(point(part, static_cast<std::uint16_t>(terminal)), node_point(*node, supply));
    for (const PartPoints& way : healthy_[part].conducting)
      wired.graph.join(point(part, way.from), point(part, way.to));
  }
  if (excitation_ == Excitation::ohmmeter || supply == SupplyAs::point) return wired;
  const MainsSupply& mains = appliance_.supply;
  wired.supply = wired.graph.join(mains.live, mains.neutral);
  if (mains.earth) wired.graph.join(mains.neutral, *mains.earth);
  return wired;
}

/// By edge: whether what the instrument shows depends on it.
std::vector<bool> ProbedWiring::seen(const Wired& wired, const TestPoint& at, SupplyAs supply) const {
  if (at.probe != Probe::amperes) return wired.graph.edges_between(place(at.from, supply), place(at.to, supply));
  const std::optional<std::size_t> lead = wired.leads[at.from.terminal->part][at.from.terminal->terminal];
  return lead ? wired.graph.edges_on_a_ring_with(*lead) : std::vector<bool>{};
}

/// Whether what the instrument reads is there at all: an ohmmeter brings its own current, else the supply must be seen.
bool ProbedWiring::is_driven(const Wired& with_edge, const TestPoint& at) const {
  const std::vector<bool> edges = seen(with_edge, at, SupplyAs::edge);
  if (with_edge.supply) return !edges.empty() && edges[*with_edge.supply];
  return std::find(edges.begin(), edges.end(), true) != edges.end();
}

bool ProbedWiring::reaches_supply(std::size_t node) const {
  const Wired whole = wired(TestPoint{}, SupplyAs::edge);
  return whole.graph.is_joined(node, appliance_.supply.live) || whole.graph.is_joined(node, appliance_.supply.neutral);
}

bool ProbedWiring::can_read_something(std::size_t test_point) const {
  const TestPoint& at = appliance_.test_points[test_point];
  if (!is_read_here(at)) return false;
  Wired all = wired(at, SupplyAs::edge);
  for (std::size_t part = 0; part < faulty_.size(); ++part)
    for (const Conduction& conduction : faulty_[part])
      for (const PartPoints& way : conduction.conducting) all.graph.join(point(part, way.from), point(part, way.to));
  return is_driven(all, at);
}

bool ProbedWiring::shows(const PartFault& fault) const {
  const Conduction& conduction = faulty(fault);
  if (!conduction.can_be) return false;
  const std::vector<PartPoints> changed = changed_points(healthy_[fault.part], conduction);
  if (changed.empty()) return false;
  const SupplyAs supply = excitation_ == Excitation::ohmmeter ? SupplyAs::edge : SupplyAs::point;
  return std::any_of(appliance_.test_points.begin(), appliance_.test_points.end(), [&](const TestPoint& at) {
    if (!is_read_here(at)) return false;
    const auto with_fault = [&](SupplyAs as, std::vector<std::size_t>& edges) {
      Wired wiring = wired(at, as);
      for (const PartPoints& way : changed)
        edges.push_back(wiring.graph.join(point(fault.part, way.from), point(fault.part, way.to)));
      return wiring;
    };
    std::vector<std::size_t> edges;
    if (!is_driven(with_fault(SupplyAs::edge, edges), at)) return false;
    edges.clear();
    const std::vector<bool> matters = seen(with_fault(supply, edges), at, supply);
    return std::any_of(edges.begin(), edges.end(),
                       [&](std::size_t edge) { return edge < matters.size() && matters[edge]; });
  });
}

}  // namespace ohmwright
