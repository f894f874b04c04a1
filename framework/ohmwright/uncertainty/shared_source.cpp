#include <algorithm>
#include <cmath>
#include <numbers>

#include <boost/math/special_functions/gamma.hpp>

#include <ohmwright/uncertainty/shared_source.hpp>

namespace ohmwright {

namespace {

constexpr double integrated_reach = 8.0;
constexpr double quarter_turn = 0.5 * std::numbers::pi;
constexpr double sqrt6 = std::numbers::sqrt2 * std::numbers::sqrt3;
constexpr double density_scale = 0.398942280401432677939946059934;  // 1/√(2π)
/// Above this Student's t is the normal to 2e-10 and its own integral only gets narrower.
constexpr double normal_from_here_on = 1e9;

}  // namespace

SourceIntegral::SourceIntegral(const ErrorSource& source)
    : shape_(source.shape), degrees_of_freedom_(source.degrees_of_freedom) {
  if (shape_ == Shape::student_t && degrees_of_freedom_ > normal_from_here_on) shape_ = Shape::normal;
  switch (shape_) {
    case Shape::normal:
      limit_ = integrated_reach;
      bends_ = {-2.0, 2.0};
      height_ = density_scale;
      break;
    case Shape::rectangular:
      limit_ = std::numbers::sqrt3;
      height_ = 0.5 / limit_;
      break;
    case Shape::triangular:
      limit_ = sqrt6;
      bends_ = {0.0};
      height_ = 1.0 / 6.0;
      break;
    case Shape::arcsine:  // e = √2·sin θ
      limit_ = quarter_turn;
      height_ = std::numbers::inv_pi;
      break;
    case Shape::student_t:  // e = √ν·tan θ, weight ∝ cos^(ν−1) θ
      limit_ = quarter_turn;
      bends_ = {-std::atan(4.0 / std::sqrt(degrees_of_freedom_)), std::atan(4.0 / std::sqrt(degrees_of_freedom_))};
      height_ = boost::math::tgamma_ratio(0.5 * degrees_of_freedom_ + 0.5, 0.5 * degrees_of_freedom_) *
                std::sqrt(std::numbers::inv_pi);
      break;
  }
}

SourceIntegral::SourceIntegral(const SumDistribution& sum) : sum_(sum.closed_part()), limit_(sum_->reach()) {
  for (const double bend : sum.bends()) {
    if (std::fabs(bend) < limit_) bends_.push_back(bend);
  }
}

SourceIntegral::Cuts SourceIntegral::cuts() const {
  Cuts cuts{-limit_, limit_};
  cuts.insert(cuts.end(), bends_.begin(), bends_.end());
  return cuts;
}

double SourceIntegral::error(double theta) const {
  if (sum_) return theta;
  if (shape_ == Shape::arcsine) return std::numbers::sqrt2 * std::sin(theta);
  if (shape_ == Shape::student_t) return std::sqrt(degrees_of_freedom_) * std::tan(theta);
  return theta;
}

double SourceIntegral::weight(double theta) const {
  if (sum_) return sum_->density(theta);
  if (shape_ == Shape::normal) return height_ * std::exp(-0.5 * theta * theta);
  if (shape_ == Shape::triangular) return height_ * (sqrt6 - std::fabs(theta));
  if (shape_ == Shape::student_t) return height_ * std::pow(std::cos(theta), degrees_of_freedom_ - 1.0);
  return height_;
}

double SourceIntegral::parameter(double error) const {
  double theta = error;
  if (sum_) return std::clamp(theta, -limit_, limit_);
  if (shape_ == Shape::arcsine) theta = std::asin(std::clamp(error / std::numbers::sqrt2, -1.0, 1.0));
  if (shape_ == Shape::student_t) theta = std::atan(error / std::sqrt(degrees_of_freedom_));
  return std::clamp(theta, -limit_, limit_);
}

}  // namespace ohmwright
