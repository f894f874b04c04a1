#include "rules/scene.hpp"

#include <algorithm>
#include <limits>

namespace ohmwright::defrost_sensor {

namespace {

bool is_of_the_part_alone(const PreparedReading& reading) {
  return is_ohms(reading) && !is_live(reading) && !is_in_circuit(reading) && !is_wet(reading) &&
         !is_within_leads(reading) && !range_hides_a_short(reading);
}

}  // namespace

bool is_within_leads(const PreparedReading& reading) {
  // No good sensor has less than some hundred ohms.
  return is_within_lead_resistance(reading, {.coarsest_ohms = 10.0, .smallest_ohms = 1.0});
}

bool range_hides_a_short(const PreparedReading& reading) {
  constexpr double infinity = std::numeric_limits<double>::infinity();
  const bool off_a_range = reading.range_full_scale > 0.0;  // else a doubt that was stated, and no range's own
  return is_ohms(reading) && off_a_range && !is_within_leads(reading) &&
         is_within_lead_resistance(reading, {.coarsest_ohms = infinity, .smallest_ohms = 1.0});
}

Scene::Scene(const SensorRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known), evidence(given), settings(how), findings(out) {
  if (ratings == nullptr) return;
  for (const PreparedReading& reading : evidence.readings()) {
    if (!is_of_the_part_alone(reading)) continue;
    if (repeats_jump(evidence, reading)) continue;  // their mean is no value of the part
    const std::optional<Deviation> deviation = deviation_of(*ratings, reading);
    if (!deviation) continue;
    if (!fits({usable.data(), usable.size()}, *deviation)) {
      compare_with_usable(*deviation);
      continue;
    }
    usable.push_back(*deviation);
    connection_unstated = connection_unstated || reading.connection == Connection::unstated;
  }
  if (usable.empty()) return;
  fused = fuse({usable.data(), usable.size()});
  for (std::size_t i = 0; i < usable.size(); ++i) {
    for (std::size_t j = i + 1; j < usable.size(); ++j) {
      if (!comparable(usable[i], usable[j])) continue;
      any_comparable = true;
      const double apart = disagreement(*ratings, usable[i], usable[j]);
      if (apart <= worst_disagreement && first != nullptr) continue;
      worst_disagreement = apart;
      first = usable[i].reading;
      second = usable[j].reading;
    }
  }
}

void Scene::compare_with_usable(const Deviation& another) {
  for (std::size_t i = 0; i < usable.size(); ++i) {
    if (!comparable(usable[i], another)) continue;
    any_comparable = true;
    const double apart = disagreement(*ratings, usable[i], another);
    if (apart <= worst_disagreement && first != nullptr) continue;
    worst_disagreement = apart;
    first = usable[i].reading;
    second = another.reading;
  }
}

}  // namespace ohmwright::defrost_sensor
