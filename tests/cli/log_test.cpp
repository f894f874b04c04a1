// Logs through the real program.

#include <cmath>
#include <filesystem>
#include <fstream>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/shipped_schemas.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using testing::Ran;
using testing::run_program;

/// Three days of an invented freezer, a row a minute: compressor 95 W, 22 min on and 19 off; a defrost of 210 W every
/// ten hours unless `heats` is false, its coil melting at 0.3 degC for a while and ending at 10 degC.
std::string freezer(bool heats) {
  std::string log = "Time;Power (W);Coil (°C)\n";
  double coil = -20.0;
  for (int minute = 0; minute < 3 * 24 * 60; ++minute) {
    const int of_cycle = minute % 600;
    double watt = minute % 41 < 22 ? 95.0 : 2.0;
    const double target = watt > 50.0 ? -24.0 : -17.0;
    const bool defrosts = of_cycle >= 560 && of_cycle < 595;
    if (defrosts && heats) {
      watt = 210.0;
      if (of_cycle < 572) coil = std::min(0.3, coil + 1.7);
      if (of_cycle >= 586) coil += 1.1;
    } else {
      coil += 0.12 * (target - coil);
    }
    const double wobble = 0.1 * std::sin(0.7 * minute);
    char row[96];
    std::snprintf(row, sizeof row, "2026-03-%02d %02d:%02d;%.1f;%.1f\n", 2 + minute / 1440, minute / 60 % 24,
                  minute % 60, watt + wobble, coil + wobble);
    log += row;
  }
  return log;
}

Ran log(const std::string& text, std::vector<std::string> words = {}) {
  words.insert(words.begin(), {"log", "-"});
  return run_program(words, {}, text);
}

TEST(Log, FindsDefrostsAndWhatEndedThem) {
  const Ran ran = log(freezer(true), {"--ends-at", "10C"});
  EXPECT_EQ(ran.exit_code, 0) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("DEFROSTS in"), HasSubstr("ended by temperature"), HasSubstr("Run share"),
                             HasSubstr("Guessed: power is column")));
}

TEST(Log, SaysWhatToTestWhenNoneIsSeen) {
  const Ran ran = log(freezer(false));
  EXPECT_EQ(ran.exit_code, 1) << ran.out << ran.err;
  EXPECT_THAT(ran.out, AllOf(HasSubstr("NO DEFROST SEEN"), HasSubstr("ohmwright locate")));
}

TEST(Log, JsonIsValidAgainstItsSchema) {
  const Ran ran = log(freezer(true), {"--format", "json"});
  EXPECT_TRUE(log_schema().problems(parse_document(ran.out, "log").root).empty());
  EXPECT_GE(nlohmann::json::parse(ran.out)["defrosts"].size(), 6U);
}

TEST(Log, CountsRowsThatAreWrong) {
  std::string text = freezer(true);
  text.insert(text.find('\n') + 1, "2026-03-02 00:00;oops;-20.0\n");
  const Ran ran = log(text);
  EXPECT_THAT(ran.out, AllOf(HasSubstr("Rows that were wrong"), HasSubstr("first in lines 2")));
}

TEST(Log, RefusesWhatIsNoLogAndWhatItDoesNotHave) {
  EXPECT_EQ(log("").exit_code, 3);
  EXPECT_THAT(log("").out, HasSubstr("no row that could be used"));
  EXPECT_THAT(log(freezer(true), {"--column", "power"}).err, HasSubstr("--column takes QUANTITY=COLUMN"));
  EXPECT_THAT(log(freezer(true), {"--column", "power=Volts:W"}).err, HasSubstr("Volts"));
  EXPECT_THAT(log(freezer(true), {"--every", "0s"}).err, HasSubstr("--every takes a time above 0"));
  EXPECT_EQ(run_program({"log", "/nowhere.csv"}).exit_code, 2);
}

}  // namespace
}  // namespace ohmwright
