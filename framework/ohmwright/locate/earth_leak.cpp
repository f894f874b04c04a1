#include <algorithm>
#include <array>
#include <string_view>

#include <ohmwright/locate/earth_leak.hpp>
#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

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

/// Whether between the two sides of the supply ohms are read, all leads in place.
bool is_across_supply(const Appliance& appliance, const Measurement& measurement) {
  const TestPoint& point = appliance.test_points[measurement.test_point];
  if (point.probe != Probe::ohms || !point.lifted.empty()) return false;
  const std::optional<std::size_t>& from = node_of(appliance, point.from);
  const std::optional<std::size_t>& to = node_of(appliance, point.to);
  const MainsSupply& supply = appliance.supply;
  return (from == supply.live && to == supply.neutral) || (from == supply.neutral && to == supply.live);
}

/// Whether it is a value, or all values from `at` on: these count as the lowest of them.
bool has_value(const SeenReading& seen) {
  return seen.form == SeenReading::Form::value || seen.form == SeenReading::Form::between;
}

/// Whether an ohmmeter saw none to the protective earth up to a megohm.
bool tells_of_insulation(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  if (!is_to_earth(appliance, reading.measurement)) return false;
  const std::optional<SeenReading> seen = seen_reading(reading, Probe::ohms, meter);
  if (!seen) return false;
  const double least = *least_to_energise(appliance, reading.measurement);
  if (seen->form == SeenReading::Form::over_range) return seen->past.value_or(least) >= least;
  return has_value(*seen) && seen->at >= least;
}

bool conducts(const ElementSpread& element) {
  return std::any_of(element.choices.begin(), element.choices.end(), [](const ElementChoice& choice) {
    return choice.type == ElementType::closed || choice.type == ElementType::resistance ||
           choice.type == ElementType::contact;
  });
}

/// Whether an end of it is a terminal at the protective earth.
bool is_earthed(const PlacedPart& part, const ElementSpread& element, const MainsSupply& supply) {
  const auto is_earth = [&](std::uint16_t end) {
    return supply.earth && end < part.nodes.size() && part.nodes[end] == supply.earth;
  };
  return is_earth(element.from) != is_earth(element.to);
}

}  // namespace

bool is_to_earth(const Appliance& appliance, const Measurement& measurement) {
  const TestPoint& point = appliance.test_points[measurement.test_point];
  // From earth to earth is no insulation, but the bond that ought to be there.
  return point.probe == Probe::ohms &&
         is_protective_earth(appliance, point.from) != is_protective_earth(appliance, point.to);
}

std::optional<double> least_to_energise(const Appliance& appliance, const Measurement& measurement) {
  constexpr double insulation_ohm = 1e6;  // common practice, no source
  if (is_to_earth(appliance, measurement)) return scale_of(Probe::ohms).at(insulation_ohm);
  if (!is_across_supply(appliance, measurement)) return std::nullopt;
  return scale_of(Probe::ohms).at(appliance.supply.voltage.value.value_in_si() / breaker_amperes);
}

bool tells_of_leak(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  if (!is_to_earth(appliance, reading.measurement)) return false;
  const std::optional<SeenReading> seen = seen_reading(reading, Probe::ohms, meter);
  if (!seen) return false;
  return seen->form == SeenReading::Form::conducts ||
         (has_value(*seen) && seen->at < *least_to_energise(appliance, reading.measurement));
}

bool any_tells_of_leak(const Appliance& appliance, std::span<const TakenReading> readings, const Meter& meter) {
  return std::any_of(readings.begin(), readings.end(),
                     [&](const TakenReading& reading) { return tells_of_leak(appliance, reading, meter); });
}

bool tells_of_short(const Appliance& appliance, const TakenReading& reading, const Meter& meter) {
  if (!is_across_supply(appliance, reading.measurement)) return false;
  const std::optional<SeenReading> seen = seen_reading(reading, Probe::ohms, meter);
  return seen && has_value(*seen) && seen->at < *least_to_energise(appliance, reading.measurement);
}

bool speaks_of_leak_or_burning(const Signs& signs) {
  return speaks_of_burning(signs) || std::any_of(of_leakage.begin(), of_leakage.end(),
                                                 [&](std::string_view symptom) { return is_there(signs, symptom); });
}

std::vector<bool> faults_that_leak(const FaultList& faults, const Site& site) {
  const Appliance& appliance = faults.appliance();
  const auto is_joined_to_earth = [&](std::size_t part, std::uint16_t fault) {
    const std::vector<ElementSpread> elements = part_model(appliance, part, fault, site, Excitation::ohmmeter);
    return std::any_of(elements.begin(), elements.end(), [&](const ElementSpread& element) {
      return conducts(element) && is_earthed(appliance.parts[part], element, appliance.supply);
    });
  };
  std::vector<bool> leaks;
  for (const PossibleFault& possible : faults.faults()) {
    const auto [part, fault] = possible.fault;
    leaks.push_back(is_joined_to_earth(part, fault) && !is_joined_to_earth(part, not_found));
  }
  return leaks;
}

double probability_of_leak(const FaultList& faults, const std::vector<bool>& leaks, const Diagnosis& diagnosis) {
  double probability = 0.0;
  for (std::size_t i = 0; i < faults.candidates().size(); ++i) {
    const Candidate& candidate = faults.candidates()[i];
    if (std::any_of(candidate.faults.begin(), candidate.faults.end(),
                    [&](std::uint16_t fault) { return leaks[fault]; }))
      probability += diagnosis.candidates[i];
  }
  return probability;
}

bool speaks_of_burning(const Signs& signs) { return is_there(signs, of_burning); }

bool may_be_energised(const Appliance& appliance, std::span<const TakenReading> readings, const Signs& signs,
                      const Insulation& insulation, const Meter& meter) {
  constexpr double most_believed = 0.01;  // assumed, no source
  const auto any = [&](auto tells) {
    return std::any_of(readings.begin(), readings.end(),
                       [&](const TakenReading& reading) { return tells(appliance, reading, meter); });
  };
  if (any(tells_of_leak) || any(tells_of_short)) return false;
  if (insulation.was_found_good || !speaks_of_leak_or_burning(signs)) return true;
  return any(tells_of_insulation) && insulation.probability_of_leak <= most_believed;
}

}  // namespace ohmwright::locate
