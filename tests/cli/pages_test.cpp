// What pages look like: their width, what stands first, what is said of a chart's lines.

#include <regex>
#include <sstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::AnyOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

int longest_line(const std::string& text) {
  int longest = 0;
  std::istringstream lines(text);
  for (std::string line; std::getline(lines, line);) {
    int columns = 0;
    for (const char c : line) columns += (static_cast<unsigned char>(c) & 0xC0U) != 0x80U ? 1 : 0;
    longest = std::max(longest, columns);
  }
  return longest;
}

TEST(Pages, AreAsWideAsTheEnvironmentSays) {
  const std::vector<std::string> words{"check", "thermistor", "11.0k", "--at", "23C"};
  EXPECT_LE(longest_line(run_program(words, {"COLUMNS=40"}).out), 40);
  EXPECT_GT(longest_line(run_program(words, {"COLUMNS=80"}).out), 60);
  EXPECT_EQ(run_program(words, {"COLUMNS=wide"}).out, run_program(words).out);
  EXPECT_EQ(run_program(words, {"COLUMNS=3"}).out, run_program(words).out);
  std::vector<std::string> stated = words;
  stated.insert(stated.end(), {"--width", "80"});
  EXPECT_EQ(run_program(stated, {"COLUMNS=40"}).out, run_program(words, {"COLUMNS=80"}).out);
}

TEST(Pages, OfHelpAreAsNarrowAsTheirPageAndTheirExamplesStillWork) {
  for (const char* verb : {"check", "locate", "log", "kinds", "ratings", "chart", "curve", "compare", "appliance"}) {
    const std::string help = run_program({verb, "--help", "--width", "40"}).out;
    EXPECT_LE(longest_line(help), 40) << help;
  }
  EXPECT_LE(longest_line(run_program({"--help"}, {"COLUMNS=40"}).out), 40);
  EXPECT_THAT(run_program({"check", "--help", "--width", "40"}).out,
              HasSubstr("  ohmwright check thermistor 11.0k \\\n      --at 23C\n"));
}

TEST(Pages, OfARefusalAreOneLineForWhoeverReadsThemFromAFile) {
  const Ran ran = run_program({"check", "thermistor", "11k", "--ratings", "ntc-10k-b3978"}, {"COLUMNS=40"});
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1) << ran.err;
}

TEST(HtmlPages, ShowTheirCautionsFirstAndWhatMadeThem) {
  const std::string page =
      run_program({"check", "thermistor", "11.0k", "--at", "23C", "--ratings", "ntc-10k-b3977", "--format", "html"})
          .out;
  EXPECT_LT(page.find("Before you touch it"), page.find("<h1>"));
  EXPECT_TRUE(std::regex_search(page, std::regex("<footer>ohmwright [0-9.]+, 20[0-9]{2}-[0-9]{2}-[0-9]{2}</footer>")));
  EXPECT_THAT(page, AllOf(HasSubstr("Basic hand-held meter, 6000 counts (assumed)"), Not(HasSubstr("--meter"))));
  const std::string chart = run_program({"chart", "thermistor", "--ratings", "ntc-10k-b3977", "--format", "html"}).out;
  EXPECT_TRUE(std::regex_search(chart, std::regex("<footer>ohmwright [0-9.]+, 20")));
  const std::string appliance = run_program({"appliance", "show", "vented-dryer-230v", "--format", "html"}).out;
  EXPECT_TRUE(std::regex_search(appliance, std::regex("<footer>ohmwright [0-9.]+, 20")));
}

TEST(HtmlPages, NameNoOptionBesideAnOverRange) {
  const std::string page =
      run_program({"check", "heater", "OL", "--ratings", "heater-450w-120v", "--format", "html"}).out;
  EXPECT_THAT(page, AllOf(HasSubstr("the meter&#39;s largest range"), Not(HasSubstr("(--range names another)"))));
}

TEST(Charts, BeginAtARoundValueOfTheUnitThatIsRead) {
  const Ran fahrenheit = run_program({"chart", "thermistor", "10.92k@73.4F", "--ratings", "ntc-10k-b3977"});
  EXPECT_THAT(fahrenheit.out, HasSubstr(" 32.0 °F")) << fahrenheit.err;
  EXPECT_THAT(run_program({"chart", "heater", "--ratings", "heater-450w-120v"}).out, HasSubstr(" 0.0 °C"));
  const Ran typed = run_program({"chart", "thermistor", "--ratings", "ntc-10k-b3977", "--from", "-4F", "--to", "40F"});
  EXPECT_THAT(typed.out, HasSubstr(" -4.0 °F")) << typed.err;
}

TEST(Charts, SayThatAnAxisIsLogarithmic) {
  EXPECT_THAT(run_program({"chart", "thermistor", "--ratings", "ntc-10k-b3977"}).out, HasSubstr("(up, logarithmic)"));
  EXPECT_THAT(run_program({"chart", "heater", "--ratings", "heater-450w-120v"}).out,
              AllOf(HasSubstr("(up) against"), Not(HasSubstr("cold"))));
}

TEST(Charts, OfAThermostatTellItsHistoriesApart) {
  const Ran ran = run_program({"chart", "terminator", "--ratings", "opens-13"});
  EXPECT_THAT(ran.out, AllOf(HasSubstr("* not known,"), HasSubstr("o it"), HasSubstr("+ it"),
                             HasSubstr("\nit warmed up to there from where it closes\n")))
      << ran.err;
  const Ran in_spanish = run_program({"chart", "terminator", "--ratings", "opens-13", "--language", "es"});
  EXPECT_THAT(in_spanish.out, Not(AnyOf(HasSubstr("warm"), HasSubstr("unknown"), HasSubstr("known"))));
}

/// A refusal is English, as it is searched for and reported; but for one that keeps somebody from being hurt.
TEST(CautionRefusals, AreSaidInTheReadersLanguage) {
  const auto refused = [](std::vector<std::string> words) {
    words.insert(words.end(), {"--language", "es"});
    const Ran ran = run_program(words);
    EXPECT_EQ(ran.exit_code, 2) << ran.out;
    return ran.err;
  };
  EXPECT_THAT(refused({"check", "heater", "28", "--live"}), HasSubstr("en una pieza con tensión"));
  EXPECT_THAT(refused({"check", "fan-motor", "supply=120V", "--unplugged"}), HasSubstr("ALTO, tienen tensión"));
  EXPECT_THAT(refused({"check", "heater", "power=450W"}), HasSubstr("--live-agreed: está cualificado"));
  EXPECT_THAT(refused({"check", "heater", "28V"}), HasSubstr("expected a resistance"));
}

TEST(Charts, AskForWhatAReadingIsMarkedAt) {
  EXPECT_EQ(
      run_program({"chart", "heater", "28", "--ratings", "heater-450w-120v"}).err,
      "ohmwright: this chart marks a resistance where its --at is said; type a number and that behind each reading "
      "(ohmwright chart KIND READING --at VALUE), or choose another chart with --of\n");
}

}  // namespace
}  // namespace ohmwright
