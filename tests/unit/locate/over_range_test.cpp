// OL is a censored reading: what lies past the range that was set. Probabilities of OL and of any value below it have
// to sum up to 1; figures by hand.

#include <cmath>

#include <gtest/gtest.h>

#include <ohmwright/locate/reading_range.hpp>
#include <ohmwright/locate/weighed_readings.hpp>

#include "timer_appliance.hpp"

namespace ohmwright::locate {
namespace {

using namespace testing;

AnyQuantity ohms(double value) { return AnyQuantity(Dimension::resistance, value); }

/// A meter whose range is turned to by hand: 200 ohm to 20 Mohm.
Meter manual_meter() {
  Meter meter = exact_meter();
  meter.sets_range_itself = false;
  meter.functions.front().ranges.clear();
  for (const double full_scale : {200.0, 2e3, 20e3, 200e3, 2e6, 20e6})
    meter.functions.front().ranges.push_back({ohms(full_scale), 0.8, 2.0, ohms(full_scale / 2000.0)});
  return meter;
}

SeenReading over_range_on(const Meter& meter, std::optional<AnyQuantity> range) {
  TakenReading reading{{0, {}}, OverRange{}, "OL"};
  reading.range = range;
  return *seen_reading(reading, Probe::ohms, meter);
}

double likelihood_of(const PredictedOutcome& outcome, const SeenReading& seen) {
  return likelihood(outcome, seen, Probe::ohms, ReadingModel{});
}

PredictedOutcome value_of(double ohm) {
  return {1.0, PredictedOutcome::Form::value, scale_of(Probe::ohms).at(ohm), 0.05, {}};
}
const PredictedOutcome open_path{1.0, PredictedOutcome::Form::over_range, 0.0, 0.0, {}};

TEST(OverRange, OnAManualRangeIsPastTheRangeThatWasSet) {
  const Meter meter = manual_meter();
  const Scale scale = scale_of(Probe::ohms);
  EXPECT_NEAR(*over_range_on(meter, ohms(20e3)).past, scale.at(20e3), 1e-12);
  EXPECT_NEAR(*over_range_on(meter, ohms(200.0)).past, scale.at(200.0), 1e-12);
  // Nobody said which: it is past the smallest, and that is all.
  EXPECT_NEAR(*over_range_on(meter, {}).past, scale.at(200.0), 1e-12);
}

TEST(OverRange, OnALowRangeAGoodPartShowsItToo) {
  const Meter meter = manual_meter();
  const SeenReading low = over_range_on(meter, ohms(200.0));
  const SeenReading high = over_range_on(meter, ohms(20e3));
  EXPECT_NEAR(likelihood_of(value_of(10e3), low), 1.0, 1e-12);
  EXPECT_NEAR(likelihood_of(value_of(10e3), high), 0.0, 1e-12);
  EXPECT_NEAR(likelihood_of(value_of(20e3), high), 0.5, 1e-12);  // as likely above the end of the range as below it
  EXPECT_NEAR(likelihood_of(open_path, low), 1.0, 1e-6);
  EXPECT_NEAR(likelihood_of(value_of(100.0), low), 0.0, 1e-12);
}

TEST(OverRange, AndEveryValueBelowItSumUpToOne) {
  const Meter meter = manual_meter();
  for (const double range : {200.0, 20e3, 2e6, 20e6}) {
    const SeenReading over = over_range_on(meter, ohms(range));
    SeenReading below;
    below.form = SeenReading::Form::between;
    below.at = -100.0;
    below.to = *over.past;
    for (const PredictedOutcome& outcome : {value_of(0.97 * range), value_of(1.03 * range), open_path})
      EXPECT_NEAR(likelihood_of(outcome, over) + likelihood_of(outcome, below), 1.0, 1e-12) << range;
  }
}

}  // namespace
}  // namespace ohmwright::locate
