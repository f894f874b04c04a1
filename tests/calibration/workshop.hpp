#pragma once

#include <span>
#include <string>
#include <vector>

#include <ohmwright/component/reading.hpp>
#include <ohmwright/uncertainty/reproducible_stream.hpp>
#include <ohmwright/verdict/verdict.hpp>

namespace ohmwright::calibration {

/// A part of known truth, and what a technician's instruments showed of it.
struct SimulatedPart {
  bool truly_within = false;
  std::vector<Reading> readings;
  std::vector<Outcome> by_the_trade;  ///< what each way of the trade says of the same part
};

/// Where parts of one kind are drawn and read.
class Workshop {
 public:
  Workshop() = default;
  Workshop(const Workshop&) = delete;
  Workshop& operator=(const Workshop&) = delete;
  virtual ~Workshop() = default;

  virtual SimulatedPart draw(ReproducibleStream& stream) const = 0;
  /// What the ways of the trade are called (common practice, no source), in the order of `by_the_trade`.
  virtual std::span<const std::string> ways_of_the_trade() const = 0;
};

/// Anything within ±`half_width`, evenly: how far an instrument is off.
inline double evenly_within(ReproducibleStream& stream, double half_width) {
  return half_width * (2.0 * stream.uniform() - 1.0);
}

}  // namespace ohmwright::calibration
