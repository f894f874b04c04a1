#include "kinds.hpp"

#include <algorithm>
#include <stdexcept>
#include <unistd.h>
#include <utility>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/ratings_document.hpp>

namespace ohmwright::calibration {

const Registry& built_registry() {
  static const Registry registry({OHMWRIGHT_PLUGIN_FOLDER}, ::geteuid());
  return registry;
}

Meter basic_meter() { return read_meter(read_document(std::string(OHMWRIGHT_METER_FOLDER) + "/basic.json")); }

std::vector<CalibratedKind> calibrated_kinds(const Registry& registry) {
  constexpr double opens_at_13 = 286.15;
  const std::vector<CalibratedKind> known{
      {"defrost-sensor", "defrost-sensor", "ntc-10k-b3977",
       ResistanceReading{296.15, 1.0, "part_temperature", "resistance"}, 0.05, 0.25, 0.4},
      {"defrost-sensor read four times", "defrost-sensor", "ntc-10k-b3977",
       ResistanceReading{296.15, 1.0, "part_temperature", "resistance", 4}, 0.05, 0.25, 0.4},
      {"heater", "heater", "heater-450w-120v", ResistanceReading{296.15, 2.0, "part_temperature", "resistance"}, 0.075,
       0.25, 0.4},
      {"fan-motor", "fan-motor", "shaded-pole-120v", ResistanceReading{296.15, 3.0, "part_temperature", "winding"},
       0.07, 0.25, 0.4},
      {"bimetal-thermostat", "bimetal-thermostat", "opens-13", TripWatch{opens_at_13, 3.0, 1.0, 1.0}, 3.0, 15.0, 20.0},
  };
  std::vector<CalibratedKind> built;
  for (const CalibratedKind& candidate : known)
    for (const FoundPlugin& plugin : registry.plugins())
      if (std::any_of(plugin.kinds.begin(), plugin.kinds.end(),
                      [&](const StampedKind& kind) { return kind.id == candidate.kind; }))
        built.push_back(candidate);
  return built;
}

std::shared_ptr<const Part> part_of(const Registry& registry, const CalibratedKind& calibrated) {
  const LoadedKind& kind = registry.kind(calibrated.kind);
  const std::string file = (kind.ratings_folder() / (calibrated.ratings + ".json")).string();
  const RatingsDocument ratings = read_ratings(read_document(file), kind.descriptor());
  std::vector<Problem> problems;
  std::shared_ptr<const Part> part = kind.make_part(ratings.ratings, problems);
  if (!part) throw std::logic_error(file + " gives no part");
  return part;
}

namespace {

std::unique_ptr<Workshop> workshop(const Registry& registry, const CalibratedKind& calibrated,
                                   std::unique_ptr<const Population> population) {
  if (const auto* watch = std::get_if<TripWatch>(&calibrated.reading))
    return std::make_unique<TripWorkshop>(*watch, std::move(population));
  return std::make_unique<ResistanceWorkshop>(part_of(registry, calibrated),
                                              registry.kind(calibrated.kind).descriptor(), basic_meter(),
                                              std::get<ResistanceReading>(calibrated.reading), std::move(population));
}

}  // namespace

std::unique_ptr<Workshop> flat_workshop(const Registry& registry, const CalibratedKind& calibrated) {
  return workshop(registry, calibrated, std::make_unique<FlatPopulation>(calibrated.flat_half_width));
}

std::unique_ptr<Workshop> bench_workshop(const Registry& registry, const CalibratedKind& calibrated) {
  return workshop(registry, calibrated,
                  std::make_unique<BenchPopulation>(calibrated.tolerance, calibrated.farthest_drift));
}

}  // namespace ohmwright::calibration
