#include <algorithm>
#include <utility>

#include <ohmwright/locate/site.hpp>

namespace ohmwright::locate {

namespace {

bool equal(const StateValue& a, const StateValue& b) { return a.state == b.state && a.value == b.value; }

bool equal_lists(const std::vector<StateValue>& a, const std::vector<StateValue>& b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(), equal);
}

void set(std::vector<StateValue>& states, const StateValue& value) {
  const auto found =
      std::find_if(states.begin(), states.end(), [&](const StateValue& one) { return one.state == value.state; });
  if (found == states.end())
    states.push_back(value);
  else
    *found = value;
}

}  // namespace

bool operator==(const Site& a, const Site& b) {
  return a.zone_temperatures.size() == b.zone_temperatures.size() &&
         std::equal(a.zone_temperatures.begin(), a.zone_temperatures.end(), b.zone_temperatures.begin(),
                    [](const StatedValue& x, const StatedValue& y) {
                      return x.value == y.value && x.half_width == y.half_width;
                    }) &&
         a.warming_up == b.warming_up &&
         std::equal(a.states.begin(), a.states.end(), b.states.begin(), b.states.end(), equal_lists);
}

Site site_as_found(const Appliance& appliance) {
  Site site;
  for (const Zone& zone : appliance.zones) site.zone_temperatures.push_back(zone.temperature);
  site.warming_up.resize(appliance.zones.size());
  for (const PlacedPart& part : appliance.parts) site.states.push_back(part.states);
  return site;
}

Site site_not_measured(const Appliance& appliance, bool was_thawed) {
  constexpr double worth_a_doubt = 5.0;  // kelvins (assumed, no source)
  const auto warmest_of = [](const Zone& zone) {
    return zone.temperature.value.value_in_si() + zone.temperature.half_width.value_or(0.0);
  };
  double warmest = 0.0;
  for (const Zone& zone : appliance.zones) warmest = std::max(warmest, warmest_of(zone));
  Site site = site_as_found(appliance);
  for (std::size_t i = 0; i < appliance.zones.size(); ++i) {
    if (warmest - warmest_of(appliance.zones[i]) < worth_a_doubt) continue;
    site.warming_up[i] = WarmingUp{warmest};
    if (was_thawed) site.warming_up[i]->share_as_found = 0.0;
  }
  return site;
}

Site after_set_up(const Appliance& appliance, Site site, std::optional<std::size_t> set_up) {
  if (!set_up) return site;
  const SetUp& done = appliance.set_ups[*set_up];
  site = after_set_up(appliance, std::move(site), done.based_on);
  for (const SetTemperature& row : done.temperatures) {
    site.zone_temperatures[row.zone] = row.temperature;
    site.warming_up[row.zone].reset();
  }
  for (const SetState& row : done.states) set(site.states[row.part], row.value);
  return site;
}

Situation situation_at(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                       std::optional<double> kelvin) {
  const Descriptor& descriptor = appliance.parts[part].kind->descriptor();
  Situation situation({}, site.states[part]);
  situation.excitation = excitation;
  const std::uint16_t temperature = index_of(descriptor.conditions, "part_temperature");
  if (temperature != not_found && kelvin) situation.conditions.push_back({temperature, *kelvin});
  const std::uint16_t line = index_of(descriptor.conditions, "line_voltage");
  if (line != not_found && excitation != Excitation::ohmmeter)
    situation.conditions.push_back({line, appliance.supply.voltage.value.value_in_si()});
  return situation;
}

Situation situation_of(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                       double share) {
  const std::optional<std::size_t>& zone = appliance.parts[part].zone;
  if (!zone) return situation_at(appliance, part, site, excitation, std::nullopt);
  const StatedValue& of_zone = site.zone_temperatures[*zone];
  return situation_at(appliance, part, site, excitation,
                      of_zone.value.value_in_si() + share * of_zone.half_width.value_or(0.0));
}

}  // namespace ohmwright::locate
