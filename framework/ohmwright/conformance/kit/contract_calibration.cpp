#include <algorithm>
#include <cmath>
#include <optional>
#include <string>
#include <vector>

#include <ohmwright/conformance/kit/contract_case.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/print.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>

namespace ohmwright {

namespace {

constexpr std::uint64_t calibration_seed = 20'260'101;
constexpr int draws = 400;

/// Whether all doubt of the case lies in what was read: no state, no repeats, no doubt of the kind's own.
bool can_be_drawn(const VectorCase& vector, const Verdict& verdict, const Descriptor& descriptor) {
  const bool values = std::all_of(vector.readings.begin(), vector.readings.end(), [](const Reading& reading) {
    return std::holds_alternative<StatedValue>(reading.observed) && reading.repeats.empty();
  });
  const std::size_t own_sources = 1 + descriptor.error_sources.size();  // the model's first, then the kind's
  const bool of_readings = std::all_of(verdict.findings.begin(), verdict.findings.end(), [&](const Finding& finding) {
    if (!finding.judged) return true;
    const auto terms = finding.judged->terms();
    return std::all_of(terms.begin(), terms.end(), [&](const Term& term) { return term.source >= own_sources; });
  });
  return values && of_readings && !vector.readings.empty();
}

/// A value of the estimate for these errors of its sources.
double drawn(const Estimate& estimate, const std::vector<double>& errors) {
  double value = estimate.value();
  for (const Term& term : estimate.terms()) value += term.standard_uncertainty * errors[term.source];
  return value;
}

/// A value without doubt: so little that it decides nothing.
StatedValue exactly(Dimension dimension, double value, const Unit& unit) {
  return {AnyQuantity(dimension, value), 1e-9 * std::max(std::abs(value), 1e-9), unit};
}

/// The readings as they would be if these errors had been made and were known.
std::vector<Reading> truth(const VectorCase& vector, const Descriptor& descriptor, const Evidence& evidence,
                           const std::vector<double>& errors) {
  std::vector<Reading> readings = vector.readings;
  for (const PreparedReading& prepared : evidence.readings()) {
    Reading& reading = readings[prepared.reading];
    const auto& read = std::get<StatedValue>(reading.observed);
    const Dimension dimension = read.value.dimension();
    if (dimension == Dimension::resistance)
      reading.leads = StatedValue{AnyQuantity(dimension, 0.0), 0.0, Unit::si(dimension)};
    reading.observed = exactly(dimension, drawn(prepared.value, errors), read.unit);
    for (const PreparedCondition& condition : prepared.conditions)
      for (Condition& said : reading.conditions)
        if (said.id == descriptor.conditions[condition.condition].id)
          said.value = exactly(said.value.value.dimension(), drawn(condition.value, errors), said.value.unit);
  }
  return readings;
}

/// Whether the essential measurands of a part that was read without doubt are within their limits; other rules may
/// condemn it all the same. Nothing where that cannot be told.
std::optional<bool> truly_within(const KindCases& tried, const PreparedVector& prepared,
                                 const std::vector<Reading>& readings) {
  try {
    const auto judged = judged_case(tried.kind, prepared, readings);
    const auto* verdict = std::get_if<Verdict>(&judged);
    if (verdict == nullptr || !verdict->probability_within) return std::nullopt;
    constexpr double even = 0.5;
    return *verdict->probability_within > even;
  } catch (const InputError&) {  // no meter shows that
    return std::nullopt;
  }
}

/// The share of truths within limits; nothing where not all of them can be told.
std::optional<double> share_within(const KindCases& tried, const VectorCase& vector, const PreparedVector& prepared,
                                   ReproducibleStream& stream) {
  const Descriptor& descriptor = tried.kind.descriptor();
  const Evidence evidence(descriptor, vector.readings, prepared.meters);
  int within = 0;
  for (int draw = 0; draw < draws; ++draw) {
    std::vector<double> errors;
    for (const ErrorSource& source : evidence.sources())
      errors.push_back(stream.error_of(source.shape, source.degrees_of_freedom));
    const auto one = truly_within(tried, prepared, truth(vector, descriptor, evidence, errors));
    if (!one) return std::nullopt;
    within += *one ? 1 : 0;
  }
  return static_cast<double>(within) / draws;
}

}  // namespace

std::vector<std::string> breaches_of_calibration(const KindCases& tried) {
  ReproducibleStream stream(calibration_seed);
  return look_at_cases(
      tried, [&](const VectorCase& vector, const PreparedVector& prepared, const Verdict& verdict, auto say) {
        const std::optional<double>& stated = verdict.probability_within;
        if (!stated || !can_be_drawn(vector, verdict, tried.kind.descriptor())) return;
        const std::optional<double> share = share_within(tried, vector, prepared, stream);
        if (!share) return;
        // Five standard deviations of the count, and a point for what first order leaves out.
        const double allowed = 0.01 + 5.0 * std::sqrt(std::max(*stated * (1.0 - *stated), 1e-4) / draws);
        if (std::abs(*share - *stated) <= allowed) return;
        say("it states " + exact_text({Dimension::ratio, *stated}) + ", of " + std::to_string(draws) +
            " true parts behind this reading " + exact_text({Dimension::ratio, *share}) +
            " are within; is every sensitivity right, with its sign?");
      });
}

}  // namespace ohmwright
