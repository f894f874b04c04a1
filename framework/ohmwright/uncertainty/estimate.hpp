#pragma once

#include <span>

#include <boost/container/static_vector.hpp>

#include <ohmwright/quantity/core_api.hpp>
#include <ohmwright/uncertainty/error_source.hpp>

namespace ohmwright {

/// One source's part in the uncertainty of an estimate.
struct Term {
  SourceIndex source = 0;
  double standard_uncertainty = 0.0;  ///< signed, in the unit of the estimate: sensitivity times u of the source
};

/// A value with its errors to first order: value + Σ u_i·e_i, where e_i are independent sources of unit variance.
///
/// Kernel type: plain numbers in a unit that the caller names. Holds its terms in place, so that judging allocates
/// nothing. Terms of one source are merged (added with their signs) as they come in.
class OHMWRIGHT_CORE_API Estimate {
 public:
  static constexpr std::size_t max_terms = 24;

  Estimate() = default;
  explicit Estimate(double value) : value_(value) {}

  double value() const { return value_; }
  std::span<const Term> terms() const { return {terms_.data(), terms_.size()}; }

  /// Adds to the value without touching its uncertainty.
  void shift(double by) { value_ += by; }
  /// Adds a term, merged with one of the same source. Throws `Error` (internal) past `max_terms` distinct sources.
  void add_term(SourceIndex source, double standard_uncertainty);
  /// this += factor · other, terms with their signs.
  void add_scaled(const Estimate& other, double factor);
  /// Adds only the uncertainty of `other`, scaled: for y = f(a, b), call with ∂f/∂a and ∂f/∂b.
  void add_uncertainty(const Estimate& other, double sensitivity);

  double variance() const;
  double standard_uncertainty() const;

 private:
  double value_ = 0.0;
  boost::container::static_vector<Term, max_terms> terms_;
};

/// Covariance through shared sources: Σ a_i·b_i over the sources that both hold.
OHMWRIGHT_CORE_API double covariance(const Estimate& a, const Estimate& b);

/// Welch–Satterthwaite effective degrees of freedom (GUM G.4.1), not truncated; infinity when all sources are known.
OHMWRIGHT_CORE_API double effective_degrees_of_freedom(const Estimate& estimate, std::span<const ErrorSource> sources);

/// P(lower ≤ Y ≤ upper) of the estimate [dimensionless]. Infinite limits are allowed; 0 if lower > upper; a
/// not-a-number in value, uncertainty or limit gives one. Throws `Error` (internal) if a term names a source that is
/// not there.
///
/// A sum of normals and up to four rectangles is exact (closed form, `NormalAndRectangles`; a triangle is two
/// rectangles). A rectangle narrower than 0.15 of the normal part is folded into it with an error below 2e-10. Of five
/// and more wide ones the four largest stay and the rest are folded likewise: off by at most 8e-6 for equal rectangles
/// and nothing else, less for mixed sizes. A Student's t of few degrees of freedom and a cycle (arcsine) are integrated
/// over numerically, error below 1e-9; beyond three of these the smallest count as normal of the same standard
/// uncertainty. The shape decides: a `normal` source of few degrees of freedom stays normal here (they count in
/// `effective_degrees_of_freedom`). No probability jumps where a term passes one of these thresholds, but for the last:
/// with four or more t or cycle terms of unlike degrees of freedom, changing places by size moves it by that error.
OHMWRIGHT_CORE_API double probability_between(const Estimate& estimate, std::span<const ErrorSource> sources,
                                              double lower, double upper);

}  // namespace ohmwright
