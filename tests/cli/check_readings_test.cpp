#include "check_readings.hpp"

#include <filesystem>
#include <fstream>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "test_kind.hpp"

namespace ohmwright::cli {
namespace {

using ::testing::HasSubstr;

const Descriptor& descriptor() {
  static const Descriptor with_supply = [] {
    Descriptor d = ohmwright::testing::test_descriptor();
    d.measurands.push_back({"current", "Current", Dimension::current, "A", false});
    d.measurands.push_back({"voltage", "Voltage", Dimension::voltage, "V", false});
    d.measurands.push_back({"pulses", "Pulses", Dimension::frequency, "Hz", false});
    d.measurands.push_back({"insulation", "Insulation", Dimension::resistance, "Mohm", false, false});
    d.conditions.push_back(
        {"test_voltage", "volts of the tester", "test", Dimension::voltage, "V", 0.0, "", {"insulation"}});
    d.procedures.push_back({"count", "Count", "pulses", 1.0, {{"count", "count"}}, {"live-measurement"}});
    return d;
  }();
  return with_supply;
}

std::vector<Reading> gathered(std::vector<std::string> words, Arguments arguments = {}) {
  words.insert(words.begin(), "test-part");
  arguments.operands = std::move(words);
  UnitPreferences units;
  return gather_readings(arguments, descriptor(), MeterSet({ohmwright::testing::basic_meter("0 ohm")}), units);
}

Arguments agreed() {
  Arguments arguments;
  arguments.options["--live-agreed"];
  return arguments;
}

std::string refusal_of(const std::vector<std::string>& words, const Arguments& arguments = {}) {
  try {
    gathered(words, arguments);
  } catch (const InputError& error) {
    return error.what();
  }
  return "accepted";
}

TEST(CheckReadings, AgreementAloneSaysThatVoltsAndAmperesWereLive) {
  const auto readings = gathered({"28", "--line", "118V", "--current", "3.6A"}, agreed());
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_EQ(readings[0].supply, Supply::unstated);
  EXPECT_EQ(readings[1].supply, Supply::live);
  EXPECT_EQ(readings[1].conditions.at(0).id, "line_voltage");
}

TEST(CheckReadings, AgreementLeavesOhmsThatAreSaidToBeUnplugged) {
  const auto readings = gathered({"28", "--unplugged", "current=3.6A"}, agreed());
  EXPECT_EQ(readings[0].supply, Supply::unplugged);
  EXPECT_EQ(readings[1].supply, Supply::live);
}

TEST(CheckReadings, AgreementBesideALiveReadingChangesNoOther) {
  EXPECT_THAT(refusal_of({"current=3.6A", "--live", "voltage=2V"}, agreed()),
              HasSubstr("reading 2 (voltage): say whether the appliance was plugged in"));
  const auto readings = gathered({"current=3.6A", "--live", "voltage=0.1V", "--proved-dead"}, agreed());
  EXPECT_EQ(readings[1].supply, Supply::proved_dead);
}

TEST(CheckReadings, AgreementAndDeadVoltsAreTwoStories) {
  EXPECT_EQ(refusal_of({"28", "--unplugged", "--current", "3.6A"}, agreed()),
            "reading 2 (current) is said to be read without supply, and --live-agreed says that it was taken "
            "live; say --live of the readings that were, or leave one of both out (ohms need neither)");
}

TEST(CheckReadings, OhmsAreNeverLive) {
  EXPECT_THAT(refusal_of({"28", "--live"}, agreed()), HasSubstr("reading 1 is ohms on a live part"));
  EXPECT_THAT(refusal_of({"28", "--current", "3.6A", "--live"}, agreed()),
              HasSubstr("reading 1 is ohms on a live part"));
}

TEST(CheckReadings, LiveOnesNeedTheAgreement) {
  EXPECT_THAT(refusal_of({"current=3.6A", "--live"}), HasSubstr("say --live-agreed"));
  EXPECT_THAT(refusal_of({"current=3.6A"}), HasSubstr("say whether the appliance was plugged in"));
}

TEST(CheckReadings, WhatEveryProcedureReadsLiveNeedsTheAgreementToo) {
  EXPECT_EQ(refusal_of({"pulses=93Hz"}),
            "reading 1 (pulses): say whether the appliance was plugged in (--live-agreed: you are qualified for "
            "live measurement and agreed to its caution) or not (--unplugged, --proved-dead)");
  EXPECT_EQ(gathered({"pulses=93Hz"}, agreed())[0].supply, Supply::live);
  EXPECT_EQ(gathered({"speed=1550rpm"})[0].supply, Supply::unstated);
}

TEST(CheckReadings, NothingFlowsWithoutSupply) {
  EXPECT_EQ(refusal_of({"--unplugged", "current=3.6A"}),
            "reading 1: 3.6 A in an appliance that is said to be without supply: STOP, it is live. Cut the supply and "
            "prove it dead again; if it was read live, say --live-agreed");
  EXPECT_EQ(refusal_of({"voltage=120V", "--proved-dead"}),
            "reading 1: 120 V at points that are said to be dead: STOP, they are live. Take the probes off, cut the "
            "supply and prove it dead again; if it was read live, say --live-agreed");
  EXPECT_EQ(gathered({"--proved-dead", "current=0A"}).size(), 1U);
}

TEST(CheckReadings, NoVoltsStandOnPointsThatAreDead) {
  // An ohmmeter drives its part with some tenths of a volt (common practice, no source): 12 V beside it are no dead
  // points, however harmless to touch.
  for (const char* dead : {"--proved-dead", "--unplugged"})
    EXPECT_EQ(
        refusal_of({"28", "--lead-off", "voltage=12V", dead}),
        "reading 2: 12 V stand on points that are said to be dead: they are not. A charged capacitor, a feed that "
        "is still on, or a ghost on a lead that hangs free; ohms read there mean nothing. Unplug, discharge, "
        "prove dead, read again; if it was read live, say --live-agreed");
  EXPECT_EQ(gathered({"28", "voltage=20mV", "--proved-dead"}).size(), 2U);
}

TEST(CheckReadings, LiveReadingsHaveTheirLeadsOn) {
  const auto readings = gathered({"--lead-off", "28", "current=0A", "voltage=119V"}, agreed());
  EXPECT_EQ(readings[0].connection, Connection::lead_off);
  EXPECT_EQ(readings[1].connection, Connection::unstated);
  EXPECT_EQ(readings[2].connection, Connection::unstated);
  EXPECT_EQ(gathered({"--lead-off", "voltage=0.1V", "--proved-dead"})[0].connection, Connection::lead_off);
}

TEST(CheckReadings, TheVoltsOfATesterHoldForInsulationAlone) {
  const auto readings = gathered({"28", "insulation=200M", "--test", "500V"});
  EXPECT_TRUE(readings[0].conditions.empty());
  ASSERT_EQ(readings[1].conditions.size(), 1U);
  EXPECT_EQ(readings[1].conditions[0].id, "test_voltage");
  EXPECT_EQ(refusal_of({"28", "--test", "500V"}),
            "--test holds for insulation, and none was given; leave it out, or write what was read: insulation=…");
}

TEST(CheckReadings, KelvinThatWereMeantAsDegreesAreAsked) {
  EXPECT_EQ(refusal_of({"28", "--at", "23K"}),
            "--at: 23 K is -250.1 degC; if 23 degrees Celsius were meant, write \"23C\"");
  EXPECT_EQ(refusal_of({"28@23K"}), "--at: 23 K is -250.1 degC; if 23 degrees Celsius were meant, write \"23C\"");
  EXPECT_EQ(gathered({"28", "--at", "296K"}).size(), 1U);
}

TEST(CheckReadings, ABareRangeHasTheUnitOfABareReading) {
  EXPECT_EQ(gathered({"28", "--range", "200"})[0].range, AnyQuantity(Dimension::resistance, 200.0));
  EXPECT_THAT(refusal_of({"insulation=20M", "--range", "200"}), HasSubstr("write \"200M\""));
}

class ReadingsOfAFile : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = "/tmp/ohmwright-readings-XXXXXX";
    const int file = ::mkstemp(name.data());
    ASSERT_GE(file, 0);
    ::close(file);
    path_ = name;
    std::ofstream(path_) << R"({"kind": "test-part", "readings": [{"label": "first", "value": "28 ohm"},
      {"label": "second", "value": "29 ohm", "connection": "in-circuit", "conditions": {"part_temperature": "5 degC"}}]})";
    arguments_.options["--readings"] = {path_};
  }
  void TearDown() override { std::filesystem::remove(path_); }

  std::string path_;
  Arguments arguments_;
};

TEST_F(ReadingsOfAFile, HearWhatWasSaidForAll) {
  const auto readings = gathered({"--line", "118V", "--unplugged"}, arguments_);
  ASSERT_EQ(readings.size(), 2U);
  EXPECT_EQ(readings[0].conditions.at(0).id, "line_voltage");
  EXPECT_EQ(readings[1].conditions.at(1).id, "line_voltage");
  EXPECT_EQ(readings[0].conditions[0].error_source, readings[1].conditions[1].error_source);
  EXPECT_EQ(readings[1].supply, Supply::unplugged);
}

TEST_F(ReadingsOfAFile, AreNotSaidTwice) {
  EXPECT_EQ(refusal_of({"--lead-off"}, arguments_),
            "--lead-off is said for all readings, and second of the file says it too; leave one out");
  EXPECT_EQ(refusal_of({"--at", "23C"}, arguments_),
            "--at is said for all readings, and second of the file says it too; leave one out");
}

TEST_F(ReadingsOfAFile, DoNotHearWhatWasSaidOfAGroup) {
  const auto readings = gathered({"27", "--line", "118V", "--lead-off"}, arguments_);
  ASSERT_EQ(readings.size(), 3U);
  EXPECT_EQ(readings[0].connection, Connection::lead_off);
  EXPECT_EQ(readings[1].connection, Connection::unstated);
  EXPECT_TRUE(readings[1].conditions.empty());
}

}  // namespace
}  // namespace ohmwright::cli
