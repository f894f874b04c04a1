#include <cmath>

#include <ohmwright/component/repeated_readings.hpp>

namespace ohmwright {

namespace {

/// Their sum, where what is left of two equal numbers is nothing.
double without_rounding(double mean, double deviation) {
  constexpr double rounding = 1e-9;
  const double sum = mean + deviation;
  return std::abs(sum) < rounding * std::abs(deviation) ? 0.0 : sum;
}

}  // namespace

double relative_scatter(const Evidence& evidence, const PreparedReading& reading) {
  for (const Term& term : reading.value.terms()) {
    const ErrorSource& source = evidence.sources()[term.source];
    if (source.shape != Shape::student_t) continue;
    return std::abs(term.standard_uncertainty) * std::sqrt(source.degrees_of_freedom + 1.0) /
           std::abs(reading.displayed);
  }
  return -1.0;
}

std::optional<FarApart> far_apart(const Evidence& evidence, const PreparedReading& reading) {
  constexpr double widest_share = 0.1;
  if (reading.shown != Shown::value) return std::nullopt;
  for (const Term& term : reading.value.terms()) {
    const ErrorSource& source = evidence.sources()[term.source];
    if (source.shape != Shape::student_t) continue;
    // The term is s/sqrt(n): of two it is half of what lies between them. Of n none lies farther from the mean than
    // s*(n - 1)/sqrt(n) (a bound on the largest of n deviations, from memory).
    const double farthest = std::abs(term.standard_uncertainty) * source.degrees_of_freedom;
    const auto count = static_cast<std::size_t>(std::lround(source.degrees_of_freedom)) + 1;
    const FarApart apart{count, without_rounding(reading.displayed, -farthest),
                         without_rounding(reading.displayed, farthest)};
    const bool differ = count == 2 ? apart.highest - apart.lowest > widest_share * std::abs(apart.largest())
                                   : repeats_jump(evidence, reading);
    return differ ? std::optional(apart) : std::nullopt;
  }
  return std::nullopt;
}

bool repeats_jump(const Evidence& evidence, const PreparedReading& reading) {
  return reading.shown == Shown::value && relative_scatter(evidence, reading) > jumping_scatter;
}

}  // namespace ohmwright
