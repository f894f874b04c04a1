#include <algorithm>
#include <cmath>
#include <limits>
#include <numeric>
#include <utility>

#include <ohmwright/locate/error_source.hpp>
#include <ohmwright/locate/probed_scene.hpp>
#include <ohmwright/locate/prober.hpp>

namespace ohmwright::locate {

namespace {

/// An element whose choices would make more instances than this has its whole range as one spread.
constexpr std::size_t most_instances = 48;
constexpr std::size_t no_set_up = std::numeric_limits<std::size_t>::max();

std::size_t choices_in(const PlacedModel& model) {
  return std::accumulate(model.elements.begin(), model.elements.end(), std::size_t{0},
                         [](std::size_t sum, const PlacedElement& element) { return sum + element.choices.size(); });
}

/// Whether it stands for a reading that was taken while nobody had measured a zone.
bool leaves_a_zone_unmeasured(const SetUp& set_up) {
  return set_up.only_stated && std::any_of(set_up.temperatures.begin(), set_up.temperatures.end(),
                                           [](const SetTemperature& row) { return row.not_measured.has_value(); });
}

/// The outcome if the set-up took, or did not: one and the same answer for all that is read in it.
PredictedOutcome weighed(PredictedOutcome outcome, double share, std::size_t set_up, bool is_missed) {
  outcome.weight *= share;
  outcome.contacts.push_back({source::of_set_up(set_up), is_missed, share, 0.0, 1.0, false});
  return outcome;
}

}  // namespace

Prober::Prober(const FaultList& faults, Site site, const Meter& meter, const ReadingModel& model)
    : faults_(faults), site_(std::move(site)), meter_(meter), model_(model) {}

Prober::~Prober() = default;

double Prober::lead_resistance() const { return meter_.lead_resistance.value.value_in_si(); }

Prober::ProbedScene& Prober::scene(std::optional<std::size_t> set_up, Excitation excitation) {
  std::unique_ptr<ProbedScene>& kept = scenes_[{set_up.value_or(no_set_up), excitation}];
  if (!kept)
    kept = std::make_unique<ProbedScene>(faults_, after_set_up(appliance(), site_, set_up), excitation, meter_);
  return *kept;
}

const PlacedModel& Prober::vaguest_model(std::size_t part, std::uint16_t fault) {
  const PlacedModel* vaguest = &scene({}, Excitation::ohmmeter).scene().model(part, fault);
  for (std::size_t set_up = 0; set_up < appliance().set_ups.size(); ++set_up) {
    if (!leaves_a_zone_unmeasured(appliance().set_ups[set_up])) continue;
    const PlacedModel& other = scene(set_up, Excitation::ohmmeter).scene().model(part, fault);
    if (choices_in(other) > choices_in(*vaguest)) vaguest = &other;
  }
  return *vaguest;
}

std::vector<Instance> Prober::instances(const Candidate& candidate) {
  std::vector<Instance> instances{{&candidate, 1.0, {}}};
  std::vector<std::size_t> parts(appliance().parts.size());
  std::iota(parts.begin(), parts.end(), std::size_t{0});
  // How far the faults go first: good parts of which little is known may be left to their whole range.
  std::stable_partition(parts.begin(), parts.end(),
                        [&](std::size_t part) { return faults_.fault_of(candidate, part) != not_found; });
  for (const std::size_t part : parts) {
    const PlacedModel& model = vaguest_model(part, faults_.fault_of(candidate, part));
    for (std::size_t element = 0; element < model.elements.size(); ++element) {
      const PlacedElement& row = model.elements[element];
      if ((row.is_contact && !row.stays) || row.choices.size() < 2 || row.is_other_piece) continue;
      if (instances.size() * row.choices.size() > most_instances) {
        if (row.is_contact) continue;  // it wavers like any other
        for (Instance& instance : instances) instance.settled.push_back({part, element, 0.5, true});
        continue;
      }
      std::vector<Instance> finer;
      double below = 0.0;
      for (const ElementChoice& choice : row.choices) {
        for (Instance instance : instances) {
          instance.weight *= choice.weight;
          instance.settled.push_back({part, element, below + 0.5 * choice.weight, false});
          finer.push_back(std::move(instance));
        }
        below += choice.weight;
      }
      instances = std::move(finer);
    }
  }
  return instances;
}

const std::vector<PredictedOutcome>& Prober::predict(const Instance& instance, const Measurement& measurement) {
  const Probe probe = appliance().test_points[measurement.test_point].probe;
  const Excitation excitation = probe == Probe::ohms ? Excitation::ohmmeter : Excitation::alternating_supply;
  const std::vector<PredictedOutcome>& after_it =
      scene(measurement.set_up, excitation).predict(instance, measurement.test_point, measurement.low_impedance);
  const double missed = share_missed(measurement.set_up);
  if (!(missed > 0.0)) return after_it;
  const std::vector<PredictedOutcome>& as_found =
      scene({}, excitation).predict(instance, measurement.test_point, measurement.low_impedance);
  if (look_alike(after_it, as_found)) return after_it;
  const std::size_t set_up = *measurement.set_up;
  const auto [at, is_new] = mixed_.try_emplace({&after_it, &as_found, set_up});
  if (is_new) {
    for (const PredictedOutcome& outcome : after_it)
      at->second.push_back(weighed(outcome, 1.0 - missed, set_up, false));
    for (const PredictedOutcome& outcome : as_found) at->second.push_back(weighed(outcome, missed, set_up, true));
  }
  return at->second;
}

double Prober::share_missed(std::optional<std::size_t> set_up) const {
  if (!set_up || appliance().set_ups[*set_up].only_stated) return 0.0;
  const SetUp& done = appliance().set_ups[*set_up];
  if (done.cools_down) return 0.0;  // whoever says so has seen the plug
  const bool has_thermometer = !done.temperatures.empty() && done.states.empty();
  return has_thermometer ? model_.temperature_missed : model_.set_up_missed;
}

}  // namespace ohmwright::locate
