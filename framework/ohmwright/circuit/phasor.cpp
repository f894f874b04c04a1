#include <cassert>
#include <cmath>
#include <numbers>

#include <ohmwright/circuit/phasor.hpp>

namespace ohmwright::circuit {

Feed<std::complex<double>> live_feed(Frequency line_frequency) {
  assert(std::isfinite(line_frequency.value()) && line_frequency.value() >= 0.0);
  return {2.0 * std::numbers::pi * line_frequency.value()};
}

double magnitude_slope(std::complex<double> phasor, std::complex<double> slope) {
  const double length = std::abs(phasor);
  if (length == 0.0) return std::abs(slope);
  return (std::conj(phasor) * slope).real() / length;
}

std::complex<double> source_direction(const BranchModel& model) {
  if (model.type != BranchType::voltage_source) return 0.0;
  if (model.phase_in_radian == 0.0) return 1.0;
  return {std::cos(model.phase_in_radian), std::sin(model.phase_in_radian)};
}

}  // namespace ohmwright::circuit
