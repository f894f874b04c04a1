#include <cmath>

#include <ohmwright/component/repeated_readings.hpp>

namespace ohmwright {

double relative_scatter(const Evidence& evidence, const PreparedReading& reading) {
  for (const Term& term : reading.value.terms()) {
    const ErrorSource& source = evidence.sources()[term.source];
    if (source.shape != Shape::student_t) continue;
    return std::abs(term.standard_uncertainty) * std::sqrt(source.degrees_of_freedom + 1.0) /
           std::abs(reading.displayed);
  }
  return -1.0;
}

bool repeats_jump(const Evidence& evidence, const PreparedReading& reading) {
  return reading.shown == Shown::value && relative_scatter(evidence, reading) > jumping_scatter;
}

}  // namespace ohmwright
