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
         std::equal(a.states.begin(), a.states.end(), b.states.begin(), b.states.end(), equal_lists);
}

Site site_as_found(const Appliance& appliance) {
  Site site;
  for (const Zone& zone : appliance.zones) site.zone_temperatures.push_back(zone.temperature);
  for (const PlacedPart& part : appliance.parts) site.states.push_back(part.states);
  return site;
}

Site after_set_up(const Appliance& appliance, Site site, std::optional<std::size_t> set_up) {
  if (!set_up) return site;
  const SetUp& done = appliance.set_ups[*set_up];
  site = after_set_up(appliance, std::move(site), done.based_on);
  for (const SetTemperature& row : done.temperatures) site.zone_temperatures[row.zone] = row.temperature;
  for (const SetState& row : done.states) set(site.states[row.part], row.value);
  return site;
}

Situation situation_of(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                       double share) {
  const PlacedPart& placed = appliance.parts[part];
  const Descriptor& descriptor = placed.kind->descriptor();
  Situation situation({}, site.states[part]);
  situation.excitation = excitation;
  const std::uint16_t temperature = index_of(descriptor.conditions, "part_temperature");
  if (temperature != not_found && placed.zone) {
    const StatedValue& of_zone = site.zone_temperatures[*placed.zone];
    situation.conditions.push_back(
        {temperature, of_zone.value.value_in_si() + share * of_zone.half_width.value_or(0.0)});
  }
  const std::uint16_t line = index_of(descriptor.conditions, "line_voltage");
  if (line != not_found && excitation != Excitation::ohmmeter)
    situation.conditions.push_back({line, appliance.supply.voltage.value.value_in_si()});
  return situation;
}

}  // namespace ohmwright::locate
