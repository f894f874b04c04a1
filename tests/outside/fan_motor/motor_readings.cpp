#include "motor_readings.hpp"

#include <stdexcept>
#include <string>

#include <ohmwright/component/evidence.hpp>
#include <ohmwright/quantity/observed.hpp>

#include "fan_motor_kind.hpp"
#include "fan_motor_part.hpp"

namespace ohmwright::fan_motor::testing_support {

MeterSet meter_of(const OneRange& range) {
  MeterFunction function;
  function.dimension = range.dimension;
  function.ranges.push_back({AnyQuantity(range.dimension, range.full_scale), range.percent, range.counts,
                             AnyQuantity(range.dimension, range.resolution)});
  return MeterSet(
      {{"meter", "Meter", "test", {function}, parse_stated_value(range.leads, Dimension::resistance), false}});
}

MeterSet clamp(double resolution) { return meter_of({Dimension::current, 1.5, 3.0, resolution, 10.0}); }

Finding finding_of(const FanMotorRatings& ratings, RuleIndex rule, const std::vector<Reading>& readings,
                   const MeterSet& meters) {
  const FanMotorKind kind;
  const Evidence evidence(kind.descriptor(), readings, meters);
  Findings findings;
  FanMotorPart(ratings).judge(evidence, {}, findings);
  for (const Finding& finding : findings.findings())
    if (finding.rule == rule) return finding;
  throw std::logic_error("the rule did not speak");
}

Finding capacitor_finding(const CapacitorRun& run, const MeterSet& meters) {
  FanMotorRatings ratings;
  ratings.construction = Construction::capacitor_run;
  ratings.frequency = Frequency::from_value(run.hertz);
  ratings.capacitance = Capacitance::from_value(run.rated_farad);
  ratings.capacitance_tolerance = run.tolerance;
  Reading reading{.measurand = "capacitor_current", .observed = parse_observed(run.current, Dimension::current)};
  reading.conditions.push_back({"capacitor_voltage", parse_stated_value(run.across, Dimension::voltage), "", false});
  reading.supply = Supply::live;
  return finding_of(ratings, capacitor, {reading}, meters);
}

}  // namespace ohmwright::fan_motor::testing_support
