// An instrument through the real program: a child of it that prints JSON lines, and one that speaks SCPI.

#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "../unit/document/temporary_folder.hpp"
#include "../unit/instrument/simulated_instrument.hpp"
#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using testing::Answer;
using ::testing::HasSubstr;
using testing::Ran;
using testing::run_program;
using testing::SimulatedInstrument;
using testing::TemporaryFolder;

std::function<Answer(std::string_view)> showing(const std::string& value) {
  return [value](std::string_view line) -> Answer {
    if (line == "*IDN?") return {"EXAMPLE,BENCH METER,0,1.0\n"};
    if (line == "UNIT:TEMP?") return {"C\n"};
    return {value + "\n"};
  };
}

TEST(Meter, ShowsASettledValueAndWritesItAsReadings) {
  const SimulatedInstrument instrument(showing("+1.14500000E+04"));
  const Ran shown = run_program({"meter", instrument.address()});
  EXPECT_EQ(shown.exit_code, 0) << shown.err;
  EXPECT_THAT(shown.err, HasSubstr("unplug the appliance"));
  EXPECT_THAT(shown.out, AllOf(HasSubstr("EXAMPLE,BENCH METER,0,1.0 shows 11.45 kΩ"), HasSubstr("values in 2."),
                               ::testing::Not(HasSubstr("unplug"))));

  const TemporaryFolder folder;
  const std::string file = folder.path("reading.json");
  EXPECT_EQ(run_program({"meter", instrument.address(), "resistance", "--format", "json", "--out", file}).exit_code, 0);
  const Ran checked = run_program({"check", "thermistor", "--readings", file, "--at", "23C", "--lead-off", "--ratings",
                                   "ntc-10k-b3977", "--format", "json"});
  const Ran direct = run_program({"check", "thermistor", "--from", instrument.address(), "--at", "23C", "--lead-off",
                                  "--ratings", "ntc-10k-b3977", "--format", "json"});
  EXPECT_EQ(direct.exit_code, 3) << direct.err;
  EXPECT_EQ(nlohmann::json::parse(direct.out)["probability_within"],
            nlohmann::json::parse(checked.out)["probability_within"]);
  EXPECT_EQ(nlohmann::json::parse(direct.out)["readings"], nlohmann::json::parse(checked.out)["readings"]);
}

/// Nothing is taken off a reading that has no leads in it: 1.06 ohm are more than a good link has.
TEST(Meter, TakesNoLeadsOffAReadingByFourWires) {
  const SimulatedInstrument instrument([](std::string_view line) -> Answer {
    if (line == "*IDN?") return {"EXAMPLE,BENCH METER,0,1.0\n"};
    return {line == "MEAS:FRES?" ? "1.06\n" : "1.16\n"};
  });
  const TemporaryFolder folder;
  const std::string file = folder.path("fw.json");
  EXPECT_EQ(run_program({"meter", instrument.address(), "--four-wire", "--format", "json", "--out", file}).exit_code,
            0);
  const std::vector<std::string> link{"check", "thermal-link", "--meter",  "bench", "--at",
                                      "22C",   "--lead-off",   "--format", "json"};
  const auto checked = [&](std::vector<std::string> how) {
    how.insert(how.begin(), link.begin(), link.end());
    const Ran ran = run_program(how);
    EXPECT_NE(ran.exit_code, 2) << ran.err;
    return nlohmann::json::parse(ran.out);
  };
  const nlohmann::json by_file = checked({"--readings", file});
  EXPECT_EQ(by_file["readings"][0]["leads"]["value"], 0.0);
  EXPECT_NE(by_file["verdict"], "within-limits");
  const nlohmann::json direct = checked({"--from", instrument.address(), "--four-wire"});
  EXPECT_EQ(direct["probability_within"], by_file["probability_within"]);
  EXPECT_EQ(checked({"--from", instrument.address()})["verdict"], by_file["verdict"]) << "1.16 ohm by two, 0.1 off";
  EXPECT_THAT(run_program({"check", "thermal-link", "0.3", "--four-wire"}).err, HasSubstr("--leads 0"));
}

TEST(Meter, TakesALittleBelowZeroForZero) {
  const SimulatedInstrument instrument(showing("-2.0E-03"));
  EXPECT_THAT(run_program({"meter", instrument.address(), "--four-wire"}).out, HasSubstr("shows 0 Ω"));
  const SimulatedInstrument far(showing("-5"));
  EXPECT_THAT(run_program({"meter", far.address()}).err, HasSubstr("cannot be negative"));
}

TEST(Meter, ReadsAnInstrumentThatDoesNotNameItself) {
  const SimulatedInstrument nameless([](std::string_view line) { return Answer{line == "MEAS:RES?" ? "48.1\n" : ""}; });
  const Ran ran = run_program({"meter", nameless.address(), "--timeout", "300ms"});
  EXPECT_EQ(ran.exit_code, 0) << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("The instrument did not name itself."), HasSubstr("It shows 48.1")));
  EXPECT_EQ(run_program({"check", "heater", "--from", nameless.address() + "?unnamed", "--lead-off"}).exit_code, 3);
}

TEST(Meter, TakesOverRangeForAnOpenPart) {
  const SimulatedInstrument instrument(showing("9.9E37"));
  const Ran ran = run_program({"check", "thermistor", "--from", instrument.address(), "--at", "23C", "--lead-off",
                               "--ratings", "ntc-10k-b3977"});
  EXPECT_EQ(ran.exit_code, 1) << ran.err;
}

TEST(Meter, ReadsNoLivePartUnlessItsInputsFloatAndAreRated) {
  const SimulatedInstrument instrument(showing("3.75"));
  EXPECT_THAT(run_program({"meter", instrument.address(), "voltage", "--live-agreed"}).err,
              HasSubstr("is for parts without power"));
  EXPECT_THAT(run_program({"check", "heater", "--from", instrument.address() + "#current", "--live-agreed"}).err,
              HasSubstr("is for parts without power"));
  const TemporaryFolder folder;
  const std::string meter = folder.write("floating.json", R"({"name": "floating", "title": "Isolated bench meter",
    "source": "invented", "lead_resistance": "0.1 ohm +- 0.05 ohm", "inputs": {"floating": true, "rated": "CAT III 600 V"},
    "functions": [{"dimension": "current", "ranges": [{"full_scale": "10 A", "percent_of_reading": "0.5 %", "counts": 3,
    "resolution": "0.001 A"}]}]})");
  EXPECT_THAT(run_program({"meter", instrument.address(), "current", "--meter", meter}).err,
              HasSubstr("--live-agreed"));
  const Ran agreed = run_program({"meter", instrument.address(), "current", "--meter", meter, "--live-agreed"});
  EXPECT_EQ(agreed.exit_code, 0) << agreed.err;
  EXPECT_THAT(agreed.out, HasSubstr("3.75"));
  EXPECT_THAT(agreed.err,
              AllOf(HasSubstr("only if you are qualified"), ::testing::Not(HasSubstr("unplug the appliance"))));
  const SimulatedInstrument beyond(showing("11000"));
  const Ran ran = run_program({"meter", beyond.address(), "current", "--meter", meter, "--live-agreed"});
  EXPECT_EQ(ran.exit_code, 2) << ran.out;
  EXPECT_THAT(ran.err, HasSubstr("up to 10.00 A"));
}

TEST(Meter, TellsWhatWentWrongInOneLine) {
  const SimulatedInstrument silent([](std::string_view) { return Answer{""}; });
  const Ran ran = run_program({"meter", silent.address(), "--timeout", "200ms"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("gave no answer to \"MEAS:RES?\" within 0.2 s"));
  EXPECT_THAT(run_program({"meter", "192.0.2.7"}).err, HasSubstr("write tcp://HOST"));
  EXPECT_THAT(run_program({"meter", "program:true"}).err, HasSubstr("ended the connection"));
  EXPECT_THAT(run_program({"locate", "upright-timer-bimetal-120v", "--from", silent.address()}).err,
              HasSubstr("--interactive"));
}

TEST(Meter, ReadsTheStepsOfADialogue) {
  const SimulatedInstrument instrument(showing("9.9E37"));
  const Ran ran = run_program({"locate", "upright-timer-bimetal-120v", "--interactive", "--from", instrument.address()},
                              {}, "0\n1\n4\n4\n4\n1\n\n0\n");  // past three looks, to the first reading
  EXPECT_THAT(ran.out, HasSubstr("An empty line reads it from the instrument."));
  EXPECT_THAT(ran.out, HasSubstr("The instrument shows OL."));
}

}  // namespace
}  // namespace ohmwright
