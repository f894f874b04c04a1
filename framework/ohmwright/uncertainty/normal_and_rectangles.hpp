#pragma once

#include <array>
#include <cstddef>
#include <span>

#include <ohmwright/quantity/core_api.hpp>

namespace ohmwright {

/// Distribution of a centred sum of one normal and several rectangles, evaluated without an integral.
///
/// Kernel type: all figures in one unit that the caller names. The probability is a sum over the corners of the
/// rectangles' box of the iterated integrals of Φ (a piecewise polynomial where there is no normal part):
///
///     P(R ≤ x) = Π 1/(2a_i) · Σ_± (±) M_n(x ± a_1 ± … ± a_n),   M_j(x) = E[max(x − N, 0)^j]/j!,  N normal, M_0 = Φ.
///
/// What keeps it exact in double precision: beyond the reach of a part sum its M_j is a polynomial and is taken in one
/// step for all the corners there, smallest rectangles first; and a rectangle that is narrow against the normal part,
/// which would only cancel digits, is folded into it with its cumulants up to the tenth (error below 2e-10).
/// Source: own derivation. The folding is an Edgeworth series from the cumulants of a rectangle,
/// ln(sinh(s)/s) = s²/6 − s⁴/180 + s⁶/2835 − s⁸/37800 + s¹⁰/467775 − …
class OHMWRIGHT_CORE_API NormalAndRectangles {
 public:
  /// Rectangles that keep their corners. Where there are more that are not narrow, the smallest are folded by the same
  /// series: five or more equal rectangles and nothing else are then off by at most 8e-6, mixed sizes by less.
  static constexpr std::size_t max_rectangles = 4;
  /// Half-width over standard deviation of the normal part, below which a rectangle is narrow.
  static constexpr double narrow = 0.15;

  /// `variance` ≥ 0 of the normal part; half-widths a_i > 0 of the rectangles in ascending order.
  NormalAndRectangles(double variance, std::span<const double> ascending_half_widths);

  /// P(lower ≤ R ≤ upper) [dimensionless]. Infinite limits are allowed; 0 if lower > upper; NaN if a limit is NaN.
  double probability_between(double lower, double upper) const;

  /// Density at `x` [1/unit]; 0 for the sum of nothing.
  double density(double x) const;
  /// Half the width outside which the probability is below 1e-15.
  double reach() const { return parts_[count_].reach; }

 private:
  /// What is known of the sum of the normal and the first k rectangles.
  struct PartSum {
    double half_width;      ///< of the k-th rectangle
    double inverse_width;   ///< 1/(2a)
    double reach;           ///< beyond ± this there is nothing
    double second, fourth;  ///< m_2/2!, m_4/4!
  };

  void fold(double half_width);
  void finish_folding();
  void add_rectangle(double half_width);
  double below(double x) const;
  template <std::size_t rectangles>
  double density_of(double x) const;
  template <std::size_t rectangles, std::size_t power>
  double power_moment(double x) const;
  template <std::size_t power>
  double normal_power_moment(double x) const;
  template <std::size_t power>
  static double beyond_reach(const PartSum& part, double x);
  double folded_correction(int power, double z, double density, std::span<const double> scaled) const;

  double variance_ = 0.0;
  double sigma_ = 0.0;
  double inverse_sigma_ = 0.0;
  bool folded_ = false;
  std::array<double, 4> series_{};  ///< coefficients of D⁴, D⁶, D⁸, D¹⁰ in units of σ
  std::size_t count_ = 0;
  std::array<PartSum, max_rectangles + 1>
      parts_;  // filled up to count_ only: zeroing the rest costs more than using it
};

}  // namespace ohmwright
