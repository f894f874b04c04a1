#include "rules/scene.hpp"

#include "rules/good_part.hpp"

namespace ohmwright::bimetal_thermostat {

Scene::Scene(const ThermostatRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known), evidence(given), settings(how), findings(out) {
  TripFinder finder;
  const auto readings = evidence.readings();
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const PreparedReading& reading = readings[i];
    const Estimate* temperature = reading.condition(part_temperature);
    const ContactSeen seen = contact_seen(reading);
    const bool tells = seen == ContactSeen::closed || is_not_closed(seen);
    if (!is_of_contact_alone(reading)) continue;
    no_path_beside = no_path_beside || seen == ContactSeen::open;
    if (temperature == nullptr || !tells) continue;
    const auto passage =
        finder.take({seen == ContactSeen::closed, temperature->value(), half_width_of_temperature(*temperature), i});
    if (!passage) continue;
    (passage->opens ? opening : closing).add(*passage, readings[passage->before.index], reading);
  }
}

}  // namespace ohmwright::bimetal_thermostat
