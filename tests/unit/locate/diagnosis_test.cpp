#include <algorithm>
#include <optional>
#include <string>
#include <vector>

#include <gtest/gtest.h>

#include <ohmwright/locate/site.hpp>
#include <ohmwright/locate/standing.hpp>
#include <ohmwright/quantity/error.hpp>

#include "bench_kinds.hpp"
#include "timer_appliance.hpp"

namespace ohmwright::locate {
namespace {

using namespace testing;

/// Finds faults of the timer appliance from typed readings.
class Finder : public ::testing::Test {
 protected:
  Appliance appliance = timer_appliance();
  Meter meter = hand_meter();
  FaultList faults{appliance, PriorSettings{}};
  Prober prober{faults, site_as_found(appliance), meter, ReadingModel{}};
  Reasoner reasoner{prober};

  TakenReading reading(const std::string& test_point, const std::string& shown, const std::string& set_up = "") const {
    Measurement measurement{test_point_named(appliance, test_point), {}};
    if (!set_up.empty()) measurement.set_up = set_up_named(appliance, set_up);
    ObservedOptions options;
    options.contact_words = true;
    const Dimension dimension = dimension_of(appliance.test_points[measurement.test_point].probe);
    options.over_range = dimension == Dimension::resistance;
    return {measurement, parse_observed(shown, dimension, options), {}};
  }
  double part(const Diagnosis& diagnosis, const std::string& id) const {
    return diagnosis.parts[part_named(appliance, id)];
  }
};

TEST_F(Finder, BeforeAnyReadingTheWeightsSpeak) {
  const Diagnosis diagnosis = reasoner.diagnose({}, {});
  double sum = 0.0;
  for (const double p : diagnosis.candidates) sum += p;
  EXPECT_NEAR(sum, 1.0, 1e-12);
  EXPECT_GT(part(diagnosis, "heater"), 0.08);
  EXPECT_LT(part(diagnosis, "heater"), 0.25);
}

TEST_F(Finder, AnOpenHeaterIsNamedFromTwoReadings) {
  const std::vector<TakenReading> readings{reading("X-N", "8.0 kohm"), reading("H1-H2", "8.0 kohm")};
  const Diagnosis diagnosis = reasoner.diagnose(readings, {});
  EXPECT_GT(part(diagnosis, "heater"), 0.97);
}

TEST_F(Finder, OneReadingDoesNotTellHeaterFromItsLead) {
  const std::vector<TakenReading> readings{reading("X-N", "8.0 kohm")};
  const Diagnosis diagnosis = reasoner.diagnose(readings, {});
  EXPECT_GT(part(diagnosis, "heater"), 0.3);
  EXPECT_GT(part(diagnosis, "heater-lead"), 0.2);
}

TEST_F(Finder, AThermostatThatIsOpenBecauseItIsWarmIsHealthy) {
  const std::vector<TakenReading> warm{reading("D-X", "8.0 kohm", "warmed")};
  const std::vector<TakenReading> cold{reading("D-X", "8.0 kohm")};
  EXPECT_LT(part(reasoner.diagnose(warm, {}), "thermostat"), 0.2);
  EXPECT_GT(part(reasoner.diagnose(cold, {}), "thermostat"), 0.9);
}

TEST_F(Finder, TheOrderOfReadingsDoesNotMatter) {
  const std::vector<TakenReading> one{reading("X-N", "32.1 ohm"), reading("D-X", "20 ohm"), reading("L-D", "0.3 ohm")};
  std::vector<TakenReading> other(one.rbegin(), one.rend());
  const Diagnosis a = reasoner.diagnose(one, {});
  const Diagnosis b = reasoner.diagnose(other, {});
  for (std::size_t i = 0; i < a.candidates.size(); ++i) EXPECT_NEAR(a.candidates[i], b.candidates[i], 1e-12);
}

TEST_F(Finder, TheOrderOfRepeatsDoesNotMatter) {
  // Each agrees with its neighbour and not with the one after it: which of them join was a matter of their order.
  for (const std::vector<std::string>& shown : {std::vector<std::string>{"37.5 ohm", "39.19 ohm", "40.88 ohm"},
                                                std::vector<std::string>{"30 ohm", "OL", "31.3 ohm", "32.6 ohm"}}) {
    std::vector<std::size_t> order(shown.size());
    for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
    std::optional<double> first;
    do {
      std::vector<TakenReading> readings;
      for (const std::size_t i : order) readings.push_back(reading("X-N", shown[i]));
      const double heater = part(reasoner.diagnose(readings, {}), "heater");
      if (!first) first = heater;
      EXPECT_NEAR(heater, *first, 1e-12);
    } while (std::next_permutation(order.begin(), order.end()));
  }
}

TEST_F(Finder, OnATemperatureThatNobodyMeasuredNoContactIsCondemned) {
  appliance.zones.push_back({"room", "room", parse_stated_value("21 degC ± 3 K", Dimension::temperature)});
  Prober nobody(faults, site_not_measured(appliance, false), meter, ReadingModel{});
  Reasoner doubting(nobody);
  Prober somebody(faults, site_as_found(appliance), meter, ReadingModel{});
  Reasoner sure(somebody);
  Prober after_thaw(faults, site_not_measured(appliance, true), meter, ReadingModel{});
  Reasoner thawed(after_thaw);
  const std::vector<TakenReading> open{reading("D-X", "8.0 kohm")};
  EXPECT_GT(part(sure.diagnose(open, {}), "thermostat"), 0.9);
  EXPECT_LT(part(doubting.diagnose(open, {}), "thermostat"), 0.6);
  EXPECT_LT(part(thawed.diagnose(open, {}), "thermostat"), part(doubting.diagnose(open, {}), "thermostat"));
  // One temperature for all readings: a second one through the same contact condemns it no more than the first.
  const std::vector<TakenReading> twice{reading("D-X", "8.0 kohm"), reading("D-N", "8.0 kohm")};
  EXPECT_LT(part(doubting.diagnose(twice, {}), "thermostat"), 0.7);
}

TEST_F(Finder, OddsOfCausesAndTheirEffectsAddUp) {
  // Two independent ways to one effect, by hand: own odds o, and with probability q after the cause. Odds of effect to
  // no effect are ((o + q(1-p))/(1-p))/... = o + q times those of the cause without it, which are (1-q).
  appliance.outside_causes = {{"door", "door", 1.0, "assumed", {}, "look", 2.0, false, false}};
  const PartFault heater{part_named(appliance, "heater"), resistor_open};
  const PartFault fan{part_named(appliance, "fan"), resistor_open};
  const auto prior_of = [](const FaultList& list, const std::vector<std::string>& names, bool outside) {
    for (const Candidate& one : list.candidates()) {
      std::vector<std::string> has;
      for (const std::uint16_t fault : one.faults) has.push_back(list.name(fault));
      if (has == names && one.outside_cause.has_value() == outside) return one.prior;
    }
    return 0.0;
  };
  for (const double q : {1e-9, 0.3, 1.0 - 1e-9}) {
    appliance.consequences = {{std::nullopt, 0U, heater, q}, {std::nullopt, 0U, fan, 0.1}};
    const FaultList list(appliance, PriorSettings{});
    const double none = prior_of(list, {}, false) / 0.5;  // its weight is 0.5
    EXPECT_NEAR(prior_of(list, {}, true) / none, (1.0 - q) * 0.9, 1e-9);
    EXPECT_NEAR(prior_of(list, {"heater.open"}, true) / none, (0.02 + q) * 0.9, 1e-9);
    EXPECT_NEAR(prior_of(list, {"fan.open"}, true) / none, (0.02 + 0.1) * (1.0 - q), 1e-9);
    EXPECT_GT(prior_of(list, {"splice.open"}, true), 0.0) << "a door ajar and a broken splice are two faults";
    double sum = 0.0;
    for (const Candidate& one : list.candidates()) sum += one.prior;
    EXPECT_NEAR(sum, 1.0, 1e-12);
  }
}

TEST_F(Finder, ARepeatThatAgreesTellsNothingNewButThatItWasNoSlip) {
  const std::vector<TakenReading> once{reading("D-X", "20 ohm")};
  const std::vector<TakenReading> twice{reading("D-X", "20 ohm"), reading("D-X", "20.1 ohm")};
  EXPECT_LT(reasoner.diagnose(twice, {}).misread[0], 0.2 * reasoner.diagnose(once, {}).misread[0]);
  ReadingModel every_slip_again;
  every_slip_again.same_slip_again = 1.0;
  Prober other_prober(faults, site_as_found(appliance), meter, every_slip_again);
  Reasoner other(other_prober);
  EXPECT_NEAR(part(other.diagnose(once, {}), "thermostat"), part(other.diagnose(twice, {}), "thermostat"), 2e-3);
}

TEST_F(Finder, AReadingThatNothingExplainsIsNamed) {
  const std::vector<TakenReading> readings{reading("X-N", "32 ohm"), reading("H1-H2", "32 ohm"),
                                           reading("L-N", "700 ohm")};
  const Diagnosis diagnosis = reasoner.diagnose(readings, {});
  EXPECT_GT(diagnosis.misread[2], 0.5);
  EXPECT_LT(diagnosis.misread[0], 0.1);
  EXPECT_LT(diagnosis.misread[1], 0.1);
}

TEST_F(Finder, ReadingsFarBelowAnyPartSpeakOfTheWeldedContact) {
  const std::vector<TakenReading> readings{reading("X-N", "5.1 ohm")};
  EXPECT_GT(part(reasoner.diagnose(readings, {}), "run-contact"), 0.8);
}

TEST_F(Finder, FrostWeighsLessAfterAThaw) {
  Signs fresh;
  fresh.symptoms = {{"frost-whole-coil", true}};
  Signs thawed = fresh;
  thawed.was_thawed = true;
  const double before = part(reasoner.diagnose({}, {}), "heater");
  const double with_fresh = part(reasoner.diagnose({}, fresh), "heater");
  const double with_thawed = part(reasoner.diagnose({}, thawed), "heater");
  EXPECT_GT(with_fresh, with_thawed);
  EXPECT_GT(with_thawed, before);
}

TEST_F(Finder, TheSealedSystemStopsTheSearch) {
  Signs signs;
  signs.symptoms = {{"frost-first-turns", true}};
  const Diagnosis diagnosis = reasoner.diagnose({}, signs);
  EXPECT_TRUE(diagnosis.sealed_system);
  const auto steps = next_steps(reasoner, diagnosis, work_at_arrival(appliance), {}, {}, {});
  EXPECT_TRUE(steps.empty());
  EXPECT_EQ(standing(faults, diagnosis, {}, steps).form, Standing::Form::sealed_system);
}

TEST_F(Finder, TheNextStepSplitsTheSuspects) {
  const std::vector<TakenReading> readings{reading("X-N", "8.0 kohm")};
  const std::vector<Measurement> done{readings[0].measurement};
  const Diagnosis diagnosis = reasoner.diagnose(readings, {});
  WorkState state = after(appliance, work_at_arrival(appliance), done[0]);
  const auto steps = next_steps(reasoner, diagnosis, state, {}, done, {});
  ASSERT_FALSE(steps.empty());
  const std::string best = appliance.test_points[steps[0].measurement.test_point].id;
  EXPECT_TRUE(best == "H1-H2" || best == "H2-N") << best;
}

TEST_F(Finder, LiveStepsNeedToBeAllowed) {
  const Diagnosis diagnosis = reasoner.diagnose({}, {});
  NextStepSettings settings;
  const auto is_live_step = [&](const Step& step) {
    return step.form == Step::Form::measure && is_live(appliance, step.measurement);
  };
  auto steps = next_steps(reasoner, diagnosis, work_at_arrival(appliance), settings, {}, {});
  EXPECT_TRUE(std::none_of(steps.begin(), steps.end(), is_live_step));
  settings.allow_live = true;
  steps = next_steps(reasoner, diagnosis, work_at_arrival(appliance), settings, {}, {});
  EXPECT_TRUE(std::any_of(steps.begin(), steps.end(), is_live_step));
}

TEST_F(Finder, WeightsCanBeReplaced) {
  const FaultList heavy(appliance, PriorSettings{}, {{"fan.open", 50.0}});
  Prober of_heavy(heavy, site_as_found(appliance), meter, ReadingModel{});
  EXPECT_GT(part(Reasoner(of_heavy).diagnose({}, {}), "fan"), 0.7);
  try {
    FaultList(appliance, PriorSettings{}, {{"fan.opne", 1.0}});
    FAIL();
  } catch (const InputError& error) {
    EXPECT_STREQ(error.what(),
                 "there is no fault \"fan.opne\"; did you mean \"fan.open\"? to give a weight to; name PART.FAULT, "
                 "KIND.FAULT or an outside cause");
  }
}

TEST(WorkCosts, PanelsArePaidOnceAndOhmsBeginDead) {
  const Appliance appliance = timer_appliance();
  const WorkTimes times;
  const Measurement first{test_point_named(appliance, "H1-H2"), {}};
  const Measurement second{test_point_named(appliance, "X-N"), {}};
  const WorkState arrival = work_at_arrival(appliance);
  EXPECT_EQ(minutes_of(appliance, times, arrival, first), 3.0 + 6.0 + 1.0);
  const WorkState then = after(appliance, arrival, first);
  EXPECT_EQ(minutes_of(appliance, times, then, second), 1.0);
  EXPECT_EQ(cautions_of(appliance, arrival, first),
            (std::vector<std::string>{"disconnect-power", "prove-dead", "capacitor-charge"}));
  EXPECT_EQ(cautions_of(appliance, then, second), (std::vector<std::string>{"prove-dead"}));
  Appliance sharp = appliance;
  sharp.covers[1].cautions = {"sharp-fins"};
  EXPECT_EQ(cautions_of(sharp, then, second), (std::vector<std::string>{"prove-dead", "sharp-fins"}))
      << "the cover is off and paid for, the fins are as sharp";
  const Measurement warmed{test_point_named(appliance, "X-N"), set_up_named(appliance, "warmed")};
  const WorkState warm = after(appliance, then, warmed);
  EXPECT_EQ(minutes_of(appliance, times, then, warmed), 10.0 + 1.0);
  EXPECT_EQ(minutes_of(appliance, times, warm, warmed), 1.0);
  EXPECT_EQ(minutes_of(appliance, times, warm, second), 10.0 + 1.0);  // cold again first
  EXPECT_EQ(minutes_of(appliance, times, after(appliance, warm, second), second), 1.0);
  const Measurement live{test_point_named(appliance, "H1 volts"), {}};
  EXPECT_EQ(minutes_of(appliance, times, then, live), 2.0 + 1.0);
  EXPECT_EQ(minutes_of(appliance, times, after(appliance, then, live), second), 3.0 + 1.0);
}

}  // namespace
}  // namespace ohmwright::locate
