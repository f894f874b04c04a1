#include "nodal_reference.hpp"

#include <algorithm>
#include <cmath>
#include <numeric>
#include <stdexcept>
#include <utility>

namespace ohmwright::circuit::testing_support {
namespace {

using Real = boost::multiprecision::cpp_bin_float_quad;

struct Complex {
  Real real = 0;
  Real imaginary = 0;
};

enum class Role { absent, conductor, source, admittance };

Role role(const BranchModel& model, const std::optional<double>& omega) {
  switch (model.type) {
    case BranchType::closed:
      return Role::conductor;
    case BranchType::resistance:
      return Role::admittance;
    case BranchType::voltage_source:
      return omega ? Role::source : Role::absent;
    case BranchType::capacitance:
      return omega.value_or(0.0) > 0.0 ? Role::admittance : Role::absent;
    case BranchType::inductance:
      return omega.value_or(0.0) > 0.0 ? Role::admittance : Role::conductor;
    case BranchType::open:
      break;
  }
  return Role::absent;
}

Complex siemens(const BranchModel& model, const std::optional<double>& omega) {
  const Real value = model.value_in_si;
  if (model.type == BranchType::resistance) return {1 / value, 0};
  if (model.type == BranchType::capacitance) return {0, *omega * value};
  return {0, -1 / (*omega * value)};
}

std::size_t root(std::vector<std::size_t>& parent, std::size_t node) {
  while (parent[node] != node) node = parent[node] = parent[parent[node]];
  return node;
}

/// Gauss with full pivoting on a real system of row length size + 1.
std::vector<Real> solved(std::vector<Real> rows, std::size_t size) {
  const std::size_t length = size + 1;
  std::vector<std::size_t> column_of(size);
  std::iota(column_of.begin(), column_of.end(), std::size_t{0});
  for (std::size_t k = 0; k < size; ++k) {
    std::size_t best_row = k;
    std::size_t best_column = k;
    Real best = 0;
    for (std::size_t i = k; i < size; ++i)
      for (std::size_t j = k; j < size; ++j)
        if (abs(rows[i * length + j]) > best) best = abs(rows[i * length + j]), best_row = i, best_column = j;
    if (best == 0) throw std::logic_error("the reference network is singular");
    for (std::size_t j = 0; j < length; ++j) std::swap(rows[k * length + j], rows[best_row * length + j]);
    for (std::size_t i = 0; i < size; ++i) std::swap(rows[i * length + k], rows[i * length + best_column]);
    std::swap(column_of[k], column_of[best_column]);
    for (std::size_t i = k + 1; i < size; ++i) {
      if (rows[i * length + k] == 0) continue;
      const Real factor = rows[i * length + k] / rows[k * length + k];
      for (std::size_t j = k; j < length; ++j) rows[i * length + j] -= factor * rows[k * length + j];
    }
  }
  std::vector<Real> result(size);
  for (std::size_t k = size; k-- > 0;) {
    Real sum = rows[k * length + size];
    for (std::size_t j = k + 1; j < size; ++j) sum -= rows[k * length + j] * result[column_of[j]];
    result[column_of[k]] = sum / rows[k * length + k];
  }
  return result;
}

}  // namespace

NodalReference::NodalReference(const Network& network, std::span<const Change> changes, const Setting& setting)
    : part_(network.node_count()), branches_(network.branches().begin(), network.branches().end()) {
  for (const Change& change : changes) branches_[change.branch].model = change.model;
  if (setting.meter_in_ohm > 0.0)
    branches_.push_back({setting.meter.plus, setting.meter.minus, {BranchType::resistance, setting.meter_in_ohm, 0.0}});
  const std::optional<double>& omega = setting.angular_frequency;

  std::vector<std::size_t> conductors(part_.size());
  std::iota(conductors.begin(), conductors.end(), std::size_t{0});
  std::vector<std::size_t> parent = conductors;
  std::size_t unknowns = part_.size();
  std::vector<Role> roles;
  for (const Branch& branch : branches_) {
    Role is = role(branch.model, omega);
    if (is == Role::conductor) {
      if (root(conductors, branch.from) == root(conductors, branch.to)) is = Role::absent;
      conductors[root(conductors, branch.from)] = root(conductors, branch.to);
    }
    if (is != Role::absent) parent[root(parent, branch.from)] = root(parent, branch.to);
    current_unknown_.push_back(is == Role::conductor || is == Role::source ? unknowns++ : 0);
    roles.push_back(is);
  }
  for (std::size_t node = 0; node < part_.size(); ++node) part_[node] = root(parent, node);

  // Each unknown and each equation twice: real part, imaginary part.
  const std::size_t size = 2 * unknowns;
  std::vector<Real> rows(size * (size + 1), Real(0));
  const auto add = [&](std::size_t row, std::size_t column, const Complex& value) {
    rows[(2 * row) * (size + 1) + 2 * column] += value.real;
    rows[(2 * row) * (size + 1) + 2 * column + 1] -= value.imaginary;
    rows[(2 * row + 1) * (size + 1) + 2 * column] += value.imaginary;
    rows[(2 * row + 1) * (size + 1) + 2 * column + 1] += value.real;
  };
  const auto grounded = [&](std::size_t node) { return part_[node] == node; };
  for (std::size_t node = 0; node < part_.size(); ++node)
    if (grounded(node)) add(node, node, {1, 0});
  for (std::size_t b = 0; b < branches_.size(); ++b) {
    const Branch& branch = branches_[b];
    admittance_.emplace_back();
    if (roles[b] == Role::absent) continue;
    if (roles[b] == Role::admittance) {
      const Complex y = siemens(branch.model, omega);
      const Complex minus_y{-y.real, -y.imaginary};
      admittance_.back() = {static_cast<double>(y.real), static_cast<double>(y.imaginary)};
      if (!grounded(branch.from)) add(branch.from, branch.from, y), add(branch.from, branch.to, minus_y);
      if (!grounded(branch.to)) add(branch.to, branch.to, y), add(branch.to, branch.from, minus_y);
      continue;
    }
    const std::size_t current = current_unknown_[b];
    if (!grounded(branch.from)) add(branch.from, current, {1, 0});
    if (!grounded(branch.to)) add(branch.to, current, {-1, 0});
    add(current, branch.from, {1, 0});
    add(current, branch.to, {-1, 0});
    if (roles[b] == Role::source) {
      const std::complex<double> volts = std::polar(1.0, branch.model.phase_in_radian) * branch.model.value_in_si;
      rows[(2 * current) * (size + 1) + size] = volts.real();
      rows[(2 * current + 1) * (size + 1) + size] = volts.imag();
    }
  }
  if (setting.test_current) {
    if (!grounded(setting.current_between.plus))
      rows[std::size_t{2} * setting.current_between.plus * (size + 1) + size] += 1;
    if (!grounded(setting.current_between.minus))
      rows[std::size_t{2} * setting.current_between.minus * (size + 1) + size] -= 1;
  }
  solution_ = solved(std::move(rows), size);
}

std::complex<double> NodalReference::voltage(NodePair pair) const {
  return {static_cast<double>(Real(solution_[std::size_t{2} * pair.plus] - solution_[std::size_t{2} * pair.minus])),
          static_cast<double>(
              Real(solution_[std::size_t{2} * pair.plus + 1] - solution_[std::size_t{2} * pair.minus + 1]))};
}

std::complex<double> NodalReference::current(BranchIndex branch) const {
  if (const std::size_t unknown = current_unknown_[branch]; unknown != 0)
    return {static_cast<double>(solution_[2 * unknown]), static_cast<double>(solution_[2 * unknown + 1])};
  return admittance_[branch] * voltage({branches_[branch].from, branches_[branch].to});
}

double NodalReference::root_of_largest_power() const {
  double largest = 0.0;
  for (std::size_t b = 0; b < branches_.size(); ++b)
    largest = std::max(largest,
                       std::sqrt(std::abs(admittance_[b])) * std::abs(voltage({branches_[b].from, branches_[b].to})));
  return largest;
}

}  // namespace ohmwright::circuit::testing_support
