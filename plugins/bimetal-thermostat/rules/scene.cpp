#include "rules/scene.hpp"

#include <ohmwright/component/repeated_readings.hpp>

#include "rules/good_part.hpp"

namespace ohmwright::bimetal_thermostat {

namespace {

/// Two standard uncertainties of the difference of two temperatures [K]: an error of both drops out (GUM 5.2).
double doubt_of_step(const Estimate& before, const Estimate& after) {
  Estimate difference = after;
  difference.add_scaled(before, -1.0);
  return 2.0 * difference.standard_uncertainty();
}

}  // namespace

Scene::Scene(const ThermostatRatings* known, const Evidence& given, const JudgeSettings& how, Findings& out)
    : ratings(known), evidence(given), settings(how), findings(out) {
  TripFinder finder;
  const Estimate* temperature_before = nullptr;
  const auto readings = evidence.readings();
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const PreparedReading& reading = readings[i];
    const Estimate* temperature = reading.condition(part_temperature);
    const ContactSeen seen = contact_seen(reading);
    const bool tells = seen == ContactSeen::closed || is_not_closed(seen);
    if (!is_of_contact_alone(reading) || repeats_jump_past_digits(evidence, reading)) continue;
    no_path_beside = no_path_beside || seen == ContactSeen::open;
    if (temperature == nullptr || !tells) continue;
    const double doubt = temperature_before == nullptr ? 0.0 : doubt_of_step(*temperature_before, *temperature);
    temperature_before = temperature;
    const auto passage = finder.take(
        {seen == ContactSeen::closed, temperature->value(), half_width_of_temperature(*temperature), i, doubt});
    if (!passage) continue;
    (passage->opens ? opening : closing).add(*passage, readings[passage->before.index], reading);
  }
}

}  // namespace ohmwright::bimetal_thermostat
