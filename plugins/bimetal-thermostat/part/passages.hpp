#pragma once

#include <cstddef>

namespace ohmwright::bimetal_thermostat {

/// Several passages of one trip point, each between two temperatures [K].
///
/// Where one temperature lies in all of them, their intersection holds the trip point. Where none does, it scatters:
/// then the span of all of them stands for where it may trip, and nothing is averaged away.
class Passages {
 public:
  void add(double from, double to);

  std::size_t count() const { return count_; }
  bool scatter() const { return highest_from_ > lowest_to_; }
  /// The intersection, or where there is none the span of all.
  double from() const { return scatter() ? lowest_from_ : highest_from_; }
  double to() const { return scatter() ? highest_to_ : lowest_to_; }
  double middle() const { return 0.5 * (from() + to()); }
  double width() const { return to() - from(); }
  /// It tripped at this temperature or warmer once, at this or colder once.
  double highest_from() const { return highest_from_; }
  double lowest_to() const { return lowest_to_; }
  /// Mean of the middles [K], and their standard deviation [K], 0 for a single one.
  double mean() const { return mean_; }
  double standard_deviation() const;

 private:
  std::size_t count_ = 0;
  double mean_ = 0.0;
  double squares_ = 0.0;  ///< about the mean (Welford)
  double lowest_from_ = 0.0;
  double highest_from_ = 0.0;
  double lowest_to_ = 0.0;
  double highest_to_ = 0.0;
};

}  // namespace ohmwright::bimetal_thermostat
