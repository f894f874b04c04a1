#include <cmath>
#include <limits>
#include <numbers>

#include <ohmwright/uncertainty/normal_and_rectangles.hpp>

namespace ohmwright {

namespace {

constexpr double normal_reach = 8.0;  // Φ(−8) = 6e-16: nothing that a double could tell from zero beside one

double normal_density(double z) {
  return std::exp(-0.5 * z * z) * (0.5 * std::numbers::sqrt2 * std::numbers::inv_sqrtpi);
}
double normal_below(double z) { return 0.5 * std::erfc(-z * (0.5 * std::numbers::sqrt2)); }

}  // namespace

// NOLINTNEXTLINE(cppcoreguidelines-pro-type-member-init): parts_ is filled as rectangles are added, see the header
NormalAndRectangles::NormalAndRectangles(double variance, std::span<const double> ascending_half_widths)
    : variance_(variance) {
  std::size_t next = 0;
  while (next < ascending_half_widths.size()) {
    const double half_width = ascending_half_widths[next];
    const bool too_many = ascending_half_widths.size() - next > max_rectangles;
    if (!too_many && half_width * half_width > narrow * narrow * variance_) break;
    fold(half_width);
    ++next;
  }
  sigma_ = std::sqrt(variance_);
  inverse_sigma_ = 1.0 / sigma_;  // infinite without a normal part, and then never used
  if (folded_) finish_folding();
  parts_[0] = {0.0, 0.0, normal_reach * sigma_, 0.5 * variance_, variance_ * variance_ * (0.125 + series_[0])};
  for (; next < ascending_half_widths.size(); ++next) add_rectangle(ascending_half_widths[next]);
}

void NormalAndRectangles::fold(double half_width) {
  const double square = half_width * half_width;
  const double fourth = square * square;
  variance_ += square / 3.0;
  series_[0] -= fourth / 180.0;
  series_[1] += fourth * square / 2835.0;
  series_[2] -= fourth * fourth / 37800.0;
  series_[3] += fourth * fourth * square / 467775.0;
  folded_ = true;
}

/// Turns the sums of cumulants into the coefficients of the Edgeworth series, in units of σ.
void NormalAndRectangles::finish_folding() {
  const double square = inverse_sigma_ * inverse_sigma_;
  double scale = square * square;
  for (double& coefficient : series_) {
    coefficient *= scale;
    scale *= square;
  }
  series_[3] += series_[0] * series_[1];
  series_[2] += 0.5 * series_[0] * series_[0];
}

void NormalAndRectangles::add_rectangle(double half_width) {
  const PartSum& inner = parts_[count_];
  const double sixth = half_width * half_width / 6.0;
  ++count_;
  parts_[count_] = {half_width, 0.5 / half_width, inner.reach + half_width, inner.second + sixth,
                    inner.fourth + inner.second * sixth + 0.3 * sixth * sixth};
}

double NormalAndRectangles::probability_between(double lower, double upper) const {
  if (std::isnan(lower) || std::isnan(upper) || std::isnan(variance_)) return std::numeric_limits<double>::quiet_NaN();
  if (lower > upper) return 0.0;
  if (parts_[count_].reach == 0.0) return lower <= 0.0 && upper >= 0.0 ? 1.0 : 0.0;
  // The distribution is symmetric: ask for the small tails only, they keep their digits.
  double probability = 0.0;
  if (lower > 0.0) {
    probability = below(-lower) - below(-upper);
  } else if (upper < 0.0) {
    probability = below(upper) - below(lower);
  } else {
    probability = 1.0 - below(lower) - below(-upper);
  }
  return std::fmin(std::fmax(probability, 0.0), 1.0);
}

double NormalAndRectangles::below(double x) const {
  switch (count_) {
    case 0:
      return power_moment<0, 0>(x);
    case 1:
      return power_moment<1, 0>(x);
    case 2:
      return power_moment<2, 0>(x);
    case 3:
      return power_moment<3, 0>(x);
    default:
      return power_moment<4, 0>(x);
  }
}

/// E[max(x − R, 0)^power]/power! of the sum R of the normal and the first `rectangles` rectangles.
template <std::size_t rectangles, std::size_t power>
double NormalAndRectangles::power_moment(double x) const {
  static_assert(rectangles + power <= max_rectangles);
  const PartSum& part = parts_[rectangles];
  if (x <= -part.reach) return 0.0;
  if (x >= part.reach) return beyond_reach<power>(part, x);
  if constexpr (rectangles == 0) {
    return normal_power_moment<power>(x);
  } else {
    return (power_moment<rectangles - 1, power + 1>(x + part.half_width) -
            power_moment<rectangles - 1, power + 1>(x - part.half_width)) *
           part.inverse_width;
  }
}

/// E[(x − R)^power]/power!, from the even moments of R.
template <std::size_t power>
double NormalAndRectangles::beyond_reach(const PartSum& part, double x) {
  if constexpr (power == 0) return 1.0;
  if constexpr (power == 1) return x;
  if constexpr (power == 2) return 0.5 * x * x + part.second;
  if constexpr (power == 3) return x * (x * x * (1.0 / 6.0) + part.second);
  if constexpr (power == 4) return x * x * (x * x * (1.0 / 24.0) + 0.5 * part.second) + part.fourth;
}

/// The same of the normal part alone: j·m_j = z·m_{j−1} + m_{j−2}, from m_{−1} = φ and m_0 = Φ, in units of σ.
template <std::size_t power>
double NormalAndRectangles::normal_power_moment(double x) const {
  const double z = x * inverse_sigma_;
  std::array<double, power + 1> scaled{};
  scaled[0] = normal_below(z);
  if (power == 0 && !folded_) return scaled[0];
  const double density = normal_density(z);
  if constexpr (power >= 1) scaled[1] = z * scaled[0] + density;
  for (std::size_t j = 2; j <= power; ++j)
    scaled[j] = (z * scaled[j - 1] + scaled[j - 2]) * (1.0 / static_cast<double>(j));
  double moment = scaled[power];
  if (folded_) moment += folded_correction(static_cast<int>(power), z, density, scaled);
  for (std::size_t j = 0; j < power; ++j) moment *= sigma_;
  return moment;
}

/// Σ c_m·D^(m−power) Φ for m = 4, 6, 8, 10; D^k Φ = (−1)^(k−1)·He_(k−1)·φ for k > 0, and m_(−k) below.
double NormalAndRectangles::folded_correction(int power, double z, double density,
                                              std::span<const double> scaled) const {
  std::array<double, 11> hermite{};  // probabilists' He_0 … He_10
  hermite[0] = 1.0;
  hermite[1] = z;
  for (std::size_t k = 2; k < hermite.size(); ++k)
    hermite[k] = z * hermite[k - 1] - static_cast<double>(k - 1) * hermite[k - 2];
  double sum = 0.0;
  int order = 4;
  for (const double coefficient : series_) {
    const int derivative = order - power;
    order += 2;
    if (derivative <= 0) {
      sum += coefficient * scaled[static_cast<std::size_t>(-derivative)];
      continue;
    }
    const double sign = derivative % 2 == 0 ? -1.0 : 1.0;
    sum += coefficient * sign * hermite[static_cast<std::size_t>(derivative - 1)] * density;
  }
  return sum;
}

/// The derivative of the distribution function lowers every power by one: P′ = (P_(n−1)(x + a) − P_(n−1)(x − a))/(2a).
template <std::size_t rectangles>
double NormalAndRectangles::density_of(double x) const {
  const PartSum& part = parts_[rectangles];
  return (power_moment<rectangles - 1, 0>(x + part.half_width) - power_moment<rectangles - 1, 0>(x - part.half_width)) *
         part.inverse_width;
}

double NormalAndRectangles::density(double x) const {
  switch (count_) {
    case 0: {
      if (sigma_ == 0.0) return 0.0;
      const double z = x * inverse_sigma_;
      const double standard = normal_density(z);
      const double correction = folded_ ? folded_correction(-1, z, standard, {}) : 0.0;
      return (standard + correction) * inverse_sigma_;
    }
    case 1:
      return density_of<1>(x);
    case 2:
      return density_of<2>(x);
    case 3:
      return density_of<3>(x);
    default:
      return density_of<4>(x);
  }
}

}  // namespace ohmwright
