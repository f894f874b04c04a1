#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>
#include <utility>

#include <boost/math/distributions/students_t.hpp>
#include <boost/math/quadrature/gauss_kronrod.hpp>
#include <boost/math/special_functions/gamma.hpp>

#include <ohmwright/quantity/error.hpp>
#include <ohmwright/uncertainty/distribution.hpp>
#include <ohmwright/uncertainty/sum_distribution.hpp>

namespace ohmwright {

namespace {

/// Above this a Student's t differs from the normal by less than 1e-10 everywhere (the difference is about 0.16/ν).
constexpr double normal_degrees_of_freedom = 2e9;
/// Inner integrals are a decade finer than the outer ones, or the outer one would chase their noise.
constexpr double cycle_tolerance = 1e-10;
constexpr unsigned cycle_depth = 12;

template <typename Function>
double integrate_smoothly(const Function& function, double from, double to, std::size_t nesting) {
  if (!(from < to)) return 0.0;
  const double tolerance = cycle_tolerance * std::pow(0.1, static_cast<double>(nesting));
  return boost::math::quadrature::gauss_kronrod<double, 31>::integrate(function, from, to, cycle_depth, tolerance);
}

/// Limits and step of the sum over w = ln(V/ν), V ~ χ²(ν).
///
/// The density of w is C·exp(ν/2·(w − e^w + 1)). It decays so fast that plain equal steps converge exponentially
/// (trapezoidal rule): what a step h misses is the Fourier transform of the density at θ = 2π/h, |Γ(ν/2 + iθ)|/Γ(ν/2),
/// by Stirling exp(−ν/2·(x·atan x − ½·ln(1 + x²))) with x = 2θ/ν. Step and limits leave out about e^−26 = 5e-12 each.
class LogChiSquared {
 public:
  explicit LogChiSquared(double degrees_of_freedom)
      : half_nu_(0.5 * degrees_of_freedom), height_(half_nu_ * boost::math::gamma_p_derivative(half_nu_, half_nu_)) {
    const double ignored = left_out / half_nu_;  // the density is below e^−26 where e^w − 1 − w exceeds this
    from_ = -ignored - std::sqrt(2.0 * ignored);
    const double to = std::log1p(ignored + std::sqrt(2.0 * ignored));
    steps_ = static_cast<int>(std::ceil((to - from_) / longest_step()));
    step_ = (to - from_) / steps_;
  }

  int steps() const { return steps_; }
  double step() const { return step_; }
  double place(int index) const { return from_ + index * step_; }
  double density(double w) const { return height_ * std::exp(-half_nu_ * (std::expm1(w) - w)); }

 private:
  static constexpr double left_out = 26.0;

  /// Newton's method from the far side of a convex function.
  double longest_step() const {
    const double wanted = left_out / half_nu_;
    double x = wanted + std::sqrt(2.0 * wanted);
    for (int i = 0; i < 8; ++i) x -= (x * std::atan(x) - 0.5 * std::log1p(x * x) - wanted) / std::atan(x);
    return 2.0 * std::numbers::pi / (half_nu_ * x);
  }

  double half_nu_;
  double height_;
  double from_ = 0.0;
  double step_ = 0.0;
  int steps_ = 0;
};

}  // namespace

SumDistribution::SumDistribution(std::span<const Term> terms, std::span<const ErrorSource> sources) {
  for (const Term& term : terms) {
    if (term.source >= sources.size()) {
      throw Error(ErrorCategory::internal, "error term of source " + std::to_string(term.source) +
                                               ", but there are only " + std::to_string(sources.size()));
    }
    const ErrorSource& source = sources[term.source];
    add(source.shape, source.degrees_of_freedom, term.standard_uncertainty);
  }
}

void SumDistribution::add(Shape shape, double degrees_of_freedom, double standard_uncertainty) {
  const double u = std::fabs(standard_uncertainty);
  if (u == 0.0) return;
  if (std::isnan(u)) {
    variance_ = u;  // a not-a-number must never end as a probability
    return;
  }
  switch (shape) {
    case Shape::normal:
      variance_ += u * u;
      break;
    case Shape::rectangular:
      add_rectangle(std::numbers::sqrt3 * u);
      break;
    case Shape::triangular:
      add_rectangle(0.5 * half_width_of(shape, u));
      add_rectangle(0.5 * half_width_of(shape, u));
      break;
    case Shape::arcsine:
      add_integrated({shape, 0.0, u});
      break;
    case Shape::student_t:
      if (degrees_of_freedom > normal_degrees_of_freedom) {
        variance_ += u * u;
      } else {
        add_integrated({shape, degrees_of_freedom, u});
      }
      break;
  }
}

void SumDistribution::add_rectangle(double half_width) {
  std::size_t place = half_widths_.size();
  half_widths_.push_back(half_width);
  for (; place > 0 && half_widths_[place - 1] > half_width; --place) half_widths_[place] = half_widths_[place - 1];
  half_widths_[place] = half_width;
}

void SumDistribution::add_integrated(Integrated shape) {
  for (Integrated& other : integrated_) {
    if (shape.standard_uncertainty > other.standard_uncertainty) std::swap(shape, other);
  }
  if (integrated_.size() < max_integrated) {
    integrated_.push_back(shape);
  } else {
    variance_ += shape.standard_uncertainty * shape.standard_uncertainty;
  }
}

double SumDistribution::probability_between(double lower, double upper) const {
  if (std::isnan(variance_)) return variance_;
  if (integrated_.empty()) return closed_part().probability_between(lower, upper);
  if (!(lower <= upper)) return lower > upper ? 0.0 : lower + upper;
  return std::clamp(integrated(0, variance_, lower, upper), 0.0, 1.0);
}

boost::container::static_vector<double, 5> SumDistribution::bends() const {
  boost::container::static_vector<double, 5> offsets{0.0};
  const std::size_t count = half_widths_.size();
  if (count == 0) return offsets;
  const double widest = half_widths_[count - 1];
  const double next = count > 1 ? half_widths_[count - 2] : 0.0;
  offsets.push_back(widest + next);
  offsets.push_back(-widest - next);
  if (next > 0.0) {
    offsets.push_back(widest - next);
    offsets.push_back(next - widest);
  }
  return offsets;
}

/// Integrates over the shapes from `next` on; `variance` is what the normal part has become so far.
double SumDistribution::integrated(std::size_t next, double variance, double lower, double upper) const {
  if (next == integrated_.size()) return closed_part(variance).probability_between(lower, upper);
  return integrated_[next].shape == Shape::arcsine ? over_cycle(next, variance, lower, upper)
                                                   : over_student_t(next, variance, lower, upper);
}

/// Given V, the error u·T = u·Z/√(V/ν) is normal of variance u²·ν/V.
double SumDistribution::over_student_t(std::size_t next, double variance, double lower, double upper) const {
  const double u = integrated_[next].standard_uncertainty;
  const double nu = integrated_[next].degrees_of_freedom;
  if (integrated_.size() == 1 && variance == 0.0 && half_widths_.empty()) {
    const boost::math::students_t distribution(nu);
    if (lower > 0.0) return cdf(distribution, -lower / u) - cdf(distribution, -upper / u);
    return cdf(distribution, upper / u) - cdf(distribution, lower / u);
  }
  const LogChiSquared log_chi_squared(nu);
  double sum = 0.0;
  for (int i = 0; i <= log_chi_squared.steps(); ++i) {
    const double w = log_chi_squared.place(i);
    sum += log_chi_squared.density(w) * integrated(next + 1, variance + u * u * std::exp(-w), lower, upper);
  }
  return sum * log_chi_squared.step();
}

double SumDistribution::over_cycle(std::size_t next, double variance, double lower, double upper) const {
  const double half_width = half_width_of(Shape::arcsine, integrated_[next].standard_uncertainty);
  const auto phase = [half_width](double x) { return std::asin(std::clamp(x / half_width, -1.0, 1.0)); };
  if (integrated_.size() == 1 && variance == 0.0 && half_widths_.empty())
    return (phase(upper) - phase(lower)) * std::numbers::inv_pi;
  const auto integrand = [&](double angle) {
    const double error = half_width * std::sin(angle);
    return std::numbers::inv_pi * integrated(next + 1, variance, lower - error, upper - error);
  };
  // Where the cycle itself passes a limit the integrand is steepest: cut there.
  const double first = phase(lower);
  const double second = phase(upper);
  const double quarter = 0.5 * std::numbers::pi;
  return integrate_smoothly(integrand, -quarter, first, next) + integrate_smoothly(integrand, first, second, next) +
         integrate_smoothly(integrand, second, quarter, next);
}

}  // namespace ohmwright
