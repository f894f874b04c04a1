#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>
#include <limits>
#include <set>
#include <variant>

#include <ohmwright/component/own_heat.hpp>
#include <ohmwright/component/role.hpp>
#include <ohmwright/locate/innocent_ways.hpp>
#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

namespace ohmwright::locate {

namespace {

/// A span is tried in so many parts, each as wide as it takes to leave no temperature out.
constexpr int parts_of_span = 6;
/// What changes by less than this over the whole span is no part to be asked the temperature of: wires, heaters,
/// windings.
constexpr double otherwise_by = 1.4;

Site with_zone_at(Site site, std::size_t zone, double kelvin, double half_width) {
  StatedValue& temperature = site.zone_temperatures[zone];
  temperature.value = AnyQuantity(Dimension::temperature, kelvin);
  temperature.half_width = half_width;
  site.not_measured[zone].reset();
  site.known[zone] = ZoneKnowledge::said;
  return site;
}

bool look_otherwise(const ElementSpread& a, const ElementSpread& b) {
  const ElementChoice& x = a.choices.front();
  const ElementChoice& y = b.choices.front();
  if ((x.type == ElementType::open) != (y.type == ElementType::open)) return true;
  return std::max(x.value_in_si, y.value_in_si) > otherwise_by * std::min(x.value_in_si, y.value_in_si);
}

/// Whether a good one is another at the cold end of its zone's span, in the middle or at the warm end.
bool changes_with_temperature(const Appliance& appliance, std::size_t part, const Site& site, std::size_t zone) {
  const TemperatureSpan& span = *site.not_measured[zone];
  const auto good_at = [&](double kelvin) {
    return part_model(appliance, part, not_found, with_zone_at(site, zone, kelvin, 0.0), Excitation::ohmmeter);
  };
  const auto cold = good_at(span.from_kelvin);
  for (const double share : {0.5, 1.0}) {
    const auto warm = good_at(std::lerp(span.from_kelvin, span.to_kelvin, share));
    if (!std::equal(cold.begin(), cold.end(), warm.begin(), warm.end(),
                    [](const ElementSpread& a, const ElementSpread& b) { return !look_otherwise(a, b); }))
      return true;
  }
  return false;
}

/// Whether the part was read by itself after a set-up that gives its zone a stated temperature: what it was at before,
/// clears it no more.
bool was_read_at_a_stated_temperature(std::size_t part, std::size_t zone, std::span<const TakenReading> readings,
                                      const Prober& prober) {
  const Appliance& appliance = prober.appliance();
  return std::any_of(readings.begin(), readings.end(), [&](const TakenReading& reading) {
    const Measurement& measurement = reading.measurement;
    return measurement.set_up && part_alone_at(appliance.test_points[measurement.test_point]) == part &&
           !after_set_up(appliance, prober.site(), measurement.set_up).not_measured[zone];
  });
}

/// Those of the readings that were taken when it was known how warm the zone is.
std::vector<TakenReading> taken_at_a_known_temperature(std::span<const TakenReading> readings, std::size_t zone,
                                                       const Prober& prober) {
  std::vector<TakenReading> known;
  std::copy_if(readings.begin(), readings.end(), std::back_inserter(known), [&](const TakenReading& reading) {
    return !after_set_up(prober.appliance(), prober.site(), reading.measurement.set_up).not_measured[zone];
  });
  return known;
}

/// The rooms, of which nobody said how warm they are, that a set-up of one of the readings left the zone as warm as.
std::set<std::size_t> unsaid_rooms_of(std::span<const TakenReading> readings, std::size_t zone, const Prober& prober) {
  std::set<std::size_t> rooms;
  for (const TakenReading& reading : readings) {
    const std::optional<std::size_t> room =
        unsaid_room_after(prober.appliance(), prober.site(), reading.measurement.set_up, zone);
    if (room) rooms.insert(*room);
  }
  return rooms;
}

bool is_of_same_state(const SetState& a, const SetState& b) {
  return a.part == b.part && a.value.state == b.value.state;
}

/// Whether the part was read, terminal to terminal, after it had been turned to stand otherwise: then it was not as it
/// may have stood before.
bool was_read_turned_away(const SetState& from, std::span<const TakenReading> readings, const Appliance& appliance) {
  return std::any_of(readings.begin(), readings.end(), [&](const TakenReading& reading) {
    const Measurement& measurement = reading.measurement;
    if (!is_between_terminals_of(appliance.test_points[measurement.test_point], from.part)) return false;
    for (auto set_up = measurement.set_up; set_up; set_up = appliance.set_ups[*set_up].based_on)
      if (turns_away(appliance.set_ups[*set_up], from)) return true;
    return false;
  });
}

/// Whether what was read is no wonder in other circumstances, beside those that explain it best: where it is, nothing
/// good shows it there, and they clear nobody.
bool may_well_be(double log_evidence, double best) {
  constexpr double share = 0.05;  // assumed, no source
  return log_evidence >= best + std::log(share);
}

/// Whether a search at that site, or of those readings, would name the parts all the same.
bool are_named(Reasoner& reasoner, std::span<const TakenReading> readings, const Signs& signs, const Standing& standing,
               const NextStepSettings& settings) {
  const Diagnosis diagnosis = reasoner.suppose(readings, signs);
  return probability_of(reasoner.faults(), diagnosis, standing) >= settings.likely;
}

/// The instance of an appliance in order, if there is one.
std::optional<std::size_t> sound_instance(const Reasoner& reasoner) {
  const std::span<const Candidate> candidates = reasoner.faults().candidates();
  const auto sound = std::find_if(candidates.begin(), candidates.end(),
                                  [](const Candidate& candidate) { return candidate.nothing_wrong(); });
  if (sound == candidates.end()) return std::nullopt;
  return reasoner.first_instance(static_cast<std::size_t>(sound - candidates.begin()));
}

/// All instances of an appliance in order: of a part of which little is known, good ones differ.
std::vector<std::size_t> sound_instances(const Reasoner& reasoner) {
  std::vector<std::size_t> sound;
  const std::optional<std::size_t> first = sound_instance(reasoner);
  if (!first) return sound;
  const Candidate* const candidate = reasoner.instance(*first).candidate;
  for (std::size_t i = *first; i < reasoner.instances() && reasoner.instance(i).candidate == candidate; ++i)
    sound.push_back(i);
  return sound;
}

/// Whether what comes out in that way reads so, within its doubt; an open way shows no number of its own.
bool shows(const PredictedOutcome& way, const SeenReading& seen) {
  constexpr double least_weight = 0.05;
  constexpr double coverage = 2.0;
  return way.form == PredictedOutcome::Form::value && way.weight >= least_weight &&
         seen.form == SeenReading::Form::value &&
         std::abs(seen.at - way.mean) <= coverage * std::hypot(way.uncertainty, seen.uncertainty);
}

/// The reading as it was meant if it shows `factor` times as much; nothing where it is no ohms with a value.
std::optional<TakenReading> as_meant(const TakenReading& reading, double factor) {
  const auto* stated = std::get_if<StatedValue>(&reading.observed);
  if (stated == nullptr || stated->value.dimension() != Dimension::resistance) return std::nullopt;
  constexpr double least_ohm = 1.0;  // a closed contact or a wire: no k is read beside it
  if (stated->value.value_in_si() / factor < least_ohm) return std::nullopt;
  TakenReading meant = reading;
  auto& value = std::get<StatedValue>(meant.observed);
  value.value = AnyQuantity(Dimension::resistance, stated->value.value_in_si() / factor);
  if (value.half_width) *value.half_width /= factor;
  return meant;
}

}  // namespace

std::optional<std::size_t> zone_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                               const Signs& signs, const Standing& standing,
                                               const NextStepSettings& settings) {
  const Prober& prober = reasoner.prober();
  const Appliance& appliance = prober.appliance();
  for (const std::size_t part : standing.parts) {
    const std::optional<std::size_t>& zone = appliance.parts[part].zone;
    if (!zone) continue;
    const auto is_cleared_in = [&](std::size_t warm_zone, const TemperatureSpan& span) {
      const double half_width = 0.5 * (span.to_kelvin - span.from_kelvin) / parts_of_span;
      std::array<Diagnosis, parts_of_span> all;
      double best = -std::numeric_limits<double>::infinity();
      for (int i = 0; i < parts_of_span; ++i) {
        const double kelvin = span.from_kelvin + (2 * i + 1) * half_width;
        Prober there(prober.faults(), with_zone_at(prober.site(), warm_zone, kelvin, half_width), prober.meter(),
                     prober.model());
        Reasoner at_that_temperature(there, reasoner.sign_model());
        all.at(static_cast<std::size_t>(i)) = at_that_temperature.diagnose(readings, signs);
        best = std::max(best, all.at(static_cast<std::size_t>(i)).log_evidence);
      }
      return std::any_of(all.begin(), all.end(), [&](const Diagnosis& there) {
        return there.parts[part] < settings.likely && may_well_be(there.log_evidence, best);
      });
    };
    for (const std::size_t room : unsaid_rooms_of(readings, *zone, prober))
      if (is_cleared_in(room, room_that_nobody_spoke_of())) return room;
    if (!prober.site().not_measured[*zone]) {
      // What was read before the zone was measured condemns nothing by itself: it can be read again, and be known.
      const std::vector<TakenReading> known = taken_at_a_known_temperature(readings, *zone, prober);
      if (known.size() < readings.size() && reasoner.suppose(known, signs).parts[part] < settings.likely) return zone;
      continue;
    }
    if (!changes_with_temperature(appliance, part, prober.site(), *zone)) continue;
    if (was_read_at_a_stated_temperature(part, *zone, readings, prober)) continue;
    if (is_cleared_in(*zone, *prober.site().not_measured[*zone])) return zone;
  }
  return std::nullopt;
}

std::optional<std::size_t> part_that_may_be_warm(Reasoner& reasoner, std::span<const TakenReading> readings,
                                                 const Signs& signs, const Standing& standing,
                                                 const NextStepSettings& settings) {
  constexpr std::array<double, 3> warmer_by{20.0, 40.0, most_own_heat_kelvin};
  const Prober& prober = reasoner.prober();
  const std::vector<SetUp>& set_ups = prober.appliance().set_ups;
  const bool has_cooled = std::any_of(readings.begin(), readings.end(), [&](const TakenReading& reading) {
    return reading.measurement.set_up && set_ups[*reading.measurement.set_up].cools_down;
  });
  if (has_cooled) return std::nullopt;  // what was read before is no other reading (`Search::add`)
  for (const std::size_t part : standing.parts) {
    if (!plays(prober.appliance().parts[part].kind->descriptor().roles, role::warms_by_running)) continue;
    for (const double kelvin : warmer_by) {
      Site warm = prober.site();
      warm.own_heat = OwnHeat{part, kelvin};
      Prober there(prober.faults(), std::move(warm), prober.meter(), prober.model());
      Reasoner of_a_warm_one(there, reasoner.sign_model());
      if (of_a_warm_one.diagnose(readings, signs).parts[part] < settings.likely) return part;
    }
  }
  return std::nullopt;
}

bool fits_the_other(Reasoner& as_stated, Reasoner& other, std::span<const TakenReading> readings) {
  const std::optional<std::size_t> sound = sound_instance(as_stated);
  const std::optional<std::size_t> sound_other = sound_instance(other);
  if (!sound || !sound_other) return false;
  const Prober& prober = other.prober();
  bool is_any_otherwise = false;
  for (const TakenReading& reading : readings) {
    const auto& ways = other.predicted(*sound_other, reading.measurement);
    if (look_alike(as_stated.predicted(*sound, reading.measurement), ways)) continue;
    is_any_otherwise = true;
    const Probe probe = prober.appliance().test_points[reading.measurement.test_point].probe;
    const std::optional<SeenReading> seen = seen_reading(reading, probe, prober.meter());
    const auto is_shown = [&](const PredictedOutcome& way) { return seen && shows(way, *seen); };
    if (std::none_of(ways.begin(), ways.end(), is_shown)) return false;
  }
  return is_any_otherwise;
}

bool is_between_terminals_of(const TestPoint& point, std::size_t part) {
  return point.from.terminal && point.to.terminal && point.from.terminal->part == part &&
         point.to.terminal->part == part;
}

bool turns_away(const SetUp& set_up, const SetState& from) {
  return std::any_of(set_up.states.begin(), set_up.states.end(), [&](const SetState& row) {
    return is_of_same_state(row, from) && row.value.value != from.value.value;
  });
}

std::optional<std::size_t> state_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                                const Signs& signs, const Standing& standing,
                                                const NextStepSettings& settings) {
  const Prober& prober = reasoner.prober();
  const std::vector<SetState>& others = prober.site().states_not_said;
  if (others.empty()) return std::nullopt;
  const double as_stated = reasoner.suppose(readings, signs).log_evidence;
  for (std::size_t i = 0; i < others.size(); ++i) {
    if (was_read_turned_away(others[i], readings, prober.appliance())) continue;
    Prober there(prober.faults(), with_state(prober.site(), others[i]), prober.meter(), prober.model());
    Reasoner in_that_state(there, reasoner.sign_model());
    const Diagnosis then = in_that_state.diagnose(readings, signs);
    if (probability_of(prober.faults(), then, standing) < settings.likely && may_well_be(then.log_evidence, as_stated))
      return i;
  }
  return std::nullopt;
}

std::optional<UnitSlip> slip_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                            const Signs& signs, const Standing& standing,
                                            const NextStepSettings& settings) {
  constexpr std::array factors{1000.0, 0.001, 10.0, 0.1};
  const std::vector<std::size_t> sound = sound_instances(reasoner);
  const Prober& prober = reasoner.prober();
  const auto is_as_of_a_good_one = [&](const TakenReading& reading) {
    const Probe probe = prober.appliance().test_points[reading.measurement.test_point].probe;
    const std::optional<SeenReading> seen = seen_reading(reading, probe, prober.meter());
    return seen && std::any_of(sound.begin(), sound.end(), [&](std::size_t instance) {
             const auto& ways = reasoner.predicted(instance, reading.measurement);
             return std::any_of(ways.begin(), ways.end(),
                                [&](const PredictedOutcome& way) { return shows(way, *seen); });
           });
  };
  for (const double factor : factors) {
    UnitSlip slip{{}, factor};
    std::vector<TakenReading> meant(readings.begin(), readings.end());
    for (std::size_t i = 0; i < readings.size(); ++i) {
      std::optional<TakenReading> other = as_meant(readings[i], factor);
      if (!other || is_as_of_a_good_one(readings[i]) || !is_as_of_a_good_one(*other)) continue;
      slip.readings.push_back(i);
      meant[i] = *std::move(other);
    }
    if (!slip.readings.empty() && !are_named(reasoner, meant, signs, standing, settings)) return slip;
  }
  return std::nullopt;
}

}  // namespace ohmwright::locate
