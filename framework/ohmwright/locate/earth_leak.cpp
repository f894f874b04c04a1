#include <algorithm>

#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

constexpr double least_insulation_ohm = 1e6;

bool is_protective_earth(const Appliance& appliance, const ProbePlace& place) {
  const std::optional<std::size_t>& node =
      place.terminal ? appliance.parts[place.terminal->part].nodes[place.terminal->terminal] : place.node;
  return node && node == appliance.supply.earth;
}

}  // namespace

bool tells_of_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  const TestPoint& point = appliance.test_points[reading.measurement.test_point];
  // From earth to earth is no insulation, but the bond that ought to be there.
  if (point.probe != Probe::ohms ||
      is_protective_earth(appliance, point.from) == is_protective_earth(appliance, point.to))
    return false;
  const std::optional<SeenReading> seen = seen_reading(reading, point.probe, meter);
  if (!seen) return false;
  return seen->form == SeenReading::Form::conducts ||
         (seen->form == SeenReading::Form::value && seen->at < scale_of(point.probe).at(least_insulation_ohm));
}

bool any_tells_of_leak(const Appliance& appliance, std::span<const TakenReading> readings, const Meter& meter) {
  return std::any_of(readings.begin(), readings.end(),
                     [&](const TakenReading& reading) { return tells_of_leak(appliance, reading, meter); });
}

}  // namespace ohmwright::locate
