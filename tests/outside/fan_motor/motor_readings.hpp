#pragma once

#include <string_view>
#include <vector>

#include <ohmwright/component/meter.hpp>
#include <ohmwright/component/reading.hpp>
#include <ohmwright/verdict/verdict.hpp>

#include "part/fan_motor_ratings.hpp"
#include "rules/names.hpp"

// Motors, meters and readings for the tests of the kind against figures from outside.

namespace ohmwright::fan_motor::testing_support {

/// A meter of one function and one range: ± (percent of the reading + counts · resolution [SI]); leads as typed.
struct OneRange {
  Dimension dimension;
  double percent;
  double counts;
  double resolution;
  double full_scale;
  std::string_view leads = "0 ohm +- 0 ohm";
};
MeterSet meter_of(const OneRange& range);
/// A clamp of 1.5 % and 3 counts of `resolution` [A].
MeterSet clamp(double resolution);

/// What one motor's rule finds in the readings. Throws std::logic_error when it did not speak.
Finding finding_of(const FanMotorRatings& ratings, RuleIndex rule, const std::vector<Reading>& readings,
                   const MeterSet& meters);

/// A capacitor of a running motor, and how it was read.
struct CapacitorRun {
  double rated_farad;
  double hertz;
  std::string_view current;  ///< "1.40 A", by the meter's doubt, or with its own
  std::string_view across;   ///< "372 V +- 4.02 V"
  double tolerance = 0.06;
};

/// What the capacitor rule makes of the clamp and the volts.
Finding capacitor_finding(const CapacitorRun& run, const MeterSet& meters);

}  // namespace ohmwright::fan_motor::testing_support
