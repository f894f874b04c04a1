#pragma once

#include <cstddef>

#include <ohmwright/component/evidence.hpp>

#include "part/passages.hpp"
#include "part/trip_finder.hpp"
#include "rules/names.hpp"

namespace ohmwright::bimetal_thermostat {

/// Where a trip point, or a difference of two, lies by the readings [K].
struct Bracketed {
  Estimate judged;    ///< middle of the gap, with the gap, the thermometer and the lag as terms
  Estimate shared;    ///< the same without the gap
  double from = 0.0;  ///< ends of the gap
  double to = 0.0;
  double least = 0.0;  ///< it was at least this warm once, and…
  double most = 0.0;   ///< …at most this warm once: with one trip point the ends of the gap
  bool scatters = false;

  double width() const { return to - from; }
};

/// All passages of one trip point in the readings, with their doubts.
///
/// The thermometer's error is taken once, since one thermometer reads a whole series: it does not shrink with cycles.
class TripSeries {
 public:
  explicit TripSeries(ErrorSourceIndex gap) : gap_(gap) {}

  /// Takes a passage between two readings. Lag and ramp of the second one, where both are stated, are subtracted:
  /// trip = indicated − τ·dT/dt. A lag of more than 5 K makes it one between readings too far apart.
  void add(const Passage& passage, const PreparedReading& before, const PreparedReading& after);

  const Passages& passages() const { return passages_; }
  std::size_t count() const { return passages_.count(); }
  /// Passages that went the wrong way, not counted in any other figure.
  std::size_t backwards() const { return backwards_; }
  /// Passages between readings too far apart, or too far behind the part, likewise.
  std::size_t far_apart() const { return far_apart_; }
  /// Changes at one and the same temperature, likewise.
  std::size_t by_itself() const { return by_itself_; }
  bool nothing_seen() const { return count() + backwards_ + far_apart_ + by_itself_ == 0; }
  bool lag_subtracted() const { return slowest_ != nullptr; }
  double largest_lag() const { return largest_lag_; }  ///< [K], of those subtracted

  const Passage& last() const { return last_; }
  const Passage& last_backwards() const { return last_backwards_; }
  const Passage& last_far_apart() const { return last_far_apart_; }
  const Passage& last_by_itself() const { return last_by_itself_; }

  Bracketed bracketed() const;

 private:
  void take_doubts(const PreparedReading& before, const PreparedReading& after);

  ErrorSourceIndex gap_;
  Passages passages_;
  std::size_t backwards_ = 0;
  std::size_t far_apart_ = 0;
  std::size_t by_itself_ = 0;
  Passage last_;
  Passage last_backwards_;
  Passage last_far_apart_;
  Passage last_by_itself_;
  double largest_lag_ = 0.0;
  double direction_ = 1.0;                    ///< of the temperature
  const Estimate* thermometer_ = nullptr;     ///< the most doubtful of its readings
  const PreparedReading* slowest_ = nullptr;  ///< the reading with the largest lag
};

/// Opening less closing temperature.
Bracketed difference_of(const Bracketed& opening, const Bracketed& closing);

}  // namespace ohmwright::bimetal_thermostat
