#include <algorithm>
#include <cassert>

#include <ohmwright/circuit/clamp_ammeter.hpp>

namespace ohmwright::circuit {

ClampAmmeter::ClampAmmeter(const Network& network, Frequency line_frequency, std::span<const BranchIndex> branches,
                           std::span<const Change> changes)
    : prepared_(network, live_feed(line_frequency), {}, changes, branches) {
  const Solution<Phasor>& solution = prepared_.solution();
  const Responses<Phasor>& responses = prepared_.responses();
  for (const BranchIndex branch : branches) {
    assert(branch < network.branches().size());
    Probed probed;
    probed.branch = branch;
    probed.undetermined = solution.current_is_undetermined(branch);
    const std::size_t known = solution.known_coordinate(branch);
    probed.is_known = known != Solution<Phasor>::none;
    if (probed.is_known) {
      find_known(probed, known);
    } else {
      probed.current = prepared_.states()[branch].value * responses.branch_voltages()[branch];
    }
    probed_.push_back(std::move(probed));
  }
}

void ClampAmmeter::find_known(Probed& probed, std::size_t known) const {
  const Solution<Phasor>& solution = prepared_.solution();
  const std::size_t branch_count = prepared_.branches().size();
  probed.current = solution.current(known, prepared_.responses().branch_voltages());
  std::vector<Phasor> of_one_volt(branch_count);
  const auto voltages_for = [&](std::size_t coordinate) {
    for (std::size_t b = 0; b < branch_count; ++b)
      of_one_volt[b] = solution.transfer(solution.way_of(static_cast<BranchIndex>(b)), coordinate);
  };
  voltages_for(known);
  probed.to_branches = of_one_volt;
  for (std::size_t other = 0; other < solution.known_count(); ++other) {
    const bool is_source =
        prepared_.branches()[solution.branch_of_known(other)].model.type == BranchType::voltage_source;
    if (is_source) voltages_for(other);
    probed.to_knowns.push_back(is_source ? solution.current(known, of_one_volt) : Phasor{});
  }
}

std::optional<CurrentPhasor> ClampAmmeter::reading(std::size_t probed) const {
  if (probed_[probed].undetermined) return std::nullopt;
  return CurrentPhasor::from_value(probed_[probed].current);
}

void ClampAmmeter::sensitivities(std::size_t probed, std::span<double> by_value) const {
  with({}).sensitivities(probed, by_value);
}

ClampAmmeter::Variant ClampAmmeter::with(std::span<const Change> changes) const {
  return {*this, Variation<Phasor>(prepared_, changes)};
}

std::optional<CurrentPhasor> ClampAmmeter::Variant::reading(std::size_t probed) {
  const Probed& at = ammeter_->probed_[probed];
  const Update<Phasor>* const update = variation_.update();
  if (update == nullptr) return solved_reading(at.branch);
  if (at.undetermined) return std::nullopt;
  const BranchState<Phasor> now = variation_.state(at.branch);
  if (now.conduct == Conduct::absent) return CurrentPhasor{};
  const Responses<Phasor>& responses = variation_.prepared().responses();
  const std::size_t row = responses.row_of(at.branch);
  if (!at.is_known && now.conduct == Conduct::joined) return closed_by_update(at.branch);
  const Phasor* const to_branches = at.is_known ? at.to_branches.data() : responses.to_branches(row);
  Phasor result = at.is_known ? at.current : responses.voltage(row);
  double parts = std::abs(result);
  for (std::size_t i = 0; i < update->count; ++i) {
    const Phasor part = to_branches[update->branch[i]] * update->current[i];
    result -= part;
    parts += std::abs(part);
  }
  if (variation_.cancels(std::abs(result), parts)) return solved_reading(at.branch);
  return CurrentPhasor::from_value(at.is_known ? result : now.value * result);
}

// All the current of a branch that this variant closes is the correction's.
std::optional<CurrentPhasor> ClampAmmeter::Variant::closed_by_update(BranchIndex branch) {
  constexpr std::size_t row = Update<Phasor>::most_changes;
  const Update<Phasor>& update = *variation_.update();
  const std::span<const Phasor> voltages = variation_.prepared().responses().branch_voltages();
  for (std::size_t i = 0; i < update.count; ++i) {
    if (update.branch[i] != branch) continue;
    double parts = 0.0;
    for (std::size_t j = 0; j < update.count; ++j)
      parts += std::abs(update.gain[i * row + j] * voltages[update.branch[j]]);
    if (!variation_.cancels(std::abs(update.current[i]), parts)) return CurrentPhasor::from_value(update.current[i]);
  }
  return solved_reading(branch);
}

std::optional<CurrentPhasor> ClampAmmeter::Variant::solved_reading(BranchIndex branch) {
  const Solution<Phasor>& solution = variation_.solve();
  if (solution.current_is_undetermined(branch)) return std::nullopt;
  std::vector<Phasor> voltages(variation_.prepared().branches().size());
  variation_.branch_voltages(voltages);
  const std::size_t known = solution.known_coordinate(branch);
  return CurrentPhasor::from_value(known != Solution<Phasor>::none ? solution.current(known, voltages)
                                                                   : variation_.state(branch).value * voltages[branch]);
}

// As `Variation::transfers`, of a coordinate in place of a pair of probes.
ClampAmmeter::Variant::Responding ClampAmmeter::Variant::by_update(const Probed& at) const {
  const Update<Phasor>& update = *variation_.update();
  const Prepared<Phasor>& prepared = variation_.prepared();
  const Solution<Phasor>& solution = prepared.solution();
  Responding now{at.current, std::vector<Phasor>(at.to_branches.size()), at.to_branches,
                 std::vector<Phasor>(at.to_branches.size())};
  variation_.branch_voltages(now.voltages);
  for (std::size_t known = 0; known < at.to_knowns.size(); ++known)
    now.to_sources[solution.branch_of_known(known)] = at.to_knowns[known];
  const auto gains = update.currents(at.to_branches.data());
  for (std::size_t i = 0; i < update.count; ++i) {
    const BranchIndex changed = update.branch[i];
    now.current -= at.to_branches[changed] * update.current[i];
    const Phasor* const seen_there = prepared.responses().to_branches(prepared.responses().row_of(changed));
    for (std::size_t b = 0; b < now.to_branches.size(); ++b) now.to_branches[b] -= gains[i] * seen_there[b];
    for (std::size_t known = 0; known < at.to_knowns.size(); ++known)
      now.to_sources[solution.branch_of_known(known)] -= gains[i] * solution.transfer(solution.way_of(changed), known);
  }
  return now;
}

ClampAmmeter::Variant::Responding ClampAmmeter::Variant::solved(BranchIndex branch) {
  const Prepared<Phasor>& prepared = variation_.prepared();
  const Solution<Phasor>& solution = variation_.solve();
  const std::size_t branch_count = prepared.branches().size();
  Responding now{
      {}, std::vector<Phasor>(branch_count), std::vector<Phasor>(branch_count), std::vector<Phasor>(branch_count)};
  variation_.branch_voltages(now.voltages);
  const std::size_t known = solution.known_coordinate(branch);
  if (known == Solution<Phasor>::none) {
    const Phasor siemens = variation_.state(branch).value;
    now.current = siemens * now.voltages[branch];
    variation_.transfers({prepared.branches()[branch].from, prepared.branches()[branch].to}, now.to_branches,
                         now.to_sources);
    for (std::size_t b = 0; b < branch_count; ++b) {
      now.to_branches[b] *= siemens;
      now.to_sources[b] *= siemens;
    }
    return now;
  }
  now.current = solution.current(known, now.voltages);
  std::vector<Phasor> of_one_source(branch_count);
  for (std::size_t other = 0; other < solution.known_count(); ++other) {
    // Of all conductors without resistance only the probed one and true sources have a say.
    const bool is_source = variation_.model(solution.branch_of_known(other)).type == BranchType::voltage_source;
    if (other != known && !is_source) continue;
    for (std::size_t b = 0; b < branch_count; ++b) {
      of_one_source[b] = solution.transfer(solution.way_of(static_cast<BranchIndex>(b)), other);
      if (other == known) now.to_branches[b] = of_one_source[b];
    }
    now.to_sources[solution.branch_of_known(other)] = solution.current(known, of_one_source);
  }
  return now;
}

void ClampAmmeter::Variant::sensitivities(std::size_t probed, std::span<double> by_value) {
  const Prepared<Phasor>& prepared = variation_.prepared();
  assert(by_value.size() == prepared.branches().size());
  std::fill(by_value.begin(), by_value.end(), 0.0);
  const Probed& at = ammeter_->probed_[probed];
  const Conduct conduct = variation_.state(at.branch).conduct;
  // The reading first: it solves anew what a correction would lose the digits of.
  if (conduct == Conduct::absent || !reading(probed)) return;
  const bool is_corrected =
      variation_.update() != nullptr && at.is_known && conduct == prepared.states()[at.branch].conduct;
  const Responding now = is_corrected ? by_update(at) : solved(at.branch);
  for (std::size_t b = 0; b < by_value.size(); ++b) {
    const BranchModel& model = variation_.model(static_cast<BranchIndex>(b));
    Phasor slope = now.to_sources[b] * source_direction(model);
    Phasor by_admittance = -now.to_branches[b] * now.voltages[b];
    if (b == at.branch) by_admittance += now.voltages[b];
    slope += by_admittance * prepared.feed().admittance_slope(model);
    by_value[b] = magnitude_slope(now.current, slope);
  }
}

}  // namespace ohmwright::circuit
