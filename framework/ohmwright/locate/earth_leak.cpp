#include <algorithm>
#include <array>
#include <string_view>

#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

constexpr double least_insulation_ohm = 1e6;
/// Past this current a breaker trips before anybody reads [A] (common practice, no source).
constexpr double tripping_amperes = 60.0;

/// Signs that speak of current where none belongs, and of heat where none belongs (common practice, no source).
constexpr std::array<std::string_view, 3> of_leakage{"shock-from-cabinet", "trips-breaker",
                                                     "trips-residual-current-device"};
constexpr std::string_view of_burning = "hum-or-smell";

const std::optional<std::size_t>& node_of(const Appliance& appliance, const ProbePlace& place) {
  return place.terminal ? appliance.parts[place.terminal->part].nodes[place.terminal->terminal] : place.node;
}

bool is_protective_earth(const Appliance& appliance, const ProbePlace& place) {
  const std::optional<std::size_t>& node = node_of(appliance, place);
  return node && node == appliance.supply.earth;
}

bool is_there(const Signs& signs, std::string_view symptom) {
  return std::any_of(signs.symptoms.begin(), signs.symptoms.end(),
                     [&](const SymptomSign& sign) { return sign.is_there && sign.symptom == symptom; });
}

/// Whether an ohmmeter saw none to the protective earth up to a megohm.
bool tells_of_insulation(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  if (!is_to_earth(appliance, reading.measurement)) return false;
  const std::optional<SeenReading> seen = seen_reading(reading, Probe::ohms, meter);
  const double least = scale_of(Probe::ohms).at(least_insulation_ohm);
  if (!seen) return false;
  return seen->form == SeenReading::Form::over_range ? seen->past.value_or(least) >= least
                                                     : seen->form == SeenReading::Form::value && seen->at >= least;
}

}  // namespace

bool is_to_earth(const Appliance& appliance, const Measurement& measurement) {
  const TestPoint& point = appliance.test_points[measurement.test_point];
  // From earth to earth is no insulation, but the bond that ought to be there.
  return point.probe == Probe::ohms &&
         is_protective_earth(appliance, point.from) != is_protective_earth(appliance, point.to);
}

bool tells_of_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  if (!is_to_earth(appliance, reading.measurement)) return false;
  const std::optional<SeenReading> seen = seen_reading(reading, Probe::ohms, meter);
  if (!seen) return false;
  return seen->form == SeenReading::Form::conducts ||
         (seen->form == SeenReading::Form::value && seen->at < scale_of(Probe::ohms).at(least_insulation_ohm));
}

bool any_tells_of_leak(const Appliance& appliance, std::span<const TakenReading> readings, const Meter& meter) {
  return std::any_of(readings.begin(), readings.end(),
                     [&](const TakenReading& reading) { return tells_of_leak(appliance, reading, meter); });
}

bool tells_of_short(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  const TestPoint& point = appliance.test_points[reading.measurement.test_point];
  if (point.probe != Probe::ohms || !point.lifted.empty()) return false;
  const std::optional<std::size_t>& from = node_of(appliance, point.from);
  const std::optional<std::size_t>& to = node_of(appliance, point.to);
  const MainsSupply& supply = appliance.supply;
  const bool across = (from == supply.live && to == supply.neutral) || (from == supply.neutral && to == supply.live);
  if (!across) return false;
  const std::optional<SeenReading> seen = seen_reading(reading, Probe::ohms, meter);
  const double most = scale_of(Probe::ohms).at(supply.voltage.value.value_in_si() / tripping_amperes);
  return seen && ((seen->form == SeenReading::Form::value && seen->at < most) ||
                  (seen->form == SeenReading::Form::between && seen->to < most));
}

bool speaks_of_leak_or_burning(const Signs& signs) {
  return speaks_of_burning(signs) || std::any_of(of_leakage.begin(), of_leakage.end(),
                                                 [&](std::string_view symptom) { return is_there(signs, symptom); });
}

bool speaks_of_burning(const Signs& signs) { return is_there(signs, of_burning); }

bool may_be_energised(const Appliance& appliance, std::span<const TakenReading> readings, const Signs& signs,
                      bool insulation_is_good, const Meter& meter) {
  const auto any = [&](auto tells) {
    return std::any_of(readings.begin(), readings.end(),
                       [&](const TakenReading& reading) { return tells(appliance, reading, meter); });
  };
  if (any(tells_of_leak) || any(tells_of_short)) return false;
  return insulation_is_good || !speaks_of_leak_or_burning(signs) || any(tells_of_insulation);
}

}  // namespace ohmwright::locate
