#include <algorithm>
#include <cmath>
#include <map>
#include <utility>

#include <ohmwright/locate/part_model.hpp>
#include <ohmwright/locate/standing.hpp>

namespace ohmwright::locate {

namespace {

/// A span is tried in so many parts, each as wide as it takes to leave no temperature out.
constexpr int parts_of_span = 6;
/// What changes by less than this over the whole span is no part to be asked the temperature of: wires and heaters.
constexpr double otherwise_by = 1.3;

Site with_zone_at(Site site, std::size_t zone, double kelvin, double half_width) {
  StatedValue& temperature = site.zone_temperatures[zone];
  temperature.value = AnyQuantity(Dimension::temperature, kelvin);
  temperature.half_width = half_width;
  site.not_measured[zone].reset();
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

}  // namespace

std::vector<AnswerSet> answers(const FaultList& faults, const Diagnosis& diagnosis) {
  std::map<AnswerKey, double> sums;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    sums[faults.answer_of(faults.candidates()[i])] += diagnosis.candidates[i];
  std::vector<AnswerSet> sets;
  for (const auto& [key, probability] : sums) {
    AnswerSet set{key.first, {}, probability};
    if (key.second > 0) set.outside_cause = key.second - 1;
    sets.push_back(std::move(set));
  }
  std::stable_sort(sets.begin(), sets.end(),
                   [](const AnswerSet& a, const AnswerSet& b) { return a.probability > b.probability; });
  return sets;
}

double probability_of(const FaultList& faults, const Diagnosis& diagnosis, const Standing& standing) {
  const AnswerKey named{standing.parts, standing.outside_cause ? *standing.outside_cause + 1 : 0};
  double sum = 0.0;
  for (std::size_t i = 0; i < diagnosis.candidates.size(); ++i)
    if (diagnosis.candidates[i] > 0.0 && takes_in(faults.answer_of(faults.candidates()[i]), named))
      sum += diagnosis.candidates[i];
  return sum;
}

Standing standing(const FaultList& faults, const Diagnosis& diagnosis, const NextStepSettings& settings,
                  std::span<const Step> steps) {
  const std::vector<AnswerSet> sets = answers(faults, diagnosis);
  const AnswerSet& likeliest = sets.front();
  Standing at{Standing::Form::open, likeliest.parts, likeliest.outside_cause};
  at.probability = probability_of(faults, diagnosis, at);
  const bool sealed_cause =
      likeliest.outside_cause && faults.appliance().outside_causes[*likeliest.outside_cause].sealed_system;
  if (diagnosis.sealed_system || (sealed_cause && at.probability >= settings.likely))
    at.form = Standing::Form::sealed_system;
  else if (at.probability >= settings.replace)
    at.form = Standing::Form::settled;
  else if (at.probability >= settings.likely)
    at.form = Standing::Form::likely;
  else if (steps.empty())
    at.form = Standing::Form::no_more_steps;
  return at;
}

/// Whether the part was read by itself after a set-up that gives its zone a stated temperature: what it was at before,
/// clears it no more.
static bool was_read_at_a_stated_temperature(std::size_t part, std::size_t zone, std::span<const TakenReading> readings,
                                             const Prober& prober) {
  const Appliance& appliance = prober.appliance();
  return std::any_of(readings.begin(), readings.end(), [&](const TakenReading& reading) {
    const Measurement& measurement = reading.measurement;
    return measurement.set_up && part_alone_at(appliance.test_points[measurement.test_point]) == part &&
           !after_set_up(appliance, prober.site(), measurement.set_up).not_measured[zone];
  });
}

std::optional<std::size_t> zone_that_may_clear(Reasoner& reasoner, std::span<const TakenReading> readings,
                                               const Signs& signs, const Standing& standing,
                                               const NextStepSettings& settings) {
  const Prober& prober = reasoner.prober();
  const Appliance& appliance = prober.appliance();
  for (const std::size_t part : standing.parts) {
    const std::optional<std::size_t>& zone = appliance.parts[part].zone;
    if (!zone || !prober.site().not_measured[*zone]) continue;
    if (!changes_with_temperature(appliance, part, prober.site(), *zone)) continue;
    if (was_read_at_a_stated_temperature(part, *zone, readings, prober)) continue;
    const TemperatureSpan& span = *prober.site().not_measured[*zone];
    const double half_width = 0.5 * (span.to_kelvin - span.from_kelvin) / parts_of_span;
    for (int i = 0; i < parts_of_span; ++i) {
      const double kelvin = span.from_kelvin + (2 * i + 1) * half_width;
      Prober there(prober.faults(), with_zone_at(prober.site(), *zone, kelvin, half_width), prober.meter(),
                   prober.model());
      Reasoner at_that_temperature(there, reasoner.sign_model());
      if (at_that_temperature.diagnose(readings, signs).parts[part] < settings.likely) return zone;
    }
  }
  return std::nullopt;
}

std::optional<std::size_t> part_alone_at(const TestPoint& point) {
  if (!point.from.terminal || !point.to.terminal || point.from.terminal->part != point.to.terminal->part)
    return std::nullopt;
  const std::size_t part = point.from.terminal->part;
  const bool is_off = std::any_of(point.lifted.begin(), point.lifted.end(),
                                  [part](const PartTerminal& terminal) { return terminal.part == part; });
  return is_off ? std::optional(part) : std::nullopt;
}

}  // namespace ohmwright::locate
