// What the engine predicts of a fault, wherever it is asked: at the bench, in `explain`, in `locate`.

#include <cmath>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/course/explain.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/locate/prober.hpp>
#include <ohmwright/locate/site.hpp>
#include <ohmwright/quantity/error.hpp>

#include "class_room.hpp"

namespace ohmwright::course {
namespace {

using testing::place_of;
using testing::shipped;

/// An appliance and what is predicted of one of its faults.
class Predicted {
 public:
  Predicted(Appliance appliance, const std::string& fault)
      : bench_(bench_of(std::move(appliance))),
        meter_(read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/basic.json"))),
        faults_(bench_.appliance, {}),
        prober_(faults_, locate::site_as_found(bench_.appliance), meter_, every_set_up_takes()) {
    for (const locate::Candidate& candidate : faults_.candidates())
      if (candidate.faults.size() == 1 && faults_.name(candidate.faults.front()) == fault) candidate_ = &candidate;
    if (candidate_ == nullptr) throw InputError("the appliance has no fault " + fault);
  }

  locate::Measurement at(const std::string& point, const std::string& set_up = {}) const {
    locate::Measurement measurement{place_of(bench_.appliance.test_points, point), {}};
    if (!set_up.empty()) measurement.set_up = place_of(bench_.appliance.set_ups, set_up);
    return measurement;
  }
  ShownSpan span(const std::string& point, const std::string& set_up = {}) {
    return shown_span(bench_, meter_, faults_, *candidate_, at(point, set_up));
  }
  /// Probability that it reads less than `value` [SI].
  double share_below(double value, const std::string& point, const std::string& set_up = {}) {
    const locate::Scale scale = locate::scale_of(bench_.appliance.test_points[at(point).test_point].probe);
    double below = 0.0;
    for (const locate::Instance& instance : prober_.instances(*candidate_))
      for (const locate::PredictedOutcome& way : prober_.predict(instance, at(point, set_up)))
        if (way.form == locate::PredictedOutcome::Form::value && way.mean < scale.at(value))
          below += instance.weight * way.weight;
    return below;
  }

 private:
  static locate::ReadingModel every_set_up_takes() {
    locate::ReadingModel model;
    model.set_up_missed = model.temperature_missed = 0.0;
    return model;
  }

  Bench bench_;
  Meter meter_;
  locate::FaultList faults_;
  locate::Prober prober_;
  const locate::Candidate* candidate_ = nullptr;
};

// 120 V and 450 W are 32 ohm, 28.22 to 35.56 ohm cold (IEC 60335-1's +5 % and -10 % of the power, and the alloy). The
// kind says that the leak lies a tenth to nine tenths along, and that it has 0 to 1 Mohm (both assumed); the
// rest is Ohm's law: a wire that touches its sheath is as long as it was, and from an end to the frame lies at least a
// tenth of the shortest, where it touches well. Its coil lies at -18 °C ± 5 K, where the alloy has up to 0.2 ohm less.
TEST(Predicted, AWireThatLeaksIsAsLongAsAGoodOne) {
  Predicted leaking(shipped(testing::timer_appliance), "heater.leaks-in-the-middle");
  const ShownSpan wire = leaking.span("heater-alone");
  ASSERT_TRUE(wire.ohms);
  EXPECT_NEAR(wire.ohms->low, 28.22, 0.2);
  EXPECT_NEAR(wire.ohms->high, 35.56, 0.2);
  const ShownSpan to_frame = leaking.span("heater-to-frame");
  ASSERT_TRUE(to_frame.ohms);
  EXPECT_NEAR(to_frame.ohms->low, 0.1 * 28.22, 0.02);
  EXPECT_NEAR(to_frame.ohms->high, 1e6, 0.01e6);
  EXPECT_FALSE(to_frame.may_be_open);
}

Appliance sensor_table() {
  const Appliance appliance = shipped("upright-thermistor-230v");
  return table_of(appliance, place_of(appliance.parts, "sensor")).appliance;
}

// A fault whose range is one value as found and several after a set-up is all of them there. The kind says half to nine
// tenths of a good one (assumed); at -15 °C its class has a middle of R(T) = 10 kohm exp(3977 (1/T - 1/298.15)) for a B
// that holds there, near enough for these bounds: 76.1 kohm (by hand), which ±2 K move by 12 % and its tolerance by 7
// %.
TEST(Predicted, AFaultThatIsOneOfSeveralInTheColdIsAllOfThemThere) {
  Predicted drifted(sensor_table(), "sensor.drift-low");
  const ShownSpan cold = drifted.span("lead-1-to-lead-2", salted_ice);
  ASSERT_TRUE(cold.ohms);
  EXPECT_LT(cold.ohms->low, 0.55 * 76.1e3);
  EXPECT_GT(cold.ohms->high, 0.85 * 76.1e3);
}

// Joule's law: what opens because it is hot is whole where nothing heats it. By hand: behind a timer in run no volts
// stand across 32 ohm; in a defrost 120 V do, and open it, but for the share of readings before it is hot (assumed).
TEST(Predicted, WhatOpensWhenHotIsOpenOnlyWhereTheSupplyHeatsIt) {
  Predicted hot(shipped(testing::timer_appliance), "heater.opens-hot");
  EXPECT_GT(hot.share_below(3.0, "volts-heater"), 0.95) << "the timer stands in run";
  EXPECT_LT(hot.share_below(100.0, "volts-heater", "forced-defrost"), 0.05);
  EXPECT_NEAR(hot.share_below(0.2, "amperes-defrost", "forced-defrost"), 0.8, 0.05);
  EXPECT_NEAR(hot.share_below(4.5, "amperes-defrost", "forced-defrost"), 1.0, 0.01) << "3.75 A before it is hot";
  const ShownSpan dead = hot.span("heater-alone");
  ASSERT_TRUE(dead.ohms);
  EXPECT_NEAR(dead.ohms->low, 28.22, 0.2);
  EXPECT_NEAR(dead.ohms->high, 35.56, 0.2);
}

}  // namespace
}  // namespace ohmwright::course
