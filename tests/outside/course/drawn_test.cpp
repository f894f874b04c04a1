// What is drawn: a bench that does as physics does, and looks that contradict neither each other nor what works.

#include <algorithm>
#include <set>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/appliance/appliance_document.hpp>
#include <ohmwright/course/drawn_bench.hpp>
#include <ohmwright/course/lesson.hpp>
#include <ohmwright/document/meter_document.hpp>
#include <ohmwright/quantity/error.hpp>

#include "class_room.hpp"

namespace ohmwright::course {
namespace {

using testing::place_of;
using testing::shipped;

locate::Measurement at(const Appliance& appliance, const std::string& point, const std::string& set_up = {}) {
  locate::Measurement measurement{place_of(appliance.test_points, point), {}};
  if (!set_up.empty()) measurement.set_up = place_of(appliance.set_ups, set_up);
  return measurement;
}

const locate::Candidate& only(const locate::FaultList& faults, const std::string& name) {
  for (const locate::Candidate& candidate : faults.candidates())
    if (candidate.faults.size() == 1 && faults.name(candidate.faults.front()) == name) return candidate;
  throw InputError("the appliance has no fault " + name);
}

TEST(DrawnBench, WhatOpensWhenHotIsWholeBehindAnOpenContact) {
  const Bench bench = bench_of(shipped(testing::timer_appliance));
  const locate::FaultList faults(bench.appliance, {});
  for (unsigned char drawn = 0; drawn < 4; ++drawn) {
    SecretKey secret;
    secret.data()[0] = drawn;
    DrawStream draws{secret};
    const DrawnBench cold(bench, faults, only(faults, "heater.opens-hot"), draws);
    const auto read = [&](const std::string& point, const std::string& set_up) {
      return cold.value_at(at(bench.appliance, point, set_up), draws).value_or(-1.0);
    };
    EXPECT_LT(read("volts-heater", ""), 1.0) << "the timer stands in run: nothing reaches it, and its 32 ohm say so";
    EXPECT_GT(read("volts-heater", "forced-defrost"), 100.0) << "it got hot, opened, and the supply stands across it";
    EXPECT_LT(read("amperes-defrost", "forced-defrost"), 0.1);
    EXPECT_NEAR(read("heater-alone", ""), 32.0, 4.0) << "cold it is whole";
  }
}

TEST(DrawnBench, AHeaterThatLeaksAlongItsWireIsAsLongAsAGoodOne) {
  const Bench bench = bench_of(shipped(testing::timer_appliance));
  const locate::FaultList faults(bench.appliance, {});
  for (unsigned char drawn = 0; drawn < 20; ++drawn) {
    SecretKey secret;
    secret.data()[0] = drawn;
    DrawStream draws{secret};
    const DrawnBench leaking(bench, faults, only(faults, "heater.leaks-in-the-middle"), draws);
    const std::optional<double> ohm = leaking.value_at(at(bench.appliance, "heater-alone"), draws);
    ASSERT_TRUE(ohm);
    EXPECT_GT(*ohm, 28.2);  // 32 ohm by 120 V and 450 W, its tolerances as `explain` prints them: 28.22 to 35.56 ohm
    EXPECT_LT(*ohm, 35.6);
  }
}

TEST(DrawnBench, AMotorColdToTheHandKeepsItsOhms) {
  const Bench bench = bench_of(shipped("front-loader-230v"));
  const locate::FaultList faults(bench.appliance, {});
  const auto healthy = std::find_if(faults.candidates().begin(), faults.candidates().end(),
                                    [](const locate::Candidate& one) { return one.nothing_wrong(); });
  ASSERT_NE(healthy, faults.candidates().end());
  DrawStream draws{SecretKey{}};
  const DrawnBench drawn(bench, faults, *healthy, draws);
  const std::optional<double> found = drawn.value_at(at(bench.appliance, "drain-plug"), draws);
  const std::optional<double> cooled = drawn.value_at(at(bench.appliance, "drain-plug", "motors-cooled"), draws);
  ASSERT_TRUE(found && cooled);
  EXPECT_NEAR(*cooled, *found, 1e-6 * *found) << "it was as warm as its room before";
}

TEST(Workshop, RefusesAMeterThatCannotRead) {
  const Appliance appliance = shipped("upright-thermistor-230v");
  const Meter clamp = read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/clamp.json"));
  const CourseSecret secret(testing::passphrase, "clamp");
  Workshop workshop(appliance, clamp, secret);
  for (const Lesson lesson : {Lesson::one_part, Lesson::one_fault}) {
    EXPECT_THROW(workshop.make({lesson, 0, {}}), InputError);
  }
}

/// A heater that nearly always is at fault, in a circuit whose one test point tells nothing of it.
Appliance untellable() {
  const std::string text = R"({"appliance": "t", "title": "a heater nobody can read", "market": "other",
    "refrigerant": "none", "source": "t",
    "supply": {"voltage": "120 V +- 6 V", "frequency": "60 Hz", "live": "L", "neutral": "N"},
    "zones": [{"id": "room", "title": "the room", "temperature": "21 degC +- 1 K"}],
    "parts": [
      {"id": "heater", "title": "Heater", "kind": "heater", "ratings": "heater-450w-120v", "zone": "room",
       "weight": 100, "connections": {"lead-1": "A", "lead-2": "N"}},
      {"id": "fan", "title": "Fan", "kind": "fan-motor", "ratings": "shaded-pole-120v", "zone": "room",
       "connections": {"lead-1": "L", "lead-2": "N"}}],
    "test_points": [{"id": "fan", "title": "Fan", "measure": "ohms", "from": "L", "to": "N", "minutes": "1 min"}]})";
  return read_appliance(parse_document(text, "untellable"), testing::registry());
}

/// By the prior odds alone, which no reading moves, the heater is likelier at fault than good: whoever found that out
/// would be marked wrong.
TEST(Workshop, RefusesAHealthyExerciseWhoseOwnReadingsCondemnAGoodPart) {
  const Appliance appliance = untellable();
  const Meter meter = read_meter(read_document(OHMWRIGHT_SOURCE_DIR "/framework/ohmwright/document/meters/basic.json"));
  const CourseSecret secret(testing::passphrase, "untellable");
  Workshop workshop(appliance, meter, secret);
  try {
    workshop.make({Lesson::healthy, 0, {}});
    FAIL() << "it was made";
  } catch (const InputError& error) {
    EXPECT_THAT(error.what(), ::testing::HasSubstr("no exercise in which nothing is wrong with \"a heater nobody can "
                                                   "read\" is fair"));
  }
}

/// The looks that are there.
std::set<std::string> seen_in(const Exercise& exercise) {
  std::set<std::string> seen;
  for (const Look& look : exercise.looks)
    if (look.seen) seen.insert(look.id);
  return seen;
}

TEST(WhatIsSeen, ContradictNeitherEachOtherNorWhatWorks) {
  for (const char* appliance : {"dishwasher-230v", "built-in-oven-230v", "front-loader-230v"})
    for (const Lesson lesson : {Lesson::one_fault, Lesson::healthy})
      for (const MadeExercise& made : testing::made_key(appliance, lesson, "contradict", 8).exercises) {
        const std::set<std::string> seen = seen_in(made.exercise);
        const std::string which = std::string(appliance) + " " + made.exercise.name;
        for (const char* of_a_live_one : {"error-code", "noise", "hum-or-smell", "little-heat", "little-air"})
          EXPECT_FALSE(seen.contains("dead") && seen.contains(of_a_live_one)) << which << " " << of_a_live_one;
        if (lesson != Lesson::healthy) continue;
        for (const char* hard : {"dead", "shock-from-cabinet", "trips-breaker", "trips-residual-current-device",
                                 "error-code", "pump-silent", "drum-stands"})
          EXPECT_FALSE(seen.contains(hard)) << which << " works, and shows " << hard;
      }
}

TEST(WhatIsSeen, TheOwnerTellsOfWhatTheFaultDoes) {
  for (const MadeExercise& made : testing::made_key("front-loader-230v", Lesson::one_fault, "owner", 8).exercises) {
    const Appliance appliance = shipped("front-loader-230v");
    const PartFault& fault = made.truth.faults.front();
    std::set<std::string> titles;
    for (const SymptomEffect& effect : appliance.parts[fault.part].kind->descriptor().fault_modes[fault.fault].symptoms)
      for (const Look& look : made.exercise.looks)
        if (look.id == effect.symptom) titles.insert(look.title);
    if (titles.empty()) continue;
    EXPECT_TRUE(
        std::any_of(titles.begin(), titles.end(),
                    [&](const std::string& title) { return made.exercise.complaint.find(title) != std::string::npos; }))
        << made.truth.names.front() << ": " << made.exercise.complaint;
  }
}

}  // namespace
}  // namespace ohmwright::course
