#include <algorithm>
#include <cassert>

#include <ohmwright/circuit/clamp_ammeter.hpp>

namespace ohmwright::circuit {
namespace {

using Phasor = std::complex<double>;

}  // namespace

ClampAmmeter::ClampAmmeter(const Network& network, Frequency line_frequency, std::span<const BranchIndex> branches,
                           std::span<const Change> changes)
    : prepared_(network, live_feed(line_frequency), {}, changes, JoinedCurrents::wanted) {
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
      probed.current = solution.current(known, responses.branch_voltages());
      TreePath path;
      for (const BranchState<Phasor>& state : prepared_.states()) {
        const NodePair ends{state.from, state.to};
        const bool apart = solution.separated(ends);
        if (!apart) solution.path(ends, path);
        probed.to_branches.push_back(apart ? Phasor{} : solution.transfer(path, known));
      }
    } else {
      probed.current = prepared_.states()[branch].value * responses.branch_voltages()[branch];
    }
    probed_.push_back(std::move(probed));
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

// On the solution of the variant itself: a current is asked for less often than ohms and volts.
void ClampAmmeter::Variant::sensitivities(std::size_t probed, std::span<double> by_value) {
  const Prepared<Phasor>& prepared = variation_.prepared();
  assert(by_value.size() == prepared.branches().size());
  std::fill(by_value.begin(), by_value.end(), 0.0);
  const BranchIndex branch = ammeter_->probed_[probed].branch;
  const Solution<Phasor>& solution = variation_.solve();
  if (solution.current_is_undetermined(branch) || variation_.state(branch).conduct == Conduct::absent) return;
  const std::size_t branch_count = by_value.size();
  std::vector<Phasor> voltages(branch_count);
  variation_.branch_voltages(voltages);
  const std::size_t known = solution.known_coordinate(branch);
  const Phasor current = known != Solution<Phasor>::none ? solution.current(known, voltages)
                                                         : variation_.state(branch).value * voltages[branch];

  std::vector<Phasor> to_branches(branch_count);  // current in the probed branch for 1 A put in at each branch
  std::vector<Phasor> to_sources(branch_count);
  if (known == Solution<Phasor>::none) {
    const Phasor siemens = variation_.state(branch).value;
    variation_.transfers({prepared.branches()[branch].from, prepared.branches()[branch].to}, to_branches, to_sources);
    for (std::size_t b = 0; b < branch_count; ++b) {
      to_branches[b] *= siemens;
      to_sources[b] *= siemens;
    }
  } else {
    std::vector<Phasor> of_one_source(branch_count);
    for (std::size_t other = 0; other < solution.known_count(); ++other) {
      // Of all conductors without resistance only the probed one and true sources have a say.
      const bool is_source = variation_.model(solution.branch_of_known(other)).type == BranchType::voltage_source;
      if (other != known && !is_source) continue;
      for (std::size_t b = 0; b < branch_count; ++b) {
        of_one_source[b] = solution.transfer(solution.way_of(static_cast<BranchIndex>(b)), other);
        if (other == known) to_branches[b] = of_one_source[b];
      }
      to_sources[solution.branch_of_known(other)] = solution.current(known, of_one_source);
    }
  }
  for (std::size_t b = 0; b < branch_count; ++b) {
    const BranchModel& model = variation_.model(static_cast<BranchIndex>(b));
    Phasor slope = to_sources[b] * source_direction(model);
    Phasor by_admittance = -to_branches[b] * voltages[b];
    if (b == branch) by_admittance += voltages[b];
    slope += by_admittance * prepared.feed().admittance_slope(model);
    by_value[b] = magnitude_slope(current, slope);
  }
}

}  // namespace ohmwright::circuit
