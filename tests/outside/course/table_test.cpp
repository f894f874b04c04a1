// A part alone on the table: what all its readings make likely, against what it is.

#include <algorithm>
#include <array>
#include <cmath>
#include <string>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/course/explain.hpp>
#include <ohmwright/course/reasoning.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/document/source_text.hpp>

#include "class_room.hpp"

namespace ohmwright::course {
namespace {

const std::vector<std::size_t> nothing_wrong{};

/// One part of that kind and class, as `course make KIND` has it.
Appliance table_with(const std::string& kind, const std::string& ratings) {
  std::pair<std::string, std::string> ends{"lead-1", "lead-2"};
  if (kind == "bimetal-thermostat") ends = {"contact-1", "contact-2"};
  if (kind == "drive-motor") ends = {"main-1", "main-2"};
  if (kind == "defrost-control") ends = {"line", "neutral"};
  const std::string text = R"({"appliance": "t", "title": "t", "market": "other", "refrigerant": "none", "source": "t",
    "supply": {"voltage": "120 V +- 6 V", "frequency": "60 Hz", "live": "a", "neutral": "b"},
    "zones": [{"id": "table", "title": "the table", "temperature": "21 degC +- 1 K"}],
    "parts": [{"id": "part", "title": "t", "kind": ")" +
                           kind + R"(", "zone": "table", "ratings": ")" + ratings + R"(", "connections": {")" +
                           ends.first + R"(": "a", ")" + ends.second + R"(": "b"}}],
    "test_points": [{"id": "alone", "title": "t", "measure": "ohms", "from": "part.)" +
                           ends.first + R"(", "to": "part.)" + ends.second + R"(",
                     "minutes": "1 min"}]})";
  return read_appliance(parse_document(text, "table"), testing::registry());
}

Meter basic_meter() {
  return read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/basic.json"));
}

class Table {
 public:
  Table(const std::string& kind, const std::string& ratings)
      : meter_(basic_meter()),
        bench_(table_of(table_with(kind, ratings), 0)),
        all_(combinations(bench_)),
        reasoning_(bench_, meter_) {}

  /// Of the readings in the order of the combinations; nothing is not read.
  double probability_of_good(const std::vector<std::optional<double>>& ohms) {
    std::vector<locate::TakenReading> readings;
    for (std::size_t i = 0; i < ohms.size(); ++i)
      if (ohms[i]) readings.push_back(taken_reading(all_[i], Probe::ohms, ohms[i]));
    return reasoning_.probability_of(reasoning_.after(readings, {}), nothing_wrong);
  }

  /// What all readings of one drawn part say of its being good, and whether it is.
  std::pair<double, bool> drawn_part(DrawStream& draws) {
    const locate::Candidate* truth = nullptr;
    double left = draws.uniform();
    for (const locate::Candidate& candidate : reasoning_.faults().candidates()) {
      truth = &candidate;
      left -= candidate.prior;
      if (left < 0.0) break;
    }
    const DrawnBench drawn(bench_, reasoning_.faults(), *truth, draws);
    const DrawnMeter meter(meter_, draws);
    std::vector<locate::TakenReading> readings;
    for (const Combination& one : all_) {
      const std::optional<double> value = drawn.value_at(one.measurement, draws);
      readings.push_back(taken_reading(one, Probe::ohms, meter.shown(Probe::ohms, value, draws)));
    }
    return {reasoning_.probability_of(reasoning_.after(readings, {}), nothing_wrong), truth->faults.empty()};
  }

  const locate::FaultList& faults() const { return reasoning_.faults(); }

 private:
  Meter meter_;
  Bench bench_;
  std::vector<Combination> all_;
  Reasoning reasoning_;
};

// Its tolerance and the temperature of the warm water both pull at the third reading: neither is shared whole with the
// ice water. `check` says of these three that the part is good, > 99.9 %; here drift within the tolerance is an answer,
// too.
TEST(Table, ToleranceAndTemperatureAreTwoErrors) {
  Table table("defrost-sensor", "ntc-10k-b3977");
  EXPECT_GT(table.probability_of_good({11490.0, 31020.0, std::nullopt, 5324.0}), 0.9);
}

TEST(Table, APartIsGoodAsOftenAsItIsDrawnSo) {
  Table table("defrost-sensor", "ntc-10k-b3977");
  EXPECT_NEAR(table.probability_of_good({}), good_on_the_table, 1e-9);
}

// Of the parts whose readings make them good with so much, no more are: none is condemned that is good. One point and
// three standard errors. (Fewer may be: a leak that shows nowhere is drawn here; an exercise draws it again.)
TEST(Table, NoMorePartsAreGoodThanIsStated) {
  for (const auto& [kind, ratings] : {std::pair{"defrost-sensor", "ntc-10k-b3977"},
                                      {"defrost-sensor", "ntc-5k-b3950"},
                                      {"bimetal-thermostat", "opens-13"}}) {
    Table table(kind, ratings);
    DrawStream draws{SecretKey{}};
    constexpr std::size_t tenths = 10;
    std::array<double, tenths> stated{};
    std::array<double, tenths> good{};
    std::array<double, tenths> count{};
    constexpr int parts = 600;
    for (int i = 0; i < parts; ++i) {
      const auto [probability, is_good] = table.drawn_part(draws);
      const auto tenth = std::min(tenths - 1, static_cast<std::size_t>(probability * tenths));
      stated[tenth] += probability;
      good[tenth] += is_good ? 1.0 : 0.0;
      count[tenth] += 1.0;
    }
    for (std::size_t tenth = 0; tenth < tenths; ++tenth) {
      constexpr double enough = 40.0;
      if (count[tenth] < enough) continue;
      const double mean = stated[tenth] / count[tenth];
      const double allowed = 0.01 + 3.0 * std::sqrt(mean * (1.0 - mean) / count[tenth]);
      EXPECT_LE(good[tenth] / count[tenth], mean + allowed)
          << kind << ' ' << ratings << ", tenth " << tenth << ", of " << count[tenth];
    }
  }
}

TEST(Table, NoGoodPartIsCondemnedByItsOwnReadings) {
  const CourseKey key = testing::made_key("upright-thermistor-230v", Lesson::one_part, "good", 15);
  std::size_t good = 0;
  for (const MadeExercise& made : key.exercises) {
    if (!made.truth.names.empty()) continue;
    ++good;
    EXPECT_GT(made.truth.tellable, 0.5) << made.exercise.title;
  }
  EXPECT_GE(good, 2U);
}

// OL of an ohmmeter passes a capacitor: that it is open or aged, ohms do not tell, and no answer may name it.
TEST(Table, WhatOhmsDoNotTellIsNoAnswer) {
  Table table("run-capacitor", "run-10uf");
  std::vector<std::string> names;
  for (std::size_t fault = 0; fault < table.faults().faults().size(); ++fault)
    names.push_back(table.faults().name(fault));
  EXPECT_THAT(names, ::testing::Contains("part.shorted"));
  EXPECT_THAT(names, ::testing::Not(::testing::Contains("part.aged")));
  EXPECT_THAT(names, ::testing::Not(::testing::Contains("part.open")));
}

/// A kind has the terminals of all its parts, and a fault that is of a place away from the bench.
TEST(PartOnTheTable, HasTheTerminalsOfItsRatingsAndNoPlace) {
  const Bench thermostat = table_of(table_with("bimetal-thermostat", "opens-13"), 0);
  ASSERT_EQ(thermostat.test_points, 1U) << "no thermal link is in its housing";
  EXPECT_EQ(thermostat.appliance.test_points.front().id, "contact-1-to-contact-2");
  const Bench sensor = table_of(table_with("thermistor", "ntc-10k-b3977"), 0);
  const locate::FaultList faults(sensor.appliance, {});
  EXPECT_TRUE(std::none_of(faults.faults().begin(), faults.faults().end(), [&](const locate::PossibleFault& one) {
    return sensor.appliance.parts[0].kind->descriptor().fault_modes[one.fault.fault].id == "misplaced";
  }));
  EXPECT_FALSE(faults.faults().empty());
}

/// Motors with brushes have a tacho, those with a run capacitor have none: nothing of it can be read or be at fault.
TEST(PartOnTheTable, HasNoTachoThatItsRatingsDoNotName) {
  const auto names_tacho = [](const std::string& ratings) {
    const Bench motor = table_of(table_with("drive-motor", ratings), 0);
    const locate::FaultList faults(motor.appliance, {});
    bool names = std::any_of(motor.appliance.test_points.begin(), motor.appliance.test_points.end(),
                             [](const TestPoint& point) { return point.id.find("tacho") != std::string::npos; });
    for (std::size_t fault = 0; fault < faults.faults().size(); ++fault)
      names = names || faults.name(fault).find("tacho") != std::string::npos;
    return names;
  };
  EXPECT_TRUE(names_tacho("universal-230v"));
  EXPECT_FALSE(names_tacho("capacitor-run-230v"));
  EXPECT_FALSE(names_tacho("induction-120v"));
}

std::vector<std::string> set_ups_of(const std::string& kind, const std::string& ratings) {
  std::vector<std::string> ids;
  for (const SetUp& set_up : table_of(table_with(kind, ratings), 0).appliance.set_ups) ids.push_back(set_up.id);
  return ids;
}

/// A cam is turned by hand and an ohmmeter finds it; from where a thermostat's temperature came, or whether a wheel
/// turned, nobody sets.
TEST(PartOnTheTable, OffersWhatAStudentCanDo) {
  const std::vector<std::string> baths{ice_water, salted_ice, warm_water};
  EXPECT_EQ(set_ups_of("bimetal-thermostat", "opens-13"), baths);
  EXPECT_EQ(set_ups_of("fan-motor", "shaded-pole-120v"), baths);
  std::vector<std::string> of_a_timer = baths;
  of_a_timer.insert(of_a_timer.end(), {"position-run", "position-defrost"});
  EXPECT_EQ(set_ups_of("defrost-control", "cam-timer-120v"), of_a_timer);
  EXPECT_EQ(set_ups_of("defrost-control", "relay-board-120v"), baths) << "no hand switches its relay";
}

// A thermostat that closes at -4 °C and lay open on the table at 21 °C is open in ice water, whatever its tolerance of
// some kelvin; one of which nobody knows how it lay may be either.
TEST(PartOnTheTable, GoesIntoTheColdFromTheTable) {
  const auto ice = [](const std::string& ratings) {
    const Bench bench = table_of(table_with("bimetal-thermostat", ratings), 0);
    return bench.appliance.set_ups.front().states.size();
  };
  EXPECT_EQ(ice("opens-13"), 1U);
  EXPECT_EQ(ice("opens-21"), 0U);
}

std::string faults_in(const std::string& kind, const std::string& ratings) {
  const Bench bench = table_of(table_with(kind, ratings), 0);
  const locate::FaultList faults(bench.appliance, {});
  std::string names;
  for (std::size_t fault = 0; fault < faults.faults().size(); ++fault) names += faults.name(fault) + " ";
  return names;
}

TEST(PartOnTheTable, HasNoFaultOfWhatItsRatingsDoNotHave) {
  EXPECT_THAT(faults_in("fan-motor", "shaded-pole-120v"),
              ::testing::Not(::testing::AnyOf(::testing::HasSubstr("capacitor"), ::testing::HasSubstr("electronics"))));
  EXPECT_THAT(faults_in("fan-motor", "capacitor-run-230v"), ::testing::HasSubstr("part.capacitor-weak"));
  EXPECT_THAT(faults_in("bimetal-thermostat", "opens-13"), ::testing::Not(::testing::HasSubstr("link")));
  const std::vector<std::string> seen =
      fault_symptoms(table_of(table_with("fan-motor", "shaded-pole-120v"), 0), Sentences{UnitPreferences{}});
  EXPECT_THAT(seen, ::testing::Not(::testing::Contains(::testing::HasSubstr("capacitor"))));
}

/// What a fault reads beside what a good part reads, in every bath.
struct Side {
  std::string kind;
  std::string ratings;
  std::string fault;
  bool is_low = true;
};

class Explained : public ::testing::TestWithParam<Side> {};

// What shorts turns takes ohms away, a bad joint adds some: neither end of such a fault lies on the other side of the
// same end of a good part (Ohm's law; how far each goes is the kind's own assumption).
TEST_P(Explained, NoFaultStandsOnTheWrongSide) {
  const Bench bench = table_of(table_with(GetParam().kind, GetParam().ratings), 0);
  const Meter meter = basic_meter();
  const locate::FaultList faults(bench.appliance, {});
  const locate::Candidate* good = nullptr;
  const locate::Candidate* bad = nullptr;
  for (const locate::Candidate& candidate : faults.candidates()) {
    if (candidate.nothing_wrong()) good = &candidate;
    if (candidate.faults.size() == 1 && faults.name(candidate.faults.front()) == "part." + GetParam().fault)
      bad = &candidate;
  }
  ASSERT_TRUE(good != nullptr && bad != nullptr);
  for (std::size_t set_up = 0; set_up < 3; ++set_up) {
    const ShownSpan of_good = shown_span(bench, meter, faults, *good, {0, set_up});
    const ShownSpan of_bad = shown_span(bench, meter, faults, *bad, {0, set_up});
    ASSERT_TRUE(of_good.ohms && of_bad.ohms);
    if (GetParam().is_low) {
      EXPECT_LT(of_bad.ohms->low, of_good.ohms->low);
      EXPECT_LT(of_bad.ohms->high, of_good.ohms->high);
    } else {
      EXPECT_GT(of_bad.ohms->low, of_good.ohms->low);
      EXPECT_GT(of_bad.ohms->high, of_good.ohms->high);
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Kinds, Explained,
                         ::testing::Values(Side{"fan-motor", "shaded-pole-120v", "shorted-turns", true},
                                           Side{"fan-motor", "shaded-pole-120v", "bad-joint", false},
                                           Side{"defrost-sensor", "ntc-10k-b3977", "drift-low", true},
                                           Side{"defrost-sensor", "ntc-10k-b3977", "drift-high", false},
                                           Side{"defrost-sensor", "pt1000-class-b", "drift-low", true},
                                           Side{"drive-motor", "universal-230v", "main-shorted-turns", true},
                                           Side{"heater", "heater-450w-120v", "bad-joint", false}));

}  // namespace
}  // namespace ohmwright::course
