#include <algorithm>
#include <cmath>

#include <ohmwright/appliance/cut_wire.hpp>
#include <ohmwright/appliance/opens_hot.hpp>
#include <ohmwright/circuit/clamp_ammeter.hpp>
#include <ohmwright/circuit/ohmmeter.hpp>
#include <ohmwright/circuit/voltmeter.hpp>
#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/locate/scale.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::course {

namespace {

/// A range wider than this is one of orders of magnitude, and drawn evenly over its logarithm.
constexpr double widest_even = 0.35;
/// What a part may be of which nothing is known [ohm], as `locate::part_model` states it.
constexpr double unknown_least = 1.0;
constexpr double unknown_most = 1e6;
constexpr std::size_t elements_of_a_part = 16;  // more than any kind states
/// What a lead's push-on connector has [ohm] (common practice, no source); it keeps a current among several of them
/// told.
constexpr double connector_ohm = 1e-4;
constexpr double input_of_a_voltmeter_ohm = 10e6;

double within(double low, double high, double share) {
  const double width = high - low;
  return low + share * width;
}

std::vector<double> drawn_shares(std::size_t count, DrawStream& draws) {
  std::vector<double> all;
  for (std::size_t i = 0; i < count; ++i) all.push_back(draws.uniform());
  return all;
}

/// Whether a set-up finds a zone within what it is to bring about: "cold to the hand" changes no motor that is cold.
bool stays_as_found(const StatedValue& found, const StatedValue& after) {
  const double off = std::abs(found.value.value_in_si() - after.value.value_in_si());
  return off + found.half_width.value_or(0.0) <= after.half_width.value_or(0.0);
}

std::vector<circuit::Change> lifted_leads(const TestPoint& point,
                                          const std::vector<std::vector<circuit::BranchIndex>>& leads) {
  std::vector<circuit::Change> changes;
  for (const PartTerminal& lifted : point.lifted)
    changes.push_back({leads[lifted.part][lifted.terminal], circuit::open()});
  return changes;
}

/// The same spread, so much further up.
void add_ohms(double ohms, Element& element) {
  const double spread = element.value_in_si * element.relative_half_width;
  element.value_in_si += ohms;
  if (element.value_in_si > 0.0) element.relative_half_width = spread / element.value_in_si;
}

double drawn_value(const Element& element, double share) {
  const double low = element.value_in_si * (1.0 - element.relative_half_width);
  const double high = element.value_in_si * (1.0 + element.relative_half_width);
  if (element.relative_half_width <= widest_even || high <= 0.5) return within(low, high, share);
  return std::exp(within(std::log(std::max(low, 1e-3 * high)), std::log(high), share));
}

}  // namespace

/// Nodes of the appliance, a node for each terminal, and the points within parts.
struct DrawnBench::Wiring {
  circuit::Network network;
  std::vector<std::vector<circuit::NodeIndex>> ends;     ///< by part
  std::vector<std::vector<circuit::BranchIndex>> leads;  ///< by part and terminal

  explicit Wiring(const Appliance& appliance) {
    for (std::size_t i = 0; i < appliance.nodes.size(); ++i) network.add_node();
    for (const PlacedPart& part : appliance.parts) {
      auto& own = ends.emplace_back();
      auto& to_wiring = leads.emplace_back();
      for (const std::optional<std::size_t>& node : part.nodes) {
        own.push_back(network.add_node());
        const auto to = node ? static_cast<circuit::NodeIndex>(*node) : own.back();
        to_wiring.push_back(network.add_branch(
            own.back(), to, node ? circuit::resistance(Resistance::from_value(connector_ohm)) : circuit::open(),
            part.id));
      }
    }
  }
  circuit::NodeIndex end(std::size_t part, std::size_t index) {
    while (ends[part].size() <= index) ends[part].push_back(network.add_node());
    return ends[part][index];
  }
  circuit::NodeIndex node(const ProbePlace& place) const {
    return place.terminal ? ends[place.terminal->part][place.terminal->terminal]
                          : static_cast<circuit::NodeIndex>(*place.node);
  }
};

DrawnBench::DrawnBench(const Bench& bench, const locate::FaultList& faults, const locate::Candidate& truth,
                       DrawStream& draws)
    : bench_(&bench), faults_(&faults), truth_(&truth) {
  const Appliance& appliance = bench.appliance;
  for (std::size_t part = 0; part < appliance.parts.size(); ++part)
    element_shares_.push_back(drawn_shares(elements_of_a_part, draws));
  for (std::size_t set_up = 0; set_up <= appliance.set_ups.size(); ++set_up)
    zone_shares_.push_back(drawn_shares(appliance.zones.size(), draws));
  for (std::size_t part = 0; part < appliance.parts.size(); ++part)
    if (const std::optional<Opening> opening = opens_under_power(part)) opens_under_power_.push_back(*opening);
  supply_share_ = draws.uniform();
  constexpr double least_stray = 50e-12;  // between a live wire and one beside it, over some metres (assumed)
  constexpr double most_stray = 400e-12;
  stray_farad_ = within(least_stray, most_stray, draws.uniform());
}

DrawnBench::DrawnBench(const Bench& bench, const locate::FaultList& faults, const locate::Candidate& truth,
                       const HeldShares& held)
    : bench_(&bench), faults_(&faults), truth_(&truth), held_(held) {
  const std::vector<double> of_zones(bench.appliance.zones.size(), held.temperature);
  zone_shares_.assign(bench.appliance.set_ups.size() + 1, of_zones);
}

double DrawnBench::value_share(std::size_t part, std::size_t element) const {
  if (held_) return element == 0 ? held_->first_value : held_->other_values;
  return element_shares_[part][element];
}

double DrawnBench::length_share(std::size_t part) const {
  return held_ ? held_->other_values : element_shares_[part][elements_of_a_part - 2];
}

double DrawnBench::value_of(const Element& element, double share) const {
  if (!held_) return drawn_value(element, share);
  return within(element.value_in_si * (1.0 - element.relative_half_width),
                element.value_in_si * (1.0 + element.relative_half_width), share);
}

Situation DrawnBench::situation_of(std::size_t part, const locate::Measurement& measurement,
                                   Excitation excitation) const {
  const Appliance& appliance = bench_->appliance;
  const locate::Site found = locate::site_as_found(appliance);
  locate::Site site = locate::after_set_up(appliance, found, measurement.set_up);
  double share = 0.0;
  if (const std::optional<std::size_t>& zone = appliance.parts[part].zone) {
    const bool stays = stays_as_found(found.zone_temperatures[*zone], site.zone_temperatures[*zone]);
    if (stays) site.zone_temperatures[*zone] = found.zone_temperatures[*zone];
    share = 2.0 * zone_shares_[stays ? 0 : *measurement.set_up + 1][*zone] - 1.0;
  }
  return locate::situation_of(appliance, part, site, excitation, share);
}

/// A wire that a leak cuts in two is as long as it was (`cut_wire`).
void DrawnBench::keep_whole(std::size_t part, const Situation& situation, std::vector<Element>& elements) const {
  const PlacedPart& placed = bench_->appliance.parts[part];
  std::vector<Element> good;
  placed.kind->call("its electrical model", [&] { return placed.part->electrical_model(not_found, situation, good); });
  const std::optional<CutWire> cut = cut_wire(good, elements, placed.nodes.size());
  if (!cut) return;
  const double length = value_of(good[0], length_share(part));
  const double before = within(cut->least_share, cut->most_share, value_share(part, 0));
  elements[0].value_in_si = before * length;
  elements[1].value_in_si = (1.0 - before) * length;
  elements[0].relative_half_width = elements[1].relative_half_width = 0.0;
}

circuit::BranchModel DrawnBench::model_of(const Element& element, double share, double contact_share) const {
  const double value = value_of(element, share);
  switch (element.type) {
    case ElementType::contact:
      if (contact_share >= element.probability_closed) return circuit::open();
      [[fallthrough]];
    case ElementType::resistance:
      return circuit::resistance(Resistance::from_value(std::max(value, connector_ohm)));
    case ElementType::capacitance:
      return circuit::capacitance(Capacitance::from_value(value));
    case ElementType::inductance:
      return circuit::inductance(Inductance::from_value(value));
    case ElementType::closed:
      return circuit::resistance(Resistance::from_value(connector_ohm));
    case ElementType::voltage_source:
      return circuit::voltage_source(Voltage::from_value(value));
    case ElementType::open:
      break;
  }
  return circuit::open();
}

void DrawnBench::add_parts(const locate::Measurement& measurement, Excitation excitation, DrawStream& draws,
                           Wiring& wiring) const {
  const bool is_ohms = bench_->appliance.test_points[measurement.test_point].probe == Probe::ohms;
  const Excitation of_good_parts = is_ohms ? Excitation::ohmmeter : Excitation::alternating_supply;
  for (std::size_t part = 0; part < bench_->appliance.parts.size(); ++part)
    add_part(part, measurement, faults_->fault_of(*truth_, part) == not_found ? of_good_parts : excitation, draws,
             wiring);
}

void DrawnBench::add_part(std::size_t part, const locate::Measurement& measurement, Excitation excitation,
                          DrawStream& draws, Wiring& wiring) const {
  const PlacedPart& placed = bench_->appliance.parts[part];
  const std::uint16_t fault = faults_->fault_of(*truth_, part);
  std::vector<Element> elements;
  const ModelAnswer answer = placed.kind->call("its electrical model", [&] {
    return placed.part->electrical_model(fault, situation_of(part, measurement, excitation), elements);
  });
  if (fault != not_found) keep_whole(part, situation_of(part, measurement, excitation), elements);
  if (answer != ModelAnswer::stated) elements = {resistance_between(0, 1, unknown_least, unknown_most)};
  const bool comes_and_goes =
      fault != not_found && placed.kind->descriptor().fault_modes[fault].id == comes_and_goes_mode;
  for (std::size_t i = 0; i < elements.size() && i < elements_of_a_part; ++i) {
    // A contact's share of good parts closed there is where this part's own trip point lies among theirs: it is what
    // it is, at every reading. Only of an intermittent fault it is a share of the time.
    const double drawn_anew = draws.uniform();
    const double contact_share = held_            ? held_->contact
                                 : comes_and_goes ? drawn_anew
                                                  : element_shares_[part][elements_of_a_part - 1 - i];
    if (held_ && comes_and_goes && elements[i].type == ElementType::contact) add_ohms(held_->loose_ohm, elements[i]);
    const circuit::NodeIndex from = wiring.end(part, elements[i].from);
    const circuit::NodeIndex to = wiring.end(part, elements[i].to);
    wiring.network.add_branch(from, to, model_of(elements[i], value_share(part, i), contact_share), placed.id);
  }
}

void DrawnBench::add_supply(Wiring& wiring) const {
  const Appliance& appliance = bench_->appliance;
  const MainsSupply& mains = appliance.supply;
  const bool is_cut = truth_->outside_cause && appliance.outside_causes[*truth_->outside_cause].cuts_supply;
  const double half_width = mains.voltage.half_width.value_or(0.0);
  const double volts = within(mains.voltage.value.value_in_si() - half_width,
                              mains.voltage.value.value_in_si() + half_width, supply_share_);
  const auto node = [](std::size_t index) { return static_cast<circuit::NodeIndex>(index); };
  if (!is_cut)
    wiring.network.add_branch(node(mains.live), node(mains.neutral),
                              circuit::voltage_source(Voltage::from_value(volts)), "the supply");
  if (mains.earth)
    wiring.network.add_branch(node(mains.neutral), node(*mains.earth),
                              circuit::resistance(Resistance::from_value(connector_ohm)), "the supply's earth");
  for (std::size_t i = 0; i < appliance.nodes.size(); ++i)
    if (i != mains.live)
      wiring.network.add_branch(node(mains.live), node(i), circuit::capacitance(Capacitance::from_value(stray_farad_)),
                                "stray capacitance");
}

/// The ends of what the part's fault opens once it is hot, if it does.
std::optional<DrawnBench::Opening> DrawnBench::opens_under_power(std::size_t part) const {
  const PlacedPart& placed = bench_->appliance.parts[part];
  const std::uint16_t fault = faults_->fault_of(*truth_, part);
  if (fault == not_found) return std::nullopt;
  const auto model = [&](std::uint16_t of_fault, Excitation excitation) {
    std::vector<Element> elements;
    placed.kind->call("its electrical model", [&] {
      return placed.part->electrical_model(of_fault, situation_of(part, {}, excitation), elements);
    });
    return elements;
  };
  const std::vector<Element> cold = model(fault, Excitation::ohmmeter);
  const std::optional<std::size_t> opening = opening_element(model(not_found, Excitation::alternating_supply), cold,
                                                             model(fault, Excitation::alternating_supply));
  if (!opening) return std::nullopt;
  return Opening{part, cold[*opening].from, cold[*opening].to};
}

/// Whether the supply reaches a part at fault as long as it is as cold as an ohmmeter finds it: what opens when it is
/// hot stays whole behind a contact that is open, and where both its ends have the same volts.
bool DrawnBench::feeds_a_faulty_part(const locate::Measurement& measurement, DrawStream draws) const {
  const Appliance& appliance = bench_->appliance;
  Wiring wiring(appliance);
  add_parts(measurement, Excitation::ohmmeter, draws, wiring);
  add_supply(wiring);
  std::vector<circuit::NodePair> pairs;
  for (const Opening& opening : opens_under_power_)
    pairs.push_back({wiring.end(opening.part, opening.from), wiring.end(opening.part, opening.to)});
  const std::vector<circuit::Change> changes =
      lifted_leads(appliance.test_points[measurement.test_point], wiring.leads);
  const auto hertz = Frequency::from_value(appliance.supply.frequency.value.value_in_si());
  const circuit::Voltmeter meter(wiring.network, hertz, Resistance::from_value(input_of_a_voltmeter_ohm), pairs,
                                 changes);
  const double enough = least_share_that_heats * appliance.supply.voltage.value.value_in_si();
  for (std::size_t pair = 0; pair < pairs.size(); ++pair)
    if (circuit::magnitude(meter.reading(pair)).value() >= enough) return true;
  return false;
}

locate::TakenReading taken_reading(const Combination& combination, Probe probe, std::optional<double> shown) {
  const Dimension dimension = locate::dimension_of(probe);
  if (!shown) return {combination.measurement, OverRange{}, "reading"};
  return {combination.measurement, StatedValue{AnyQuantity(dimension, *shown), std::nullopt, Unit::si(dimension)},
          "reading"};
}

std::optional<double> DrawnBench::value_at(const locate::Measurement& measurement, DrawStream& draws) const {
  const Appliance& appliance = bench_->appliance;
  const TestPoint& point = appliance.test_points[measurement.test_point];
  Wiring wiring(appliance);
  if (point.probe == Probe::ohms) {
    add_parts(measurement, Excitation::ohmmeter, draws, wiring);
    const circuit::NodePair probes{wiring.node(point.from), wiring.node(point.to)};
    const circuit::Ohmmeter meter(wiring.network, std::span(&probes, 1), lifted_leads(point, wiring.leads));
    const std::optional<Resistance> reading = meter.reading(0);
    return reading ? std::optional(reading->value()) : std::nullopt;
  }
  const DrawStream at_this_reading = draws;
  add_parts(measurement, Excitation::alternating_supply, draws, wiring);
  try {
    if (!opens_under_power_.empty() && !feeds_a_faulty_part(measurement, at_this_reading)) {
      wiring = Wiring(appliance);
      DrawStream same_draws = at_this_reading;
      add_parts(measurement, Excitation::ohmmeter, same_draws, wiring);
    }
    return live_value(point, wiring);
  } catch (const InputError&) {
    return 0.0;  // a dead short across the supply: the breaker has tripped
  }
}

double DrawnBench::live_value(const TestPoint& point, Wiring& wiring) const {
  add_supply(wiring);
  const auto hertz = Frequency::from_value(bench_->appliance.supply.frequency.value.value_in_si());
  const std::vector<circuit::Change> changes = lifted_leads(point, wiring.leads);
  if (point.probe == Probe::volts) {
    const circuit::NodePair probes{wiring.node(point.from), wiring.node(point.to)};
    const circuit::Voltmeter meter(wiring.network, hertz, Resistance::from_value(input_of_a_voltmeter_ohm),
                                   std::span(&probes, 1), changes);
    return circuit::magnitude(meter.reading(0)).value();
  }
  const circuit::BranchIndex around = wiring.leads[point.from.terminal->part][point.from.terminal->terminal];
  const circuit::ClampAmmeter meter(wiring.network, hertz, std::span(&around, 1), changes);
  const std::optional<circuit::CurrentPhasor> reading = meter.reading(0);
  return reading ? circuit::magnitude(*reading).value() : 0.0;
}

}  // namespace ohmwright::course
