// Beside another path a wide tolerance acts unevenly: how a reading bends with it.

#include <algorithm>
#include <cmath>

#include <boost/container_hash/hash.hpp>

#include <ohmwright/locate/probed_scene.hpp>

namespace ohmwright::locate {

namespace {

/// Shares above this bend as far as anybody reads [on the scale]: 15 %, of which half the square is 1 %.
constexpr double wide_on_the_scale = 0.15;
/// Of the bend at one standard deviation: what it leaves where another tolerance has moved, too (assumed: two
/// resistances in parallel, both one standard deviation off, leave about that).
constexpr double left_of_bend = 0.25;

/// What is left is the same wherever the middle is the same: at two plugs of one pair of wires, before a set-up that
/// changes nothing there and after it.
std::uint64_t source_of_rest(const SharedError& error, double middle) {
  constexpr std::uint64_t above_all_others = std::uint64_t{1} << 63U;
  std::size_t mixed = 0;
  boost::hash_combine(mixed, error.source);
  boost::hash_combine(mixed, std::llround(1e4 * middle));
  return above_all_others | static_cast<std::uint64_t>(mixed);
}

}  // namespace

void Prober::ProbedScene::bend_wide_shares(const Place& place, double middle_ohm, PredictedOutcome& outcome) {
  const Scale scale = scale_of(Probe::ohms);
  const std::size_t count = outcome.shared.size();
  for (std::size_t i = 0; i < count && outcome.bends.size() < PredictedOutcome::most_bends; ++i) {
    const SharedError error = outcome.shared[i];
    if (std::abs(error.share) < wide_on_the_scale) continue;
    const auto found = std::find(sources_.begin(), sources_.end(), error.source);
    if (found == sources_.end() || std::count(found, sources_.end(), error.source) > 1) continue;
    const auto branch = static_cast<circuit::BranchIndex>(found - sources_.begin());
    const double of_temperature = of_temperature_[branch];  // which is another source, and acts evenly enough
    const double spread = spread_[branch] * std::sqrt(1.0 - of_temperature * of_temperature);
    const std::optional<double> below = ohms_with(place, branch, values_[branch] * std::exp(-spread));
    const std::optional<double> above = ohms_with(place, branch, values_[branch] * std::exp(spread));
    if (!below || !above) continue;
    const std::optional<Bend> bend = bend_through(error.source, spread, *below, middle_ohm, *above);
    if (!bend) continue;
    outcome.bends.push_back(*bend);
    const double rest = left_of_bend * std::abs((scale.at(*below) + scale.at(*above)) / 2.0 - outcome.mean);
    outcome.shared.push_back({source_of_rest(error, outcome.mean), rest});
    outcome.uncertainty = std::hypot(outcome.uncertainty, rest);
  }
}

std::optional<double> Prober::ProbedScene::ohms_with(const Place& place, circuit::BranchIndex branch, double ohm) {
  const std::vector<circuit::Change> settled = changes_;
  std::erase_if(changes_, [&](const circuit::Change& change) { return change.branch == branch; });
  changes_.push_back({branch, circuit::resistance(Resistance::from_value(ohm))});
  const std::optional<Resistance> reading = place.group->ohmmeter->with(changes_).reading(place.index);
  changes_ = settled;
  return reading ? std::optional(reading->value()) : std::nullopt;
}

}  // namespace ohmwright::locate
