#include <cmath>

#include <ohmwright/circuit/branch_state.hpp>

namespace ohmwright::circuit {
namespace {

template <typename Scalar>
BranchState<Scalar> admittance(const Branch& branch, Scalar siemens) {
  return {branch.from, branch.to, Conduct::admittance, siemens};
}

template <typename Scalar>
BranchState<Scalar> without_value(const Branch& branch, Conduct conduct) {
  return {branch.from, branch.to, conduct, Scalar{}};
}

}  // namespace

BranchState<double> Feed<double>::state(const Branch& branch) const {
  switch (branch.model.type) {
    case BranchType::resistance:
      return admittance(branch, 1.0 / branch.model.value_in_si);
    case BranchType::inductance:
    case BranchType::closed:
      return without_value<double>(branch, Conduct::joined);
    case BranchType::capacitance:
    case BranchType::voltage_source:
    case BranchType::open:
      break;
  }
  return without_value<double>(branch, Conduct::absent);
}

double Feed<double>::admittance_slope(const BranchModel& model) const {
  if (model.type != BranchType::resistance) return 0.0;
  return -1.0 / (model.value_in_si * model.value_in_si);
}

BranchState<std::complex<double>> Feed<std::complex<double>>::state(const Branch& branch) const {
  const BranchModel& model = branch.model;
  switch (model.type) {
    case BranchType::resistance:
      return admittance(branch, Phasor(1.0 / model.value_in_si));
    case BranchType::capacitance:
      if (angular_frequency == 0.0) break;
      return admittance(branch, Phasor(0.0, angular_frequency * model.value_in_si));
    case BranchType::inductance:
      if (angular_frequency == 0.0) return without_value<Phasor>(branch, Conduct::joined);
      return admittance(branch, Phasor(0.0, -1.0 / (angular_frequency * model.value_in_si)));
    case BranchType::closed:
      return without_value<Phasor>(branch, Conduct::joined);
    case BranchType::voltage_source: {
      // A source that is not turned stays exactly real.
      const Phasor volts = model.phase_in_radian == 0.0 ? Phasor(model.value_in_si)
                                                        : model.value_in_si * Phasor(std::cos(model.phase_in_radian),
                                                                                     std::sin(model.phase_in_radian));
      return {branch.from, branch.to, Conduct::source, volts};
    }
    case BranchType::open:
      break;
  }
  return without_value<Phasor>(branch, Conduct::absent);
}

std::complex<double> Feed<std::complex<double>>::admittance_slope(const BranchModel& model) const {
  const double square = model.value_in_si * model.value_in_si;
  if (model.type == BranchType::resistance) return -1.0 / square;
  if (angular_frequency == 0.0) return 0.0;
  if (model.type == BranchType::capacitance) return {0.0, angular_frequency};
  if (model.type == BranchType::inductance) return {0.0, 1.0 / (angular_frequency * square)};
  return 0.0;
}

}  // namespace ohmwright::circuit
