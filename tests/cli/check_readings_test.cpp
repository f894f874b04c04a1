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
              HasSubstr("reading 2 is a voltage: say whether the appliance was plugged in"));
  const auto readings = gathered({"current=3.6A", "--live", "voltage=0.1V", "--proved-dead"}, agreed());
  EXPECT_EQ(readings[1].supply, Supply::proved_dead);
}

TEST(CheckReadings, AgreementAndDeadVoltsAreTwoStories) {
  EXPECT_EQ(refusal_of({"28", "--unplugged", "--current", "3.6A"}, agreed()),
            "reading 2 is a current that is said to be read without supply, and --live-agreed says that it was taken "
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
