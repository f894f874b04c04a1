#pragma once

#include <complex>
#include <optional>
#include <span>
#include <vector>

#include <boost/multiprecision/cpp_bin_float.hpp>

#include <ohmwright/circuit/network.hpp>

namespace ohmwright::circuit::testing_support {

/// Textbook modified nodal analysis with 113 bits, sharing nothing with the area but the network: node voltages and the
/// currents of sources and conductors are the unknowns, one node of each part is its ground, Gauss with full pivoting.
class NodalReference {
 public:
  struct Setting {
    std::optional<double> angular_frequency;  ///< live; nothing: an ohmmeter, sources taken away
    NodePair current_between;                 ///< 1 A in at plus, out at minus, where `test_current` is set
    bool test_current = false;
    NodePair meter;  ///< a resistance between these nodes, where above 0
    double meter_in_ohm = 0.0;
  };

  NodalReference(const Network& network, std::span<const Change> changes, const Setting& setting);

  bool separated(NodePair pair) const { return part_[pair.plus] != part_[pair.minus]; }
  std::complex<double> voltage(NodePair pair) const;
  /// Nothing where it cannot be told: a conductor that closes a loop of conductors was left out.
  std::complex<double> current(BranchIndex branch) const;
  /// Root of the largest apparent power in a branch [√VA].
  double root_of_largest_power() const;

 private:
  using Real = boost::multiprecision::cpp_bin_float_quad;

  std::vector<std::size_t> part_;
  std::vector<Real> solution_;  ///< real and imaginary part of each unknown
  std::vector<std::size_t> current_unknown_;
  std::vector<std::complex<double>> admittance_;
  std::vector<Branch> branches_;
};

}  // namespace ohmwright::circuit::testing_support
