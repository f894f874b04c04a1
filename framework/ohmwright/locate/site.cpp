#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include <ohmwright/component/role.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/quantity/temperature.hpp>

namespace ohmwright::locate {

namespace {

bool equal(const StateValue& a, const StateValue& b) { return a.state == b.state && a.value == b.value; }

bool equal_settings(const SetState& a, const SetState& b) { return a.part == b.part && equal(a.value, b.value); }

void set(std::vector<StateValue>& states, const StateValue& value) {
  const auto found =
      std::find_if(states.begin(), states.end(), [&](const StateValue& one) { return one.state == value.state; });
  if (found == states.end())
    states.push_back(value);
  else
    *found = value;
}

/// What was stated of a zone; where no ± was, with the usual one.
void take_stated(Site& site, std::size_t zone, const StatedValue& stated, double usual_half_width) {
  StatedValue& temperature = site.zone_temperatures[zone];
  temperature = stated;
  site.known[zone] = stated.half_width ? ZoneKnowledge::said : ZoneKnowledge::said_without_doubt;
  if (!stated.half_width) temperature.half_width = usual_half_width;
}

/// What the row brings its zone to. A ± and what the zone may differ by are two errors, whose variances add up.
void set(Site& site, const SetTemperature& row) {
  if (!row.as_warm_as) {
    site.not_measured[row.zone] = row.not_measured;
    take_stated(site, row.zone, row.temperature, usual_doubt_kelvin);
    if (row.not_measured) site.known[row.zone] = ZoneKnowledge::by_file;
    return;
  }
  StatedValue& temperature = site.zone_temperatures[row.zone];
  temperature = site.zone_temperatures[*row.as_warm_as];
  temperature.half_width = std::hypot(temperature.half_width.value_or(0.0), row.within_kelvin);
  site.not_measured[row.zone] = site.not_measured[*row.as_warm_as];
  site.known[row.zone] = site.known[*row.as_warm_as];
}

/// A zone that is less colder than its room than this is as warm as the room [K] (assumed, no source).
constexpr double worth_a_doubt = 5.0;
/// As cold as the coil of a freezer that runs; as warm as a heater's box, a tub or an oven is when somebody comes to it
/// after a run, all of it in order (common practice, no source).
constexpr double coldest_coil_celsius = -35.0;
constexpr double hottest_zone_celsius = 90.0;
constexpr double hottest_oven_celsius = 250.0;
/// As hot as a motor's winding that stood still under power, up to where its own protector opens (common practice, no
/// source).
constexpr double hottest_winding_celsius = 150.0;

double hottest_by_role(std::string_view one) {
  if (one == role::heats_oven) return hottest_oven_celsius;
  return one == role::heats_itself ? hottest_winding_celsius : hottest_zone_celsius;
}
double kelvin_of(double celsius) { return Temperature::from_celsius(celsius).kelvin(); }

double warmest_of(const StatedValue& stated) { return stated.value.value_in_si() + stated.half_width.value_or(0.0); }
double coldest_of(const StatedValue& stated) { return stated.value.value_in_si() - stated.half_width.value_or(0.0); }

class NotMeasured {
 public:
  NotMeasured(const Appliance& appliance, std::span<const SaidTemperature> said) : appliance_(appliance), said_(said) {
    for (const Zone& zone : appliance.zones)
      warmest_as_built_ = std::max(warmest_as_built_, warmest_of(zone.temperature));
    bool is_room_said = false;
    for (std::size_t zone = 0; zone < appliance.zones.size(); ++zone) {
      if (is_cold(zone) || hottest(zone) > 0.0) continue;
      room_ = std::max(room_, warmest_of(temperature_of(zone)));
      is_room_said = is_room_said || is_said(zone);
    }
    if (room_ > 0.0 && !is_room_said) room_ = std::max(room_, room_that_nobody_spoke_of().to_kelvin);
    if (room_ == 0.0) room_ = warmest_as_built_;
  }

  std::optional<TemperatureSpan> span_of(std::size_t zone) const {
    const StatedValue& as_built = appliance_.zones[zone].temperature;
    if (is_said(zone)) return std::nullopt;
    if (is_cold(zone)) {
      const bool runs_below_freezing = as_built.value.value_in_si() < kelvin_of(0.0);
      const double coldest = coldest_of(as_built);
      return TemperatureSpan{runs_below_freezing ? std::min(coldest, kelvin_of(coldest_coil_celsius)) : coldest, room_};
    }
    const double to = hottest(zone);
    if (to == 0.0) return std::nullopt;
    return TemperatureSpan{coldest_of(as_built), std::max(to, room_)};
  }

 private:
  bool is_said(std::size_t zone) const {
    return std::any_of(said_.begin(), said_.end(), [zone](const SaidTemperature& one) { return one.zone == zone; });
  }

  StatedValue temperature_of(std::size_t zone) const {
    for (const SaidTemperature& one : said_) {
      if (one.zone != zone) continue;
      StatedValue temperature = one.temperature;
      if (!temperature.half_width) temperature.half_width = one.usual_half_width;
      return temperature;
    }
    return appliance_.zones[zone].temperature;
  }

  bool is_cold(std::size_t zone) const {
    return warmest_as_built_ - warmest_of(appliance_.zones[zone].temperature) >= worth_a_doubt;
  }

  /// As hot as a zone gets that a heater or a set-up warms [K]; 0 for any other.
  double hottest(std::size_t zone) const {
    double hottest = 0.0;
    for (const PlacedPart& part : appliance_.parts)
      if (part.zone == zone)
        for (const std::string_view one : part.kind->descriptor().roles)
          if (one.starts_with(role::heats)) hottest = std::max(hottest, kelvin_of(hottest_by_role(one)));
    for (const SetUp& set_up : appliance_.set_ups)
      for (const SetTemperature& row : set_up.temperatures)
        if (row.zone == zone && warmest_of(row.temperature) - warmest_as_built_ >= worth_a_doubt)
          hottest = std::max(hottest, warmest_of(row.temperature));
    return hottest;
  }

  const Appliance& appliance_;
  std::span<const SaidTemperature> said_;
  double warmest_as_built_ = 0.0;  ///< of the file's zones [K]
  double room_ = 0.0;              ///< the warmest of what nothing heats or cools [K]
};

/// As what else it may stand than as found.
std::vector<SetState> turned_by_hand(const Appliance& appliance) {
  std::vector<SetState> other;
  for (const SetUp& set_up : appliance.set_ups) {
    if (set_up.live || set_up.only_stated) continue;
    for (const SetState& row : set_up.states) {
      const std::vector<StateValue>& as_found = appliance.parts[row.part].states;
      const bool stands_so =
          std::any_of(as_found.begin(), as_found.end(), [&](const StateValue& one) { return equal(one, row.value); });
      const bool is_known =
          std::any_of(other.begin(), other.end(), [&](const SetState& one) { return equal_settings(one, row); });
      if (!stands_so && !is_known) other.push_back(row);
    }
  }
  return other;
}

}  // namespace

TemperatureSpan room_that_nobody_spoke_of() {
  constexpr double coldest_celsius = 5.0;
  constexpr double warmest_celsius = 35.0;
  return {kelvin_of(coldest_celsius), kelvin_of(warmest_celsius)};
}

Site site_as_found(const Appliance& appliance) {
  Site site;
  for (const Zone& zone : appliance.zones) site.zone_temperatures.push_back(zone.temperature);
  site.known.resize(appliance.zones.size(), ZoneKnowledge::by_file);
  site.not_measured.resize(appliance.zones.size());
  for (const PlacedPart& part : appliance.parts) site.states.push_back(part.states);
  return site;
}

Site site_not_measured(const Appliance& appliance, bool was_thawed, std::span<const SaidTemperature> said) {
  Site site = site_as_found(appliance);
  const NotMeasured zones(appliance, said);
  for (std::size_t zone = 0; zone < appliance.zones.size(); ++zone) {
    site.not_measured[zone] = zones.span_of(zone);
    if (was_thawed && site.not_measured[zone]) site.not_measured[zone]->share_as_found = 0.0;
  }
  for (const SaidTemperature& one : said) take_stated(site, one.zone, one.temperature, one.usual_half_width);
  site.states_not_said = turned_by_hand(appliance);
  return site;
}

Site with_state(Site site, const SetState& said) {
  set(site.states[said.part], said.value);
  std::erase_if(site.states_not_said, [&said](const SetState& other) {
    return other.part == said.part && other.value.state == said.value.state;
  });
  return site;
}

Site after_set_up(const Appliance& appliance, Site site, std::optional<std::size_t> set_up) {
  if (!set_up) return site;
  const SetUp& done = appliance.set_ups[*set_up];
  site = after_set_up(appliance, std::move(site), done.based_on);
  if (done.cools_down) site.own_heat.reset();
  for (const SetTemperature& row : done.temperatures) {
    set(site, row);
    if (site.own_heat && appliance.parts[site.own_heat->part].zone == row.zone) site.own_heat.reset();
  }
  for (const SetState& row : done.states) site = with_state(std::move(site), row);
  return site;
}

std::optional<std::size_t> unsaid_room_after(const Appliance& appliance, const Site& site,
                                             std::optional<std::size_t> set_up, std::size_t zone) {
  for (; set_up; set_up = appliance.set_ups[*set_up].based_on) {
    const std::vector<SetTemperature>& rows = appliance.set_ups[*set_up].temperatures;
    const auto row =
        std::find_if(rows.begin(), rows.end(), [&](const SetTemperature& one) { return one.zone == zone; });
    if (row == rows.end()) continue;
    const bool is_unsaid = row->as_warm_as && site.known[*row->as_warm_as] == ZoneKnowledge::by_file;
    return is_unsaid ? row->as_warm_as : std::nullopt;
  }
  return std::nullopt;
}

Situation situation_at(const Appliance& appliance, std::size_t part, const Site& site, Excitation excitation,
                       std::optional<double> kelvin) {
  const Descriptor& descriptor = appliance.parts[part].kind->descriptor();
  Situation situation({}, site.states[part]);
  situation.excitation = excitation;
  const std::uint16_t temperature = index_of(descriptor.conditions, "part_temperature");
  const double own_heat = site.own_heat && site.own_heat->part == part ? site.own_heat->kelvin : 0.0;
  if (temperature != not_found && kelvin) situation.conditions.push_back({temperature, *kelvin + own_heat});
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
