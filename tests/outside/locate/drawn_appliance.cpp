#include "drawn_appliance.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>
#include <set>
#include <utility>

#include <ohmwright/appliance/cut_wire.hpp>
#include <ohmwright/appliance/opens_hot.hpp>
#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/locate/site.hpp>

namespace ohmwright::locate::testing {

namespace {

/// What a lead's terminal has at its push-on connector [ohm] (common practice, no source), and what stands for a
/// conductor that a file calls joined: no simulator divides a current among branches without any resistance.
constexpr double joined_ohm = 1e-4;
/// A range wider than this is one of orders of magnitude, and drawn evenly over its logarithm.
constexpr double widest_linear = 0.35;
/// Below this a range is no matter of orders of magnitude [ohm]; one that reaches down to nothing is a dead short with
/// that share, as docs/arithmetic.md states.
constexpr double small_ohm = 0.5;
constexpr double dead_short_share = 1.0 / 7.0;
/// What a part may be of which nothing is known [ohm]: the range that `part_model` states.
constexpr double unknown_low = 1.0;
constexpr double unknown_high = 1e6;
/// More elements than any kind states.
constexpr std::size_t most_elements = 16;

double between(double low, double high, double share) { return low + share * (high - low); }

const Candidate& drawn_candidate(const FaultList& faults, double share) {
  for (const Candidate& candidate : faults.candidates()) {
    share -= candidate.prior;
    if (share < 0.0) return candidate;
  }
  return faults.candidates().back();
}

std::vector<double> shares(std::size_t count, ReproducibleStream& stream) {
  std::vector<double> all;
  for (std::size_t i = 0; i < count; ++i) all.push_back(stream.uniform());
  return all;
}

double value_in_range(const Element& element, double share) {
  const double low = element.value_in_si * (1.0 - element.relative_half_width);
  const double high = element.value_in_si * (1.0 + element.relative_half_width);
  if (element.relative_half_width <= widest_linear || high <= small_ohm) return between(low, high, share);
  if (element.type != ElementType::resistance && element.type != ElementType::contact)
    return std::exp(between(std::log(std::max(low, 1e-3 * high)), std::log(high), share));
  constexpr double rounding = 1e-9;
  if (low >= (1.0 - rounding) * small_ohm) return std::exp(between(std::log(low), std::log(high), share));
  if (share < dead_short_share) return small_ohm * share / dead_short_share;
  const double rest = (share - dead_short_share) / (1.0 - dead_short_share);
  return std::exp(between(std::log(small_ohm), std::log(high), rest));
}

}  // namespace

/// Branches by the appliance's nodes, each part's terminals and its inner points.
struct DrawnAppliance::Wiring {
  const Appliance& appliance;
  std::vector<circuit::Branch> branches;
  std::vector<std::vector<circuit::NodeIndex>> ends;  ///< by part: terminals, then points within
  std::vector<std::vector<std::size_t>> leads;        ///< by part and terminal: index of the branch to the wiring
  std::size_t node_count = 0;
  std::set<std::size_t> cold_parts;  ///< that would open once they are hot, and are not

  explicit Wiring(const Appliance& of) : appliance(of), node_count(of.nodes.size()) {
    for (const PlacedPart& part : of.parts) {
      auto& own = ends.emplace_back();
      auto& to_wiring = leads.emplace_back();
      for (const std::optional<std::size_t>& node : part.nodes) {
        own.push_back(static_cast<circuit::NodeIndex>(node_count++));
        to_wiring.push_back(branches.size());
        const bool is_joined = node.has_value();
        add(own.back(), is_joined ? static_cast<circuit::NodeIndex>(*node) : own.back(),
            is_joined ? circuit::resistance(Resistance::from_value(joined_ohm)) : circuit::open());
      }
    }
  }

  void add(std::size_t from, std::size_t to, const circuit::BranchModel& model) {
    branches.push_back({static_cast<circuit::NodeIndex>(from), static_cast<circuit::NodeIndex>(to), model});
  }
  circuit::NodeIndex end(std::size_t part, std::size_t index) {
    while (ends[part].size() <= index) ends[part].push_back(static_cast<circuit::NodeIndex>(node_count++));
    return ends[part][index];
  }
  circuit::NodeIndex node(const ProbePlace& place) const {
    return place.terminal ? ends[place.terminal->part][place.terminal->terminal]
                          : static_cast<circuit::NodeIndex>(*place.node);
  }

  /// By node: a number that nodes share which branches join.
  std::vector<std::size_t> islands() const {
    std::vector<std::size_t> island(node_count);
    std::iota(island.begin(), island.end(), std::size_t{0});
    const auto root = [&](std::size_t node) {
      while (island[node] != node) node = island[node] = island[island[node]];
      return node;
    };
    for (const circuit::Branch& branch : branches)
      if (branch.model.type != circuit::BranchType::open) island[root(branch.from)] = root(branch.to);
    for (std::size_t node = 0; node < node_count; ++node) island[node] = root(node);
    return island;
  }
};

DrawnAppliance::DrawnAppliance(const FaultList& faults, double share, ReproducibleStream& stream)
    : faults_(&faults), truth_(&drawn_candidate(faults, share)) {
  const Appliance& appliance = faults.appliance();
  for (std::size_t part = 0; part < appliance.parts.size(); ++part)
    element_shares_.push_back(shares(most_elements, stream));
  for (std::size_t set_up = 0; set_up <= appliance.set_ups.size(); ++set_up)
    zone_shares_.push_back(shares(appliance.zones.size(), stream));
  supply_share_ = stream.uniform();
  constexpr double least_stray = 50e-12;  // between a live wire and one beside it, over some metres (assumed)
  constexpr double most_stray = 400e-12;
  stray_farad_ = between(least_stray, most_stray, stream.uniform());
}

Situation DrawnAppliance::situation_of(std::size_t part, const Measurement& measurement, Excitation excitation) const {
  const Appliance& appliance = faults_->appliance();
  const Site site = after_set_up(appliance, site_as_found(appliance), measurement.set_up);
  double share = 0.0;
  if (const std::optional<std::size_t>& zone = appliance.parts[part].zone) {
    // A zone that the set-up leaves alone stays as it was found.
    const Site found = site_as_found(appliance);
    const bool is_changed = site.zone_temperatures[*zone].value != found.zone_temperatures[*zone].value;
    share = 2.0 * zone_shares_[is_changed ? *measurement.set_up + 1 : 0][*zone] - 1.0;
  }
  return locate::situation_of(appliance, part, site, excitation, share);
}

circuit::BranchModel DrawnAppliance::model_of(const Element& element, double share, double contact_share) const {
  const double value = value_in_range(element, share);
  switch (element.type) {
    case ElementType::contact:
      if (contact_share >= element.probability_closed) return circuit::open();
      [[fallthrough]];
    case ElementType::resistance:
      return circuit::resistance(Resistance::from_value(std::max(value, joined_ohm)));
    case ElementType::capacitance:
      return circuit::capacitance(Capacitance::from_value(value));
    case ElementType::inductance:
      return circuit::inductance(Inductance::from_value(value));
    case ElementType::closed:
      return circuit::resistance(Resistance::from_value(joined_ohm));
    case ElementType::voltage_source:
      return circuit::voltage_source(Voltage::from_value(value));
    case ElementType::open:
      break;
  }
  return circuit::open();
}

/// What comes and goes is open while it is bad, or has some ohms: docs/arithmetic.md. The rest of the share that made
/// it bad says which.
circuit::BranchModel DrawnAppliance::while_it_is_bad(const Element& element, double share, double contact_share) {
  constexpr double of_ohms = 0.3;
  constexpr double least_ohm = 1.0;
  constexpr double most_ohm = 1e4;
  const double rest = (contact_share - element.probability_closed) / (1.0 - element.probability_closed);
  if (rest >= of_ohms) return circuit::open();
  const double more = least_ohm * std::pow(most_ohm / least_ohm, rest / of_ohms);
  return circuit::resistance(Resistance::from_value(value_in_range(element, share) + more));
}

/// A wire that a leak cuts in two is as long as it was; the cut lies anywhere along it.
void DrawnAppliance::keep_whole(std::size_t part, const Situation& situation, std::vector<Element>& elements) const {
  const PlacedPart& placed = faults_->appliance().parts[part];
  std::vector<Element> good;
  placed.kind->call("its electrical model", [&] { return placed.part->electrical_model(not_found, situation, good); });
  const std::optional<CutWire> cut = cut_wire(good, elements, placed.nodes.size());
  if (!cut) return;
  const std::vector<double>& shares = element_shares_[part];
  const double length = value_in_range(good[0], shares[most_elements - 2]);
  const double before = between(cut->least_share, cut->most_share, shares[0]);
  elements[0].value_in_si = before * length;
  elements[1].value_in_si = (1.0 - before) * length;
  elements[0].relative_half_width = elements[1].relative_half_width = 0.0;
}

void DrawnAppliance::add_part(std::size_t part, const Measurement& measurement, ReproducibleStream& stream,
                              Wiring& wiring) const {
  const Appliance& appliance = faults_->appliance();
  const PlacedPart& placed = appliance.parts[part];
  const bool is_ohms = appliance.test_points[measurement.test_point].probe == Probe::ohms;
  const std::uint16_t fault = faults_->fault_of(*truth_, part);
  const bool is_cold = is_ohms || wiring.cold_parts.contains(part);
  const Excitation excitation = is_cold ? Excitation::ohmmeter : Excitation::alternating_supply;
  std::vector<Element> elements;
  const ModelAnswer answer = placed.kind->call("its electrical model", [&] {
    return placed.part->electrical_model(fault, situation_of(part, measurement, excitation), elements);
  });
  if (answer != ModelAnswer::stated) elements = {resistance_between(0, 1, unknown_low, unknown_high)};
  if (fault != not_found) keep_whole(part, situation_of(part, measurement, excitation), elements);
  const bool comes_and_goes = fault != not_found && placed.kind->descriptor().fault_modes[fault].id == "intermittent";
  for (std::size_t i = 0; i < elements.size(); ++i) {
    const Element& element = elements[i];
    // A contact's share of good parts closed there is where this part's own trip point lies among theirs: it is what
    // it is, at every reading. Of one fault alone it is a share of the time.
    const double contact_share = comes_and_goes ? stream.uniform() : element_shares_[part][most_elements - 1 - i];
    circuit::BranchModel model = model_of(element, element_shares_[part][i], contact_share);
    if (comes_and_goes && element.type == ElementType::contact && model.type == circuit::BranchType::open)
      model = while_it_is_bad(element, element_shares_[part][i], contact_share);
    const bool settled =
        model.type == circuit::BranchType::inductance || model.type == circuit::BranchType::capacitance;
    if (is_ohms && settled)
      model = model.type == circuit::BranchType::inductance ? circuit::resistance(Resistance::from_value(joined_ohm))
                                                            : circuit::open();
    wiring.add(wiring.end(part, element.from), wiring.end(part, element.to), model);
  }
}

/// What would open because it is hot, were it not whole behind an open contact: less than a tenth of the supply's volts
/// across it heats nothing (docs/arithmetic.md).
std::set<std::size_t> DrawnAppliance::parts_that_stay_cold(const Measurement& measurement,
                                                           ReproducibleStream stream) const {
  const Appliance& appliance = faults_->appliance();
  std::map<std::size_t, std::pair<std::uint16_t, std::uint16_t>> opening;
  for (std::size_t part = 0; part < appliance.parts.size(); ++part) {
    const std::uint16_t fault = faults_->fault_of(*truth_, part);
    if (fault == not_found) continue;
    const auto model = [&](std::uint16_t of_fault, Excitation excitation) {
      const PlacedPart& placed = appliance.parts[part];
      std::vector<Element> elements;
      placed.kind->call("its electrical model", [&] {
        return placed.part->electrical_model(of_fault, situation_of(part, measurement, excitation), elements);
      });
      return elements;
    };
    const std::vector<Element> cold = model(fault, Excitation::ohmmeter);
    const std::optional<std::size_t> opens = opening_element(model(not_found, Excitation::alternating_supply), cold,
                                                             model(fault, Excitation::alternating_supply));
    if (opens) opening[part] = {cold[*opens].from, cold[*opens].to};
  }
  std::set<std::size_t> cold;
  if (opening.empty()) return cold;
  Wiring wiring(appliance);
  for (const auto& [part, ends] : opening) wiring.cold_parts.insert(part);
  constexpr double not_hot_yet = 0.2;  // of readings, as docs/arithmetic.md states
  if (stream.uniform() < not_hot_yet) return wiring.cold_parts;
  for (std::size_t part = 0; part < appliance.parts.size(); ++part) add_part(part, measurement, stream, wiring);
  for (const PartTerminal& lifted : appliance.test_points[measurement.test_point].lifted)
    wiring.branches[wiring.leads[lifted.part][lifted.terminal]].model = circuit::open();
  const MainsSupply& mains = appliance.supply;
  const bool is_cut = truth_->outside_cause && appliance.outside_causes[*truth_->outside_cause].cuts_supply;
  if (!is_cut)
    wiring.add(mains.live, mains.neutral,
               circuit::voltage_source(Voltage::from_value(mains.voltage.value.value_in_si())));
  if (mains.earth) wiring.add(mains.neutral, *mains.earth, circuit::resistance(Resistance::from_value(joined_ohm)));
  std::vector<circuit::NodePair> pairs;
  for (const auto& [part, ends] : opening)
    pairs.push_back({wiring.end(part, ends.first), wiring.end(part, ends.second)});
  circuit::Network network;
  for (std::size_t node = 0; node < wiring.node_count; ++node) network.add_node();
  for (const circuit::Branch& branch : wiring.branches) network.add_branch(branch.from, branch.to, branch.model);
  const auto hertz = Frequency::from_value(mains.frequency.value.value_in_si());
  const circuit::Voltmeter volts(network, hertz, Resistance::from_value(10e6), pairs);
  std::size_t pair = 0;
  for (const auto& [part, ends] : opening)
    if (circuit::magnitude(volts.reading(pair++)).value() < least_share_that_heats * mains.voltage.value.value_in_si())
      cold.insert(part);
  return cold;
}

WiredReading DrawnAppliance::wired_for(const Measurement& measurement, ReproducibleStream& stream) const {
  const Appliance& appliance = faults_->appliance();
  const TestPoint& point = appliance.test_points[measurement.test_point];
  Wiring wiring(appliance);
  if (point.probe != Probe::ohms) wiring.cold_parts = parts_that_stay_cold(measurement, stream);
  for (std::size_t part = 0; part < appliance.parts.size(); ++part) add_part(part, measurement, stream, wiring);
  WiredReading wired;
  wired.probe = point.probe;
  const auto joined = circuit::resistance(Resistance::from_value(joined_ohm));
  for (const PartTerminal& lifted : point.lifted)
    wiring.branches[wiring.leads[lifted.part][lifted.terminal]].model = circuit::open();
  std::optional<std::size_t> supply;
  std::optional<std::size_t> clamp;
  if (point.probe != Probe::ohms) {
    const MainsSupply& mains = appliance.supply;
    const bool is_cut = truth_->outside_cause && appliance.outside_causes[*truth_->outside_cause].cuts_supply;
    const double half_width = mains.voltage.half_width.value_or(0.0);
    const double volts = mains.voltage.value.value_in_si() + (2.0 * supply_share_ - 1.0) * half_width;
    supply = wiring.branches.size();
    wiring.add(mains.live, mains.neutral,
               is_cut ? circuit::open() : circuit::voltage_source(Voltage::from_value(volts)));
    if (mains.earth) wiring.add(mains.neutral, *mains.earth, joined);
    for (std::size_t node = 0; node < appliance.nodes.size(); ++node)
      if (node != mains.live) wiring.add(mains.live, node, circuit::capacitance(Capacitance::from_value(stray_farad_)));
  }
  if (point.probe == Probe::amperes) {
    clamp = wiring.leads[point.from.terminal->part][point.from.terminal->terminal];
    if (wiring.branches[*clamp].model.type != circuit::BranchType::open)
      wiring.branches[*clamp].model = circuit::closed();
    wired.probes = {static_cast<circuit::NodeIndex>(appliance.supply.live),
                    static_cast<circuit::NodeIndex>(appliance.supply.neutral)};
  } else {
    wired.probes = {wiring.node(point.from), wiring.node(point.to)};
  }
  const std::vector<std::size_t> islands = wiring.islands();
  const std::size_t home = islands[wired.probes.minus];
  wired.apart = islands[wired.probes.plus] != home;
  for (std::size_t node = 0; node < wiring.node_count; ++node) wired.network.add_node();
  for (std::size_t i = 0; i < wiring.branches.size(); ++i) {
    const circuit::Branch& branch = wiring.branches[i];
    if (branch.model.type == circuit::BranchType::open || islands[branch.from] != home) continue;
    const circuit::BranchIndex index = wired.network.add_branch(branch.from, branch.to, branch.model);
    if (supply == i) wired.supply = index;
    if (clamp == i) wired.clamp = index;
  }
  return wired;
}

}  // namespace ohmwright::locate::testing
