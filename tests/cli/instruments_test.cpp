// Which instrument read what: the named meters, and the shipped classes where they do not show it.

#include <filesystem>
#include <fstream>
#include <string>
#include <unistd.h>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

Ran heater(std::vector<std::string> words) {
  words.insert(words.begin(), {"check", "heater", "--lead-off", "32", "--ratings", "heater-450w-120v"});
  return run_program(words);
}

/// A page without its line breaks.
std::string unbroken(const std::string& page) {
  std::string text;
  bool blank = false;
  for (const char letter : page) {
    const bool is_blank = letter == ' ' || letter == '\n';
    if (!is_blank || !blank) text += is_blank ? ' ' : letter;
    blank = is_blank;
  }
  return text;
}

TEST(Instruments, TwoHundredMegohmsOfATesterPass) {
  // Trade fact: good insulation reads far above 1 MΩ on a 500 V tester (EN 50678, from memory).
  for (const char* meter : {"basic", "good", "bench"}) {
    const Ran ran = heater({"insulation=200M", "--test", "500V", "--meter", meter});
    EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
    EXPECT_THAT(unbroken(ran.out),
                HasSubstr("Insulation from the element to the frame, read with: Insulation tester, 4000 counts "
                          "(assumed; name yours with --meter)"));
  }
}

TEST(Instruments, ATestersDisplayPastItsRangePasses) {
  const Ran ran = heater({"insulation=>200M", "--test", "500V"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(unbroken(ran.out), HasSubstr("more than 200 MΩ"));
  const Ran json = heater({"insulation=>200M", "--test", "500V", "--format", "json"});
  const auto verdict = nlohmann::json::parse(json.out);
  EXPECT_EQ(verdict["readings"][1]["observed"]["more_than"]["value"], 200e6);
  EXPECT_EQ(verdict["other_instruments"][0]["measurand"], "insulation");
  EXPECT_EQ(verdict["other_instruments"][0]["assumed"], true);
}

TEST(Instruments, MegohmsWithoutTheVoltsOfATesterAskForThem) {
  EXPECT_EQ(
      heater({"insulation=200M"}).err,
      "ohmwright: reading 2: the meter \"basic\" shows a resistance up to 60.00 Mohm, not 200.0 Mohm; if a tester "
      "of insulation read it, say its volts (--test 500V); if an ohmmeter did, write OL\n");
  EXPECT_THAT(heater({"insulation=200", "--test", "500V"}).err, HasSubstr("write \"200M\" or \"200k\""));
}

TEST(Instruments, TwentyAmperesAreAClamps) {
  const Ran ran = run_program(
      {"check", "heater", "current=21.7A", "--line", "240V", "--live-agreed", "--ratings", "heater-5200w-240v"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(unbroken(ran.out), HasSubstr("Current while it heats, read with: Current clamp, 6000 counts (assumed"));
  EXPECT_THAT(ran.out, Not(HasSubstr("Basic hand-held meter")));
  EXPECT_EQ(run_program({"check", "heater", "current=700A", "--line", "240V", "--live-agreed", "--ratings",
                         "heater-5200w-240v"})
                .err,
            "ohmwright: reading 1: the meter \"clamp\" shows a current up to 600.0 A, not 700.0 A; name the meter that "
            "read it (--meter), or write what it showed (OL)\n");
}

class MetersOfOnesOwn : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = "/tmp/ohmwright-meters-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string meter(const std::string& name, const std::string& function, const std::string& more = "") const {
    const std::filesystem::path path = folder_ / (name + ".json");
    std::ofstream(path) << R"({"name": ")" << name << R"(", "title": "My )" << name
                        << R"(", "source": "its leaflet", "functions": [)" << function << "]" << more << "}";
    return path.string();
  }
  std::string ohms() const {
    return meter("ohms",
                 R"({"dimension": "resistance", "ranges": [{"full_scale": "2 kohm", "percent_of_reading": "0.8 %",)"
                 R"( "counts": 2, "resolution": "0.1 ohm"}]})",
                 R"(, "lead_resistance": "0.3 ohm")");
  }

  std::filesystem::path folder_;
};

TEST_F(MetersOfOnesOwn, WhatTheyDoNotReadFallsToTheUsualClass) {
  const Ran ran = run_program({"check", "fan", "speed=1550rpm", "current=0.24A", "--live-agreed", "--ratings",
                               "shaded-pole-120v", "--meter", ohms()});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(unbroken(ran.out), HasSubstr("How fast it turns, read with: Basic hand-held meter, 6000 counts (assumed; "
                                           "name yours with --meter)"));
}

TEST_F(MetersOfOnesOwn, MayBeSeveral) {
  const std::string tester =
      meter("tester", R"({"dimension": "resistance", "insulation_test": true, "ranges": [{"full_scale": "999 Mohm",)"
                      R"( "percent_of_reading": "5 %", "counts": 2, "resolution": "1 Mohm"}]})");
  const Ran ran = heater({"insulation=200M", "--test", "500V", "--meter", ohms(), "--meter", tester});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(unbroken(ran.out), AllOf(HasSubstr("meter: My ohms"), HasSubstr("read with: My tester"),
                                       Not(HasSubstr("assumed; name yours"))));
  EXPECT_EQ(heater({"--meter", tester, "--meter", tester}).err,
            "ohmwright: --meter names two instruments that are called \"tester\"; leave one out, or give them two "
            "names\n");
}

TEST_F(MetersOfOnesOwn, AValuePastTheOhmsThatWereNamedIsRefused) {
  const Ran ran = run_program({"check", "thermistor", "11k", "--at", "23C", "--meter", ohms()});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err,
            "ohmwright: reading 1: the meter \"ohms\" shows a resistance up to 2.000 kohm, not 11.00 kohm; name the "
            "meter that read it (--meter), or write what it showed (OL)\n");
}

TEST(Leads, AreTakenOffAsTheyWereSaid) {
  const auto splice = [](std::vector<std::string> words) {
    words.insert(words.begin(), {"check", "splice", "0.5", "--lead-off", "--ratings", "splice", "--format", "json"});
    const Ran ran = run_program(words);
    return ran.err.empty() ? nlohmann::json::parse(ran.out) : nlohmann::json(ran.err);
  };
  const auto measured = [](const nlohmann::json& verdict) {
    for (const auto& reason : verdict["reasons"])
      if (reason.contains("measured")) return reason["measured"]["value"].get<double>();
    return -1.0;
  };
  EXPECT_NEAR(measured(splice({})), 0.3, 1e-9);
  EXPECT_NEAR(measured(splice({"--leads", "0.3ohm"})), 0.2, 1e-9);
  EXPECT_NEAR(measured(splice({"--leads", "0"})), 0.5, 1e-9);
  EXPECT_EQ(splice({"--leads", "32ohm"}),
            "ohmwright: --leads: 32.00 ohm is no resistance of test leads; hold the probes together and write what the "
            "meter shows, such as 0.3ohm, or 0 where it was zeroed\n");
}

TEST(Leads, ThatChangeADigitAreTold) {
  const auto page = [](const char* ohms, const char* meter) {
    return unbroken(
        run_program({"check", "heater", ohms, "--lead-off", "--ratings", "heater-450w-120v", "--meter", meter}).out);
  };
  EXPECT_THAT(page("48", "basic"), HasSubstr("(0.2 Ω of leads taken off)"));
  EXPECT_THAT(page("295", "basic"), HasSubstr("(0.2 Ω of leads taken off)"));
  EXPECT_THAT(page("28", "bench"), HasSubstr("(0.1 Ω of leads taken off)"));
  const Ran zeroed =
      run_program({"check", "heater", "32", "--leads", "0", "--lead-off", "--ratings", "heater-450w-120v"});
  EXPECT_THAT(unbroken(zeroed.out), HasSubstr("(meter zeroed with its leads)"));
  EXPECT_THAT(run_program({"check", "thermistor", "11k", "--at", "23C"}).out, Not(HasSubstr("of leads")));
}

TEST_F(MetersOfOnesOwn, LeadsMayStandInAFileOfReadings) {
  const auto file = [this](const char* reading) {
    const std::filesystem::path path = folder_ / "found.json";
    std::ofstream(path) << R"({"kind": "wiring", "readings": [)" << reading << "]}";
    return path.string();
  };
  const auto check = [](const std::string& path) {
    return run_program({"check", "splice", "--readings", path, "--ratings", "splice"});
  };
  EXPECT_THAT(check(file(R"({"value": "0.5 ohm", "leads": "0.3 ohm", "connection": "lead-off"})")).out,
              HasSubstr("(0.3 Ω of leads taken off)"));
  EXPECT_THAT(check(file(R"({"measurand": "drop", "value": "50 mV", "leads": "0.3 ohm"})")).err,
              HasSubstr("/readings/0/leads: only what is read in ohms has the resistance of the leads in it"));
  EXPECT_THAT(check(file(R"({"value": "0.5 ohm", "leads": "30 ohm"})")).err,
              HasSubstr("/readings/0/leads: 30.00 ohm is no resistance of test leads"));
}

}  // namespace
}  // namespace ohmwright
