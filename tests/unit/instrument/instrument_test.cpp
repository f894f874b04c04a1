// Instruments that behave, and those that do not: each way to fail has its own words.

#include <array>
#include <chrono>
#include <cmath>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/instrument/live_inputs.hpp>
#include <ohmwright/instrument/readout.hpp>
#include <ohmwright/instrument/settling.hpp>
#include <ohmwright/quantity/error.hpp>

#include "simulated_instrument.hpp"
#include "temporary_folder.hpp"

namespace ohmwright::instrument {
namespace {

using ::testing::AllOf;
using testing::Answer;
using ::testing::HasSubstr;
using testing::SimulatedInstrument;
using testing::SimulatedSerialInstrument;

constexpr std::chrono::milliseconds patience{200};

/// Answers "*IDN?" and a thermometer's unit as such instruments do, and the value as `show` says.
std::function<Answer(std::string_view)> well_behaved(std::function<Answer()> show, std::string unit = "C") {
  return [show = std::move(show), unit = std::move(unit)](std::string_view line) -> Answer {
    if (line == "*IDN?") return {"EXAMPLE,BENCH METER,0,1.0\r\n"};
    if (line == "UNIT:TEMP?") return {unit + "\n"};
    if (line.starts_with("MEAS:")) return show();
    return {""};
  };
}

Observed read_once(const std::function<Answer(std::string_view)>& behaviour, const Wanted& wanted = {}) {
  const SimulatedInstrument instrument(behaviour);
  return *open_readout(parse_address(instrument.address()), wanted, patience)->next();
}

Observed read_shown(const std::string& bytes, const Wanted& wanted = {}, const std::string& unit = "C") {
  return read_once(well_behaved([bytes] { return Answer{bytes}; }, unit), wanted);
}

double value_shown(const std::string& bytes, const Wanted& wanted = {}, const std::string& unit = "C") {
  return std::get<StatedValue>(read_shown(bytes, wanted, unit)).value.value_in_si();
}

std::string refusal(const std::function<Answer(std::string_view)>& behaviour, const Wanted& wanted = {}) {
  return testing::refusal_of([&] { read_once(behaviour, wanted); });
}
std::string refusal_of_shown(const std::string& bytes, const Wanted& wanted = {}) {
  return refusal(well_behaved([bytes] { return Answer{bytes}; }), wanted);
}

TEST(Scpi, ReadsNumbersInTheFormsOfIeee488) {
  EXPECT_EQ(value_shown("+1.14500000E+04\n"), 11450.0);  // NR3
  EXPECT_EQ(value_shown("11450\n"), 11450.0);            // NR1
  EXPECT_EQ(value_shown(" 11450.5\r\n"), 11450.5);       // NR2
  EXPECT_EQ(value_shown("11.45 kohm\n"), 11450.0);
  EXPECT_EQ(value_shown("230.1\n", {Dimension::voltage}), 230.1);
}

TEST(Scpi, AsksForTheFunctionThatIsWanted) {
  std::string asked;
  const auto note = [&asked](std::string_view line) -> Answer {
    if (line == "*IDN?") return {"X\n"};
    asked = line;
    return {"1.0\n"};
  };
  read_once(note, {Dimension::resistance, true});
  EXPECT_EQ(asked, "MEAS:FRES?");
  read_once(note, {Dimension::voltage});
  EXPECT_EQ(asked, "MEAS:VOLT:AC?");
  read_once(note, {Dimension::current, false, true});
  EXPECT_EQ(asked, "MEAS:CURR:DC?");
  EXPECT_THAT(
      testing::refusal_of([] { open_readout(parse_address("tcp://127.0.0.1:1"), {Dimension::mass}, patience); }),
      HasSubstr("no instrument is asked for a mass"));
}

// SCPI-1999, volume 1, 7.2.1.4: positive infinity is 9.9E37; 7.2.1.5: not a number is 9.91E37
TEST(Scpi, KnowsOverRangeAndNoNumber) {
  EXPECT_TRUE(std::holds_alternative<OverRange>(read_shown("+9.90000000E+37\n")));
  EXPECT_THAT(refusal_of_shown("9.91E37\n"), HasSubstr("it has no number"));
  EXPECT_THAT(refusal_of_shown("-9.90000000E+37\n"),
              AllOf(HasSubstr("over-range on the negative side"), HasSubstr("is there a voltage on the part")));
  for (const char* infinity : {"-9.90000000E+37\n", "9.9E37\n"})
    for (const Dimension dimension : {Dimension::voltage, Dimension::current})
      EXPECT_TRUE(std::holds_alternative<OverRange>(read_shown(infinity, {dimension, false, true}))) << infinity;
  EXPECT_THAT(refusal_of_shown("9.91E37\n", {Dimension::voltage, false, true}), HasSubstr("it has no number"));
  EXPECT_THAT(refusal_of_shown("-12.5\n"), HasSubstr("is there a voltage on the part"));
}

/// A bench meter on a good wire shows some milliohms to either side of 0.
TEST(Scpi, TakesALittleBelowZeroForZeroWhereTheMeterIsGoodForNoMore) {
  Wanted wanted{.dimension = Dimension::resistance, .four_wires = true};
  wanted.zero_error = 0.003;
  EXPECT_EQ(value_shown("-2.0E-03\n", wanted), 0.0);
  EXPECT_THAT(refusal_of_shown("-4.0E-03\n", wanted), HasSubstr("cannot be negative"));
  EXPECT_THAT(refusal_of_shown("-2.0E-03\n"), HasSubstr("cannot be negative")) << "nobody said how good it is";
  EXPECT_EQ(value_shown("-2.0E-03\n", {.dimension = Dimension::voltage, .zero_error = 0.003}), -0.002);
}

TEST(Scpi, TakesTheThermometersOwnUnit) {
  const Wanted temperature{Dimension::temperature};
  EXPECT_NEAR(value_shown("23.0\n", temperature, "C"), 296.15, 1e-12);
  EXPECT_NEAR(value_shown("73.4\n", temperature, "F"), 296.15, 1e-12);
  EXPECT_EQ(value_shown("296.15\n", temperature, "K"), 296.15);
  EXPECT_EQ(value_shown("-5\n", temperature, "CEL"), 268.15);
  EXPECT_THAT(testing::refusal_of([&] { value_shown("1\n", temperature, "R"); }), HasSubstr("expected C, F or K"));
}

TEST(Scpi, RefusesAnotherUnit) {
  EXPECT_THAT(refusal_of_shown("1.2 V\n"), AllOf(HasSubstr("MEAS:RES?"), HasSubstr("is no unit of a resistance")));
}

TEST(Scpi, NamesWhatGoesWrongOnTheWay) {
  EXPECT_THAT(refusal([](std::string_view) { return Answer{""}; }),
              AllOf(HasSubstr("gave no answer to \"MEAS:RES?\" within 0.2 s"), HasSubstr("is it on")));
  EXPECT_THAT(refusal_of_shown("1.14500"), AllOf(HasSubstr("half an answer"), HasSubstr("\"1.14500\"")));
  EXPECT_THAT(refusal(well_behaved([] {
                return Answer{"1.145", true};
              })),
              AllOf(HasSubstr("ended the connection"), HasSubstr("in the middle of its answer"), HasSubstr("1.145")));
  EXPECT_THAT(refusal(well_behaved([] { return Answer{"", true}; })), HasSubstr("without an answer"));
  EXPECT_THAT(refusal_of_shown("\x01\xff#garbled\n"), AllOf(HasSubstr("expected a number"), HasSubstr("\\x01\\xff")));
  EXPECT_THAT(refusal_of_shown("\n"), HasSubstr("expected a number"));
  EXPECT_THAT(refusal_of_shown(std::string(100'000, '7')), HasSubstr("without a line's end"));
  EXPECT_THAT(refusal(well_behaved([] {
                return Answer{"1.0\n", false, 500};
              })),
              HasSubstr("no answer to \"MEAS:RES?\""));
  EXPECT_THAT(testing::refusal_of([] { open_channel(parse_address("tcp://127.0.0.1:1"), patience); }),
              HasSubstr("cannot be reached"));
  EXPECT_THAT(testing::refusal_of([] { open_channel(parse_address("serial:/dev/none-such"), patience); }),
              HasSubstr("cannot be opened"));
}

TEST(Scpi, ReadsASerialLine) {
  const SimulatedSerialInstrument instrument(well_behaved([] { return Answer{"+1.14500000E+04\r\n"}; }));
  const auto readout = open_readout(parse_address(instrument.address()), {}, std::chrono::seconds(2));
  EXPECT_EQ(readout->name(), "EXAMPLE,BENCH METER,0,1.0");
  EXPECT_EQ(std::get<StatedValue>(*readout->next()).value.value_in_si(), 11450.0);
  const SimulatedSerialInstrument silent([](std::string_view) { return Answer{""}; });
  EXPECT_THAT(testing::refusal_of([&] { open_readout(parse_address(silent.address()), {}, patience)->next(); }),
              HasSubstr("gave no answer"));
}

// IEEE 488.2 demands "*IDN?", and many a simple meter does not know it.
TEST(Scpi, ReadsWhatDoesNotNameItself) {
  const auto nameless = [](std::string_view line) { return Answer{line == "MEAS:RES?" ? "+1.14500000E+04\n" : ""}; };
  const SimulatedInstrument instrument(nameless);
  const auto readout = open_readout(parse_address(instrument.address()), {}, patience);
  EXPECT_EQ(readout->name(), "");
  for (int i = 0; i < 2; ++i) EXPECT_EQ(std::get<StatedValue>(*readout->next()).value.value_in_si(), 11450.0);
}

TEST(Scpi, AsksNoNameWhereTheAddressSaysSo) {
  std::vector<std::string> asked;
  const SimulatedInstrument instrument([&asked](std::string_view line) {
    asked.emplace_back(line);
    return Answer{line == "*IDN?" ? "" : "1000\n"};
  });
  const auto before = std::chrono::steady_clock::now();
  const auto readout = open_readout(parse_address(instrument.address() + "?unnamed"), {}, std::chrono::seconds(60));
  EXPECT_EQ(std::get<StatedValue>(*readout->next()).value.value_in_si(), 1000.0);
  EXPECT_LT(std::chrono::steady_clock::now() - before, std::chrono::seconds(30)) << "nothing was waited for";
  EXPECT_EQ(asked, std::vector<std::string>{"MEAS:RES?"});
}

TEST(Scpi, TakesANameThatComesTooLateForNoValue) {
  const SimulatedInstrument instrument([](std::string_view line) {
    if (line == "*IDN?") return Answer{"SLOW,METER,0,1.0\n", false, 300};
    return Answer{"1000\n"};
  });
  const auto readout = open_readout(parse_address(instrument.address()), {}, patience);
  EXPECT_EQ(readout->name(), "");
  EXPECT_EQ(std::get<StatedValue>(*readout->next()).value.value_in_si(), 1000.0);
  EXPECT_EQ(readout->name(), "SLOW,METER,0,1.0");
}

TEST(Program, PrintsLinesOfJson) {
  const testing::TemporaryFolder folder;
  const auto read = [&folder](const std::string& script) {
    const std::string path = folder.write("read-meter", "#!/bin/sh\n" + script);
    std::filesystem::permissions(path, std::filesystem::perms(0755));
    return *open_readout(parse_address("program:" + path), {}, patience)->next();
  };
  EXPECT_EQ(std::get<StatedValue>(read(R"(echo '{"value": "11.45 kohm"}')")).value.value_in_si(), 11450.0);
  EXPECT_TRUE(std::holds_alternative<OverRange>(read(R"(echo '{"value": "OL"}')")));
  const auto refused = [&](const std::string& script) { return testing::refusal_of([&] { read(script); }); };
  EXPECT_THAT(refused(R"(echo '{"value": "12 V"}')"), HasSubstr("expected a resistance"));
  EXPECT_THAT(refused("echo 11.45"), HasSubstr("expected {\"value\""));
  EXPECT_THAT(refused("sleep 3"), HasSubstr("gave no answer"));
  EXPECT_THAT(refused("exit 1"), HasSubstr("ended the connection"));
  EXPECT_THAT(testing::refusal_of([] { open_channel(parse_address("program:no-such-program-here"), patience); }),
              HasSubstr("cannot be started"));
}

/// What a part shows as time goes by, asked at its instrument's pace. The clock is the simulation's own, so that a
/// minute takes no time.
class Course : public Readout {
 public:
  using Shows = std::function<double(double second)>;  ///< ohms; below zero: over-range

  Course(Shows shows, double values_a_second) : shows_(std::move(shows)), step_(1.0 / values_a_second) {}
  std::string name() override { return {}; }
  std::optional<Observed> next() override {
    second_ += step_;
    const double ohm = shows_(second_);
    if (ohm < 0.0) return OverRange{};
    return StatedValue{AnyQuantity(Dimension::resistance, ohm), std::nullopt, Unit::si(Dimension::resistance)};
  }
  Clock clock() const {
    return [this] {
      return std::chrono::steady_clock::time_point() +
             std::chrono::duration_cast<std::chrono::steady_clock::duration>(std::chrono::duration<double>(second_));
    };
  }
  double second() const { return second_; }

 private:
  Shows shows_;
  double step_;
  double second_ = 0.0;
};

double ohms_of(const SettledReading& settled) { return std::get<StatedValue>(settled.observed).value.value_in_si(); }

constexpr std::array<double, 4> paces{1.0, 10.0, 100.0, 1000.0};  // values a second

// A first-order lag, R(t) = 11 kohm + 9 kohm·exp(-t/tau): where it ends is known without the program (own arithmetic).
TEST(Settling, WaitsForASensorThatWasJustPutIntoWater) {
  for (const double tau : {2.0, 10.0})
    for (const double pace : paces) {
      Course cooling([tau](double second) { return 11000.0 + 9000.0 * std::exp(-second / tau); }, pace);
      EXPECT_NEAR(ohms_of(read_settled(cooling, {}, cooling.clock())), 11000.0, 11.0) << tau << " s, " << pace;
      EXPECT_GT(cooling.second(), tau * std::log(9000.0 / 11.0)) << pace;  // before, it is farther away than that
    }
}

TEST(Settling, TakesNoDriftForAStand) {
  for (const double pace : paces) {  // a quarter in half a minute, then at its end
    Course rising([](double second) { return 11000.0 * (1.0 + 0.25 * std::min(1.0, second / 30.0)); }, pace);
    EXPECT_EQ(ohms_of(read_settled(rising, {}, rising.clock())), 13750.0) << pace;
    Course endless([](double second) { return 10000.0 * (1.0 + 0.0002 * second); }, pace);
    EXPECT_THAT(testing::refusal_of([&] { read_settled(endless, {}, endless.clock()); }),
                AllOf(HasSubstr("does not settle within 120 s"), HasSubstr("moves by 0.59 % in the next 30 s")))
        << pace;  // 0.02 % of the first value a second, of 1.012 times it
  }
}

TEST(Settling, TellsHowManyValuesAgreeAndForHowLong) {
  Course steady([](double) { return 11450.0; }, 10.0);
  const SettledReading settled = read_settled(steady, {}, steady.clock());
  EXPECT_EQ(settled.span, std::chrono::seconds(2));
  EXPECT_EQ(settled.agreeing, 21U);
  EXPECT_EQ(settled.passed_over, 0U);
  Course slow([](double second) { return second < 2.5 ? 14000.0 : 11450.0; }, 1.0);
  const SettledReading later = read_settled(slow, {}, slow.clock());
  EXPECT_EQ(later.agreeing, 5U);
  EXPECT_EQ(later.passed_over, 2U);
}

TEST(Settling, TakesNoisyDigitsForAStand) {
  int digit = 0;  // 11.450 and 11.452 kohm in turn, three of five: the last digit of an instrument
  Course noisy([&digit](double) { return 11450.0 + (++digit % 5 < 3 ? 2.0 : 0.0); }, 5.0);
  EXPECT_NEAR(ohms_of(read_settled(noisy, {}, noisy.clock())), 11451.0, 1.0);
}

TEST(Settling, TakesOverRangeOnlyWhenItStays) {
  Course open([](double second) { return second < 0.5 ? 11450.0 : -1.0; }, 10.0);
  EXPECT_TRUE(std::holds_alternative<OverRange>(read_settled(open, {}, open.clock()).observed));
  int value = 0;
  Course flickering([&value](double) { return ++value % 2 == 0 ? 32.0 : -1.0; }, 10.0);
  EXPECT_THAT(testing::refusal_of([&] { read_settled(flickering, {}, flickering.clock()); }),
              HasSubstr("a loose contact"));
}

TEST(Settling, TellsBetweenWhichValuesItMoves) {
  int value = 0;
  Course restless([&value](double) { return 10000.0 + 500.0 * (++value % 3); }, 10.0);
  EXPECT_THAT(testing::refusal_of([&] { read_settled(restless, {}, restless.clock()); }),
              AllOf(HasSubstr("does not settle"), HasSubstr("10.00 k"), HasSubstr("11.00 k")));
}

TEST(Settling, ZeroOhmsAreSettled) {
  Course shorted([](double) { return 0.0; }, 10.0);
  EXPECT_EQ(ohms_of(read_settled(shorted, {}, shorted.clock())), 0.0);
}

TEST(Settling, TakesAProgramsOneValueAtItsWord) {
  const testing::TemporaryFolder folder;
  const auto settle = [&folder](const std::string& script) {
    const std::string path = folder.write("read-meter", "#!/bin/sh\n" + script);
    std::filesystem::permissions(path, std::filesystem::perms(0755));
    return read_settled(*open_readout(parse_address("program:" + path), {}, std::chrono::seconds(5)));
  };
  const std::string line = R"(echo '{"value": "11.45 kohm"}')";
  EXPECT_EQ(settle(line).agreeing, 1U);
  EXPECT_EQ(ohms_of(settle(line)), 11450.0);
  EXPECT_THAT(testing::refusal_of([&] { settle(line + "\n" + line); }),
              AllOf(HasSubstr("printed 2 values and ended"), HasSubstr("5 that agree over 2 s")));
  // What is written ahead is read in no time, and is settled no sooner for that.
  const SettledReading ahead = settle("while :; do " + line + "; done");
  EXPECT_GE(ahead.span, std::chrono::seconds(2));
}

TEST(Program, EndsWithTheChannelWhateverItIgnores) {
  const testing::TemporaryFolder folder;
  const std::string path = folder.write("stubborn", R"(#!/bin/sh
trap '' TERM
while :; do sleep 1; done
)");
  std::filesystem::permissions(path, std::filesystem::perms(0755));
  const auto start = std::chrono::steady_clock::now();
  EXPECT_THAT(testing::refusal_of([&] { open_readout(parse_address("program:" + path), {}, patience)->next(); }),
              HasSubstr("gave no answer"));
  EXPECT_LT(std::chrono::steady_clock::now() - start, std::chrono::seconds(5));
}

TEST(LiveInputs, AreRefusedUnlessTheMeterFileSaysThatTheyFloat) {
  const Document plain = parse_document(R"({"name": "bench"})", "meter.json");
  EXPECT_FALSE(inputs_float_and_are_rated(plain));
  EXPECT_THAT(testing::refusal_of([&] { refuse_live_inputs("tcp://192.0.2.7", plain); }),
              AllOf(HasSubstr("for parts without power"), HasSubstr("\"inputs\"")));
  const Document earthed = parse_document(R"({"inputs": {"floating": false, "rated": "CAT II 300 V"}})", "meter.json");
  EXPECT_FALSE(inputs_float_and_are_rated(earthed));
  const Document floating = parse_document(R"({"inputs": {"floating": true, "rated": "CAT III 600 V"}})", "meter.json");
  EXPECT_EQ(testing::refusal_of([&] { refuse_live_inputs("tcp://192.0.2.7", floating); }), "");
}

TEST(Address, ReadsTheWaysToAnInstrument) {
  EXPECT_EQ(parse_address("tcp://192.0.2.7").port, 5025);
  EXPECT_EQ(parse_address("tcp://meter.example:5555").port, 5555);
  EXPECT_EQ(parse_address("tcp://[2001:db8::7]:5025").host, "2001:db8::7");
  EXPECT_EQ(parse_address("serial:/dev/ttyUSB0").baud, 9600U);
  EXPECT_EQ(parse_address("serial:/dev/ttyUSB0?baud=115200").baud, 115200U);
  EXPECT_EQ(parse_address("program:read-meter --fast").command, (std::vector<std::string>{"read-meter", "--fast"}));
  EXPECT_TRUE(parse_address("tcp://192.0.2.7").asks_its_name);
  EXPECT_FALSE(parse_address("tcp://192.0.2.7:5555?unnamed").asks_its_name);
  EXPECT_EQ(parse_address("tcp://192.0.2.7:5555?unnamed").port, 5555);
  EXPECT_EQ(parse_address("serial:/dev/ttyUSB0?baud=115200&unnamed").baud, 115200U);
  EXPECT_FALSE(parse_address("serial:/dev/ttyUSB0?unnamed").asks_its_name);
  for (const char* text : {"", "192.0.2.7", "tcp://", "tcp://x:0", "tcp://x:65536", "tcp://[::1",
                           "serial:", "program: ", "serial:/dev/ttyUSB0?parity=odd", "serial:/dev/ttyUSB0?baud=9600&",
                           "tcp://x?baud=9600", "http://192.0.2.7"})
    EXPECT_THAT(testing::refusal_of([&] { parse_address(text); }), HasSubstr("tcp://HOST")) << text;
}

}  // namespace
}  // namespace ohmwright::instrument
