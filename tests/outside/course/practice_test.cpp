// What a student meets at the bench.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/course/meter_display.hpp>
#include <ohmwright/course/practice.hpp>
#include <ohmwright/course/record.hpp>
#include <ohmwright/course/replay.hpp>
#include <ohmwright/quantity/error.hpp>

#include "class_room.hpp"

namespace ohmwright::course {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsEmpty;

/// A heater of 32 ohm: alone it reads that, in circuit a path of 18 ohm lies beside it.
Exercise small_exercise() {
  Exercise exercise;
  exercise.name = "0123456789";
  exercise.meter.functions.push_back(
      {Dimension::resistance,
       {{AnyQuantity(Dimension::resistance, 600.0), 0, 0, AnyQuantity(Dimension::resistance, 0.1)},
        {AnyQuantity(Dimension::resistance, 6000.0), 0, 0, AnyQuantity(Dimension::resistance, 1.0)},
        {AnyQuantity(Dimension::resistance, 60000.0), 0, 0, AnyQuantity(Dimension::resistance, 10.0)}},
       false,
       false});
  exercise.meter.functions.push_back(
      {Dimension::voltage,
       {{AnyQuantity(Dimension::voltage, 600.0), 0, 0, AnyQuantity(Dimension::voltage, 0.1)}},
       false,
       false});
  exercise.places.covers.push_back({"panel", "back panel", 6.0, {}, {}});
  TestPoint heater;
  heater.id = "heater-alone";
  heater.minutes = 2.0;
  heater.behind = {0};
  exercise.places.test_points.push_back(heater);
  TestPoint sensor;
  sensor.id = "sensor";
  exercise.places.test_points.push_back(sensor);
  TestPoint volts;
  volts.id = "volts";
  volts.probe = Probe::volts;
  exercise.places.test_points.push_back(volts);
  exercise.lifts_leads = {true, false, false};
  exercise.parts.push_back({"heater", "Heater", "", {{"open", "open"}}});
  exercise.looks.push_back({"frost", "thick frost", true});
  exercise.repeats = 2;
  exercise.readings = {{{"", "heater-alone", false}, {32.1, 32.2}},
                       {{"", "heater-alone", true}, {11.6, 11.6}},
                       {{"", "sensor", false}, {11450.0, 11460.0}},
                       {{"", "volts", false}, {121.3, 121.3}}};
  return exercise;
}

Entry act(Practice& practice, const std::string& line) { return practice.perform(wish_in(line)); }

std::string refusal(Practice& practice, const std::string& line) {
  try {
    act(practice, line);
  } catch (const InputError& error) {
    return error.what();
  }
  return "no refusal";
}

TEST(Practice, ReadsWhatTheStudentChose) {
  const Exercise exercise = small_exercise();
  Practice practice(exercise);
  act(practice, "unplug");
  EXPECT_EQ(act(practice, "prove-dead").shown, "dead");
  EXPECT_EQ(act(practice, "measure heater-alone lead-off").shown, "32.1 ohm");
  EXPECT_EQ(act(practice, "measure heater-alone lead-off").shown, "32.2 ohm") << "read again, it is a reading anew";
  EXPECT_EQ(act(practice, "measure heater-alone in-circuit").shown, "11.6 ohm") << "a path lies beside it";
  EXPECT_EQ(act(practice, "measure sensor").shown, "11.45 kohm");
  EXPECT_EQ(act(practice, "measure sensor range=600").shown, "OL") << "the range is too low";
  EXPECT_EQ(act(practice, "measure heater-alone lead-off range=60k").shown, "0.03 kohm") << "and here too coarse";
  EXPECT_EQ(act(practice, "look frost").shown, "yes");
  EXPECT_EQ(act(practice, "measure volts").shown, "0.0 V") << "the plug is out";
  EXPECT_FALSE(practice.is_stopped());
}

TEST(Practice, MinutesRunOnceForACover) {
  const Exercise exercise = small_exercise();
  Practice practice(exercise);
  act(practice, "unplug");
  act(practice, "prove-dead");
  EXPECT_EQ(act(practice, "measure heater-alone lead-off").minutes, 8.0);
  EXPECT_EQ(act(practice, "measure heater-alone lead-off").minutes, 2.0);
  EXPECT_EQ(practice.minutes(), 13.0);
}

TEST(Practice, OhmsOnALiveCircuitEndIt) {
  const Exercise exercise = small_exercise();
  Practice practice(exercise);
  const Entry entry = act(practice, "measure sensor");
  EXPECT_THAT(entry.hazards, ElementsAre(ohms_on_live));
  EXPECT_THAT(entry.shown, IsEmpty());
  EXPECT_TRUE(practice.is_stopped());
  EXPECT_THAT(std::string(hazard_text(ohms_on_live)), ::testing::AllOf(HasSubstr("arc"), HasSubstr("kill")));
  EXPECT_THAT(refusal(practice, "unplug"), HasSubstr("was stopped"));
}

TEST(Practice, NotesWhatCouldHaveHurt) {
  const Exercise exercise = small_exercise();
  Practice practice(exercise);
  EXPECT_THAT(refusal(practice, "measure volts"), HasSubstr("live-agreed"));
  EXPECT_THAT(act(practice, "measure volts live-agreed").hazards, IsEmpty());
  act(practice, "unplug");
  EXPECT_THAT(act(practice, "measure heater-alone lead-off").hazards, ElementsAre(not_proved_dead));
  act(practice, "prove-dead");
  EXPECT_THAT(act(practice, "measure heater-alone lead-off").hazards, IsEmpty());
  act(practice, "plug-in");
  EXPECT_EQ(act(practice, "prove-dead").shown, "LIVE");
}

TEST(Practice, AHazardThatLastsCountsOnce) {
  const Exercise exercise = small_exercise();
  Practice practice(exercise);
  Record record;
  record.entries.push_back(practice.perform(Entry{.action = "start"}));
  for (const char* line : {"unplug", "measure sensor", "measure sensor", "measure volts", "prove-dead",
                           "measure sensor", "plug-in", "unplug", "measure sensor"})
    record.entries.push_back(act(practice, line));
  const Replay replay = replay_of(exercise, record);
  EXPECT_THAT(replay.hazards, ElementsAre(not_proved_dead, not_proved_dead)) << "once for each unplugging";
  EXPECT_TRUE(replay.has_measured);
}

TEST(Practice, AnAnswerNamesFewAndIsAtLeastABlindPick) {
  Exercise exercise = small_exercise();
  exercise.parts.push_back({"fan", "Fan", "", {{"open", "open"}}});
  exercise.parts.push_back({"splice", "Splice", "", {{"open", "open"}}});
  const auto refusal_of = [&](std::vector<std::string> named, double confidence) -> std::string {
    Practice practice(exercise);
    Entry answer{.action = "answer"};
    answer.named = std::move(named);
    answer.confidence = confidence;
    try {
      practice.perform(answer);
    } catch (const InputError& error) {
      return error.what();
    }
    return "";
  };
  EXPECT_THAT(refusal_of({"heater", "fan", "splice"}, 0.5), HasSubstr("at most two faults"));
  EXPECT_THAT(refusal_of({"heater"}, 0.0), HasSubstr("with 4 answers to choose from"));
  EXPECT_THAT(refusal_of({}, 0.2), HasSubstr("at least 25 % likely"));
  EXPECT_EQ(refusal_of({"heater", "fan"}, 0.25), "");
}

TEST(Practice, RefusesWhatCannotBe) {
  const Exercise exercise = small_exercise();
  Practice practice(exercise);
  act(practice, "unplug");
  EXPECT_THAT(refusal(practice, "measure heater-alone"), HasSubstr("lead-off, or in-circuit"));
  EXPECT_THAT(refusal(practice, "measure heter-alone"), HasSubstr("did you mean"));
  EXPECT_THAT(refusal(practice, "measure sensor range=7k"), HasSubstr("600 ohm, 6 kohm"));
  EXPECT_THAT(refusal(practice, "answer heater"), HasSubstr("quit, then ohmwright course answer"));
  EXPECT_THAT(refusal(practice, "weld"), HasSubstr("the bench knows no"));
  EXPECT_EQ(practice.entries(), 1U) << "nothing of this happened";
}

TEST(Record, WhatAStudentMayTypeIsReadBack) {
  const Exercise exercise = small_exercise();
  Practice practice(exercise);
  const auto note_refused = [&](std::string note) {
    try {
      practice.perform(Entry{.action = "note", .subject = std::move(note)});
    } catch (const InputError& error) {
      return std::string(error.what());
    }
    return std::string();
  };
  EXPECT_EQ(note_refused("a\x1b[2J"), "the text holds control characters: \"a\\x1b[2J\"; leave them away");
  EXPECT_EQ(note_refused(std::string(4097, 'a')),
            "a text of a record has at most 4096 bytes, this one has 4097; say it in fewer words, or in two notes");
  EXPECT_EQ(practice.entries(), 0U) << "nothing of this happened";
  std::string text = record_line(Entry{.action = "start", .subject = "0123456789"}, {});
  text += record_line(practice.perform(Entry{.action = "note", .subject = std::string(4096, 'a')}), text);
  EXPECT_EQ(read_record(text, "a.record").entries.back().subject.size(), 4096U);
}

/// A word processor makes a vertical tab of a soft line break.
TEST(Record, APastedControlCharacterCostsNoMarks) {
  std::string text = record_line(Entry{.action = "start", .subject = "0123456789"}, {});
  text += record_line(Entry{.action = "note", .subject = "one\vtwo\x1b[2J"}, text);
  const Record record = read_record(text, "a.record");
  EXPECT_FALSE(record.broken_at);
  EXPECT_EQ(record.entries.back().subject, "one\\x0btwo\\x1b[2J");
}

/// As a shell's user quotes what has a blank in it.
TEST(Practice, ARangeMayStandInQuotes) {
  EXPECT_EQ(wish_in("measure heater range=\"600 ohm\" lead-off").range, wish_in("measure heater range=600 ohm").range);
  try {
    wish_in("halp");
    FAIL();
  } catch (const InputError& error) {
    EXPECT_NE(std::string(error.what()).find("help, quit"), std::string::npos) << error.what();
  }
}

TEST(Record, AnEditedLineBreaksTheChain) {
  std::string text;
  Entry start{.action = "start"};
  start.subject = "0123456789";
  text += record_line(start, text);
  Entry reading{.action = "measure"};
  reading.subject = "sensor";
  reading.shown = "11.45 kohm";
  text += record_line(reading, text);
  text += record_line(Entry{.action = "unplug"}, text);
  const Record whole = read_record(text, "a.record");
  EXPECT_EQ(whole.entries.size(), 3U);
  EXPECT_EQ(whole.entries[1], reading);
  EXPECT_FALSE(whole.broken_at);
  std::string edited = text;
  edited.replace(edited.find("11.45"), 5, "10.45");
  EXPECT_EQ(read_record(edited, "a.record").broken_at, 1U);
  const std::size_t second = text.find('\n') + 1;
  const std::string without = text.substr(0, second) + text.substr(text.find('\n', second) + 1);
  EXPECT_EQ(read_record(without, "a.record").broken_at, 1U) << "a line that was taken out";
}

}  // namespace
}  // namespace ohmwright::course
