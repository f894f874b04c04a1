#include <algorithm>
#include <array>
#include <optional>

#include <ohmwright/appliance/appliance_check.hpp>
#include <ohmwright/appliance/probed_wiring.hpp>

namespace ohmwright {

namespace {

using Form = ApplianceFinding::Form;

/// A terminal that is alone at its node, and that node.
struct LooseEnd {
  std::size_t node = 0;
  PartTerminal terminal;
};

std::vector<LooseEnd> loose_ends(const Appliance& appliance) {
  std::vector<std::vector<PartTerminal>> at(appliance.nodes.size());
  for (std::size_t part = 0; part < appliance.parts.size(); ++part)
    for (std::size_t terminal = 0; terminal < appliance.parts[part].nodes.size(); ++terminal)
      if (const auto node = appliance.parts[part].nodes[terminal])
        at[*node].push_back({part, static_cast<std::uint16_t>(terminal)});
  std::vector<LooseEnd> ends;
  for (std::size_t node = 0; node < at.size(); ++node)
    if (at[node].size() == 1) ends.push_back({node, at[node].front()});
  return ends;
}

/// Whether somebody probes at the node, as at a plug that was pulled.
bool is_probed(const Appliance& appliance, std::size_t node) {
  const auto is_there = [node](const ProbePlace& place) { return place.node == node; };
  return std::any_of(appliance.test_points.begin(), appliance.test_points.end(), [&](const TestPoint& point) {
    return is_there(point.from) || (point.probe != Probe::amperes && is_there(point.to));
  });
}

/// Whether somebody probes at the terminal while it is off.
bool is_probed_alone(const Appliance& appliance, const PartTerminal& terminal) {
  return std::any_of(appliance.test_points.begin(), appliance.test_points.end(), [&](const TestPoint& point) {
    const bool is_off = std::find(point.lifted.begin(), point.lifted.end(), terminal) != point.lifted.end();
    return is_off && (point.from.terminal == terminal || point.to.terminal == terminal);
  });
}

/// A part that is read alone may hang on a control that is not in the file; then the supply does not reach it at all.
bool is_meant(const Appliance& appliance, const LooseEnd& end, const std::vector<ProbedWiring>& wirings) {
  if (is_probed(appliance, end.node)) return true;
  return is_probed_alone(appliance, end.terminal) &&
         std::none_of(wirings.begin(), wirings.end(),
                      [&](const ProbedWiring& wiring) { return wiring.reaches_supply(end.node); });
}

/// Whether all leads of a part, two or more beside its earth, are at one node: then no current is led through it.
bool has_joined_ends(const PlacedPart& part, const MainsSupply& supply) {
  std::vector<std::size_t> at;
  for (const std::optional<std::size_t>& node : part.nodes)
    if (node && node != supply.earth) at.push_back(*node);
  return at.size() > 1 && std::all_of(at.begin(), at.end(), [&at](std::size_t node) { return node == at.front(); });
}

void check_nodes(const Appliance& appliance, const std::vector<ProbedWiring>& wirings,
                 std::vector<ApplianceFinding>& findings) {
  const MainsSupply& supply = appliance.supply;
  for (const LooseEnd& end : loose_ends(appliance)) {
    const bool is_supply = end.node == supply.live || end.node == supply.neutral || end.node == supply.earth;
    if (!is_supply && !is_meant(appliance, end, wirings)) findings.push_back({Form::loose_node, end.node, {}, {}});
  }
  // Where a control is not in the file and its plugs are pulled, nothing need be fed, as long as nothing is read live.
  if (std::all_of(appliance.test_points.begin(), appliance.test_points.end(),
                  [](const TestPoint& point) { return point.probe == Probe::ohms; }))
    return;
  for (const std::size_t node : {supply.live, supply.neutral}) {
    const bool is_used = std::any_of(appliance.parts.begin(), appliance.parts.end(), [node](const PlacedPart& part) {
      return std::find(part.nodes.begin(), part.nodes.end(), node) != part.nodes.end();
    });
    if (!is_used) findings.push_back({Form::supply_unconnected, node, {}, {}});
  }
}

bool is_same_place(const TestPoint& point) {
  return point.probe != Probe::amperes && point.from.node == point.to.node && point.from.terminal == point.to.terminal;
}

void check_ends(const Appliance& appliance, std::vector<ApplianceFinding>& findings) {
  for (std::size_t part = 0; part < appliance.parts.size(); ++part)
    if (has_joined_ends(appliance.parts[part], appliance.supply)) findings.push_back({Form::joined_ends, part, {}, {}});
}

void check_test_points(const Appliance& appliance, const std::vector<ProbedWiring>& wirings,
                       std::vector<ApplianceFinding>& findings) {
  for (std::size_t i = 0; i < appliance.test_points.size(); ++i) {
    if (is_same_place(appliance.test_points[i])) {
      findings.push_back({Form::same_place, i, {}, {}});
      continue;
    }
    const bool reads = std::any_of(wirings.begin(), wirings.end(),
                                   [i](const ProbedWiring& wiring) { return wiring.can_read_something(i); });
    if (!reads) findings.push_back({Form::reads_nothing, i, {}, {}});
  }
}

bool is_shown(const PartFault& fault, const std::vector<ProbedWiring>& wirings) {
  return std::any_of(wirings.begin(), wirings.end(), [&](const ProbedWiring& wiring) { return wiring.shows(fault); });
}

bool can_be(const PartFault& fault, const std::vector<ProbedWiring>& wirings) {
  return std::any_of(wirings.begin(), wirings.end(), [&](const ProbedWiring& wiring) { return wiring.can_be(fault); });
}

void check_faults(const Appliance& appliance, const std::vector<ProbedWiring>& wirings,
                  std::vector<ApplianceFinding>& findings) {
  std::vector<ApplianceFinding> unseen;
  for (std::size_t part = 0; part < appliance.parts.size(); ++part) {
    const PlacedPart& placed = appliance.parts[part];
    std::vector<ApplianceFinding> of_part;
    bool is_reached = false;
    bool is_looked_for = false;
    for (std::size_t mode = 0; mode < placed.kind->descriptor().fault_modes.size(); ++mode) {
      const PartFault fault{part, static_cast<std::uint16_t>(mode)};
      if (!(placed.weight_of(mode) > 0.0) || !can_be(fault, wirings)) continue;
      is_looked_for = true;
      if (is_shown(fault, wirings))
        is_reached = true;
      else
        of_part.push_back({Form::unseen_fault, part, fault, {}});
    }
    if (is_looked_for && !is_reached)
      findings.push_back({Form::unreached_part, part, {}, {}});
    else
      unseen.insert(unseen.end(), of_part.begin(), of_part.end());
  }
  findings.insert(findings.end(), unseen.begin(), unseen.end());
}

}  // namespace

bool is_wrong(Form form) { return form != Form::unseen_fault && form != Form::never_told_apart; }

std::vector<ApplianceFinding> check_appliance(const Appliance& appliance) {
  std::vector<ProbedWiring> wirings;
  for (const Excitation excitation : {Excitation::ohmmeter, Excitation::alternating_supply}) {
    wirings.emplace_back(appliance, std::nullopt, excitation);
    for (std::size_t set_up = 0; set_up < appliance.set_ups.size(); ++set_up)
      if (!(excitation == Excitation::ohmmeter && appliance.set_ups[set_up].live))  // no ohms with the supply on
        wirings.emplace_back(appliance, set_up, excitation);
  }
  std::vector<ApplianceFinding> findings;
  check_nodes(appliance, wirings, findings);
  check_ends(appliance, findings);
  check_test_points(appliance, wirings, findings);
  check_faults(appliance, wirings, findings);
  return findings;
}

}  // namespace ohmwright
