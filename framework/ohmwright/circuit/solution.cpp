#include <algorithm>
#include <cmath>
#include <complex>

#include <Eigen/Dense>

#include <ohmwright/circuit/loop_refusal.hpp>
#include <ohmwright/circuit/solution.hpp>
#include <ohmwright/circuit/update.hpp>

namespace ohmwright::circuit {
namespace {

template <typename Scalar>
using Matrix = Eigen::Matrix<Scalar, Eigen::Dynamic, Eigen::Dynamic, Eigen::RowMajor>;

Eigen::Index signed_index(std::size_t index) { return static_cast<Eigen::Index>(index); }

// With positive conductances the scaled matrix is 1 + (a sum of squares): positive definite, no pivoting needed.
Matrix<double> inverse_of(const Matrix<double>& matrix) {
  Matrix<double> inverse = Matrix<double>::Identity(matrix.rows(), matrix.cols());
  matrix.llt().solveInPlace(inverse);
  return inverse;
}

Matrix<std::complex<double>> inverse_of(const Matrix<std::complex<double>>& matrix) {
  return matrix.partialPivLu().inverse();
}

/// The branches of one conduct, in their order.
template <typename Scalar>
std::vector<BranchIndex> branches_of(std::span<const BranchState<Scalar>> branches, Conduct conduct) {
  std::vector<BranchIndex> found;
  for (std::size_t b = 0; b < branches.size(); ++b)
    if (branches[b].conduct == conduct) found.push_back(static_cast<BranchIndex>(b));
  return found;
}

bool is_among(BranchIndex branch, std::span<const BranchIndex> branches) {
  return std::find(branches.begin(), branches.end(), branch) != branches.end();
}

}  // namespace

template <typename Scalar>
Solution<Scalar>::Solution(const Network& network, std::span<const BranchState<Scalar>> branches,
                           std::span<const BranchIndex> wanted_currents)
    : tree_(network.node_count()), branches_(branches.begin(), branches.end()) {
  grow(network, branches, wanted_currents);
  find_ways();
  invert(branches);
}

template <typename Scalar>
void Solution<Scalar>::find_ways() {
  TreePath way;
  way_places_.reserve(branches_.size() + 1);
  for (const BranchState<Scalar>& branch : branches_) {
    way_places_.push_back({ways_.unknown.size(), ways_.known.size()});
    const NodePair ends{branch.from, branch.to};
    if (separated(ends)) continue;
    tree_.path(ends, way);
    ways_.unknown.insert(ways_.unknown.end(), way.unknown.begin(), way.unknown.end());
    ways_.known.insert(ways_.known.end(), way.known.begin(), way.known.end());
  }
  way_places_.push_back({ways_.unknown.size(), ways_.known.size()});
}

// What nobody asks for is joined first: a wanted branch between points that are one already is in a loop of joined
// ones.
template <typename Scalar>
void Solution<Scalar>::grow_joined(std::span<const BranchState<Scalar>> branches,
                                   std::span<const BranchIndex> wanted_currents) {
  std::vector<BranchIndex> wanted;
  for (const BranchIndex b : branches_of(branches, Conduct::joined)) {
    if (is_among(b, wanted_currents))
      wanted.push_back(b);
    else if (tree_.separated(branches[b].from, branches[b].to))
      tree_.join(branches[b].from, branches[b].to);
  }
  TreePath loop;
  for (const BranchIndex b : wanted) {
    if (tree_.separated(branches[b].from, branches[b].to)) {
      tree_.add_known(branches[b].from, branches[b].to);
      known_branch_.push_back(b);
      continue;
    }
    undetermined_.push_back(b);
    tree_.path({branches[b].from, branches[b].to}, loop);
    for (const TreePath::Step& step : loop.known) undetermined_.push_back(known_branch_[step.coordinate]);
  }
}

template <typename Scalar>
void Solution<Scalar>::grow(const Network& network, std::span<const BranchState<Scalar>> branches,
                            std::span<const BranchIndex> wanted_currents) {
  grow_joined(branches, wanted_currents);
  const std::vector<BranchIndex> sources = branches_of(branches, Conduct::source);
  for (const BranchIndex b : sources) {
    if (!tree_.separated(branches[b].from, branches[b].to)) {
      TreePath loop;
      // The names of joined branches are known only where their currents are.
      const std::vector<BranchIndex> joined = branches_of(branches, Conduct::joined);
      const bool are_all_wanted =
          std::all_of(joined.begin(), joined.end(), [&](BranchIndex one) { return is_among(one, wanted_currents); });
      if (!are_all_wanted) (void)Solution(network, branches, joined);
      tree_.path({branches[b].from, branches[b].to}, loop);
      std::vector<BranchIndex> members{b};
      for (const TreePath::Step& step : loop.known) members.push_back(known_branch_[step.coordinate]);
      refuse_loop(network, members);
    }
    tree_.add_known(branches[b].from, branches[b].to);
    known_branch_.push_back(b);
  }
  for (const BranchIndex b : known_branch_) known_voltages_.push_back(branches[b].value);

  // The best conductors first: then every admittance outside the tree is at most as large as those it goes round, and
  // the scaled equations are well conditioned whatever the span of the values.
  std::vector<BranchIndex> admittances = branches_of(branches, Conduct::admittance);
  std::vector<double> magnitude(branches.size());
  for (const BranchIndex b : admittances) magnitude[b] = std::abs(branches[b].value);
  std::stable_sort(admittances.begin(), admittances.end(),
                   [&](BranchIndex a, BranchIndex b) { return magnitude[a] > magnitude[b]; });
  for (const BranchIndex b : admittances)
    if (tree_.separated(branches[b].from, branches[b].to))
      tree_.add_unknown(branches[b].from, branches[b].to, 1.0 / std::sqrt(magnitude[b]));
  tree_.finish();
}

template <typename Scalar>
void Solution<Scalar>::invert(std::span<const BranchState<Scalar>> branches) {
  const std::size_t unknowns = unknown_count();
  const std::size_t knowns = known_count();
  covered_.assign(unknowns, 0);
  voltages_.assign(unknowns, Scalar{});
  inverse_.resize(unknowns * unknowns);
  by_known_.resize(unknowns * knowns);
  if (unknowns == 0) return;

  Matrix<Scalar> matrix = Matrix<Scalar>::Zero(signed_index(unknowns), signed_index(unknowns));
  Matrix<Scalar> right_sides = Matrix<Scalar>::Zero(signed_index(unknowns), signed_index(knowns));
  for (std::size_t b = 0; b < branches.size(); ++b) {
    const BranchState<Scalar>& branch = branches[b];
    if (branch.conduct != Conduct::admittance) continue;
    const TreeWay path = way_of(static_cast<BranchIndex>(b));
    for (const TreePath::Step& row : path.unknown) {
      const Scalar weighted = branch.value * row.weight;
      for (const TreePath::Step& column : path.unknown)
        matrix(row.coordinate, column.coordinate) += weighted * column.weight;
      for (const TreePath::Step& column : path.known)
        right_sides(row.coordinate, column.coordinate) -= weighted * column.weight;
      ++covered_[row.coordinate];
    }
  }
  const Matrix<Scalar> inverse = inverse_of(matrix);
  // Scaled, every diagonal is at least 1 and its inverse no more, unless coils and capacitors cancel each other: what
  // is left of such a sum has lost its digits.
  if (!inverse.allFinite() || !(inverse.cwiseAbs().maxCoeff() < 1.0 / least_share_kept)) refuse_resonance();
  Eigen::Map<Matrix<Scalar>>(inverse_.data(), inverse.rows(), inverse.cols()) = inverse;
  if (knowns == 0) return;
  Eigen::Map<Matrix<Scalar>> by_known(by_known_.data(), right_sides.rows(), right_sides.cols());
  by_known.noalias() = inverse * right_sides;
  const Eigen::Map<const Matrix<Scalar>> given(known_voltages_.data(), signed_index(knowns), 1);
  Eigen::Map<Matrix<Scalar>>(voltages_.data(), signed_index(unknowns), 1).noalias() = by_known * given;
}

template <typename Scalar>
void Solution<Scalar>::respond(const TreeWay& path, std::span<Scalar> voltages) const {
  const std::size_t unknowns = unknown_count();
  std::fill(voltages.begin(), voltages.end(), Scalar{});
  for (const TreePath::Step& step : path.unknown)  // the inverse is symmetric: its rows are its columns
    for (std::size_t k = 0; k < unknowns; ++k) voltages[k] += step.weight * inverse_[step.coordinate * unknowns + k];
}

template <typename Scalar>
Scalar Solution<Scalar>::along(const TreeWay& path, std::span<const Scalar> voltages) {
  Scalar sum{};
  for (const TreePath::Step& step : path.unknown) sum += step.weight * voltages[step.coordinate];
  return sum;
}

template <typename Scalar>
Scalar Solution<Scalar>::impedance(const TreeWay& path) const {
  Scalar half{};  // the inverse is symmetric: what stands below its diagonal counts twice
  for (std::size_t i = 0; i < path.unknown.size(); ++i) {
    const TreePath::Step& row = path.unknown[i];
    const Scalar* const inverse = inverse_.data() + row.coordinate * unknown_count();
    Scalar sum = 0.5 * row.weight * inverse[row.coordinate];
    for (std::size_t j = 0; j < i; ++j) sum += path.unknown[j].weight * inverse[path.unknown[j].coordinate];
    half += row.weight * sum;
  }
  return 2.0 * half;
}

template <typename Scalar>
Scalar Solution<Scalar>::voltage(const TreeWay& path) const {
  Scalar sum = along(path, voltages_);
  for (const TreePath::Step& step : path.known) sum += step.weight * known_voltages_[step.coordinate];
  return sum;
}

template <typename Scalar>
Scalar Solution<Scalar>::transfer(const TreeWay& path, std::size_t known) const {
  Scalar sum{};
  for (const TreePath::Step& step : path.unknown)
    sum += step.weight * by_known_[step.coordinate * known_count() + known];
  for (const TreePath::Step& step : path.known)
    if (step.coordinate == known) sum += step.weight;
  return sum;
}

template <typename Scalar>
std::size_t Solution<Scalar>::known_coordinate(BranchIndex branch) const {
  const auto found = std::find(known_branch_.begin(), known_branch_.end(), branch);
  return found == known_branch_.end() ? none : static_cast<std::size_t>(found - known_branch_.begin());
}

template <typename Scalar>
bool Solution<Scalar>::current_is_undetermined(BranchIndex branch) const {
  return std::find(undetermined_.begin(), undetermined_.end(), branch) != undetermined_.end();
}

// Current law on the cut of the tree at this branch: what goes through it comes back through the admittances that go
// round it.
template <typename Scalar>
Scalar Solution<Scalar>::current(std::size_t known, std::span<const Scalar> branch_voltages) const {
  Scalar sum{};
  for (std::size_t b = 0; b < branches_.size(); ++b) {
    if (branches_[b].conduct != Conduct::admittance) continue;
    for (const TreePath::Step& step : way_of(static_cast<BranchIndex>(b)).known)
      if (step.coordinate == known) sum -= step.weight * branches_[b].value * branch_voltages[b];
  }
  return sum;
}

template class Solution<double>;
template class Solution<std::complex<double>>;

}  // namespace ohmwright::circuit
