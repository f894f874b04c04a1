// Bad words and bad files through the real program: one clear message, the exit code, nothing half-written.

#include <filesystem>
#include <fstream>
#include <sys/stat.h>
#include <unistd.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::Ran;
using testing::run_program;

class Refusals : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = "/tmp/ohmwright-refusals-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  std::string file(const std::string& name, const std::string& text) const {
    const std::filesystem::path path = folder_ / name;
    std::ofstream(path, std::ios::binary) << text;
    return path.string();
  }

  std::filesystem::path folder_;
};

std::string refusal(const std::vector<std::string>& words) {
  const Ran ran = run_program(words);
  EXPECT_EQ(ran.exit_code, 2) << ran.out << ran.err;
  EXPECT_EQ(ran.out, "");
  return ran.err;
}

TEST_F(Refusals, OfWordsSayWhatWasExpectedAndWhereToRead) {
  EXPECT_EQ(refusal({"chek"}),
            "ohmwright: there is no verb \"chek\"; did you mean \"check\"?; a part is judged by: ohmwright check KIND "
            "READING; see: ohmwright --help\n");
  EXPECT_EQ(refusal({"check"}), "ohmwright: missing: KIND; see: ohmwright check --help\n");
  EXPECT_EQ(refusal({"check", "thermistor"}),
            "ohmwright: no reading was given; type what the meter showed, such as 11.0k or OL, or name a file with "
            "--readings or --series\n");
  EXPECT_THAT(refusal({"check", "thermister", "11k"}), HasSubstr("thermistor"));
}

TEST_F(Refusals, OfAValueSayTheDimensionThatWasExpected) {
  EXPECT_THAT(refusal({"check", "thermistor", "23degC"}), HasSubstr("expected a resistance, such as \"11.0 kohm\""));
  EXPECT_THAT(refusal({"check", "thermistor", "11k", "--at", "11k"}), HasSubstr("expected a temperature"));
  EXPECT_THAT(refusal({"check", "thermistor", "11k", "--at", "23"}), HasSubstr("expected a temperature"));
  EXPECT_THAT(refusal({"check", "thermistor", "nan"}), HasSubstr("expected a resistance"));
  EXPECT_THAT(refusal({"check", "thermistor", "-5k"}), HasSubstr("resistance"));
}

TEST_F(Refusals, OfAValueOfAnotherMeasurandNameIt) {
  EXPECT_THAT(refusal({"check", "fan", "1550rpm"}), HasSubstr("; name what was read: speed=1550rpm\n"));
  EXPECT_THAT(refusal({"check", "fan", "93Hz"}), HasSubstr("; name what was read: tach=93Hz\n"));
  EXPECT_THAT(refusal({"check", "fan", "12V"}), HasSubstr("; name what was read: supply=12V\n"));
  EXPECT_THAT(refusal({"check", "thermistor", "3.86V"}), HasSubstr("; name what was read: voltage=3.86V\n"));
}

TEST_F(Refusals, OfNamesSayWhatThereIs) {
  EXPECT_THAT(refusal({"check", "thermistor", "11k", "--ratings", "ntc-10k-b3978"}), HasSubstr("ntc-10k-b3977"));
  EXPECT_THAT(refusal({"check", "thermistor", "11k", "--meter", "god"}), HasSubstr("good"));
}

TEST_F(Refusals, OfABareNumberWhereAForgottenKWouldBeBelieved) {
  EXPECT_THAT(refusal({"check", "thermistor", "11.0", "--at", "23C"}), HasSubstr("expected a resistance"));
  EXPECT_THAT(refusal({"check", "thermistor", "1", "--at", "23C"}), HasSubstr("expected a resistance"));
}

TEST_F(Refusals, OfOhmsOnALivePartAreFinal) {
  EXPECT_THAT(refusal({"check", "thermistor", "11k", "--live", "--live-agreed"}), HasSubstr("ohms on a live part"));
}

TEST_F(Refusals, OfVoltsAskWhetherTheApplianceWasPluggedIn) {
  EXPECT_THAT(refusal({"check", "thermistor", "voltage=2.1V"}), HasSubstr("--live"));
}

TEST_F(Refusals, OfALiveReadingAskForAYes) {
  EXPECT_THAT(refusal({"check", "thermistor", "voltage=2.5V", "--live"}), HasSubstr("--live-agreed"));
}

TEST_F(Refusals, OfAFileNameLineAndPointer) {
  const std::string bad = file("bad.json", "{\n  \"kind\": \"defrost-sensor\",\n  \"name\": 5\n}\n");
  const std::string text = refusal({"check", "thermistor", "11k", "--ratings", bad});
  EXPECT_THAT(text, HasSubstr("bad.json:3: /name"));
}

TEST_F(Refusals, OfBrokenFilesAreOneClearLine) {
  const std::vector<std::pair<std::string, std::string>> files{
      {"empty.json", ""},
      {"junk.json", std::string("\x00\xff\x13\x37", 4)},
      {"cut.json", "{\"kind\": \"defrost-sensor\""},
      {"deep.json", std::string(100000, '[')},
      {"twice.json", "{\"kind\": \"a\", \"kind\": \"b\"}"},
      {"huge.json", "{\"kind\": 1e999}"},
  };
  for (const auto& [name, text] : files) {
    const std::string path = file(name, text);
    EXPECT_THAT(refusal({"ratings", path}), HasSubstr(name)) << name;
    EXPECT_THAT(refusal({"check", "thermistor", "--readings", path}), HasSubstr(name)) << name;
    EXPECT_THAT(refusal({"check", "thermistor", "11k", "--meter", path}), HasSubstr(name)) << name;
  }
}

TEST_F(Refusals, OfAHundredMegabytesComesAtOnce) {
  const std::string path = file("large.json", "");
  std::filesystem::resize_file(path, 100'000'000);
  EXPECT_THAT(refusal({"ratings", path}), HasSubstr("large.json"));
}

TEST_F(Refusals, OfAFolderAndAMissingFile) {
  EXPECT_THAT(refusal({"ratings", folder_.string() + "/"}), HasSubstr(folder_.filename().string()));
  EXPECT_THAT(refusal({"ratings", (folder_ / "missing.json").string()}), HasSubstr("missing.json"));
}

TEST_F(Refusals, OfAnOutputLeaveNothingHalfWritten) {
  const std::string out = (folder_ / "no-such-folder" / "verdict.json").string();
  const Ran ran = run_program({"check", "thermistor", "OL", "--format", "json", "--out", out});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_THAT(ran.err, HasSubstr("no-such-folder"));
  EXPECT_TRUE(std::filesystem::is_empty(folder_));
}

TEST_F(Refusals, AnOutputFileIsWrittenWhole) {
  const std::string out = (folder_ / "verdict.json").string();
  const Ran ran = run_program({"check", "thermistor", "OL", "--format", "json", "--out", out});
  EXPECT_EQ(ran.exit_code, 1);
  EXPECT_EQ(ran.out, "");
  EXPECT_GT(std::filesystem::file_size(out), 100U);
}

TEST_F(Refusals, AFullDiskBehindTheStandardOutputIsNoSuccess) {
  const Ran ran = run_program({"check", "thermistor", "OL", "--out", "/dev/full"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_NE(ran.err, "");
}

TEST_F(Refusals, ARefusedPluginIsListedWithItsReasonAndTheRestGoesOn) {
  file("junk.ohmplug", "not a library");
  const Ran ran = run_program({"kinds", "--plugins", folder_.string()});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_THAT(ran.out, HasSubstr("Refused"));
  EXPECT_THAT(ran.out, HasSubstr("junk.ohmplug"));
  EXPECT_THAT(ran.out, HasSubstr("defrost-sensor"));
}

TEST_F(Refusals, ANameOfTwoWordsGoesInQuotes) {
  const Ran ran = run_program({"check", "coil", "sensor", "11k"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err, "ohmwright: a name of two words goes in quotes: \"coil sensor\"\n");
}

TEST_F(Refusals, AnOptionGivenTwice) {
  const Ran ran = run_program({"check", "thermistor", "11k", "--ratings", "a", "--ratings", "b"});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_EQ(ran.err, "ohmwright: --ratings is given twice, as \"a\" and as \"b\"; leave one out\n");
}

TEST_F(Refusals, NameWhatAnOptionOrAKindMayHaveBeenMeantAs) {
  EXPECT_THAT(run_program({"check", "thermistor", "11k", "--rating", "x"}).err,
              HasSubstr("did you mean \"--ratings\"?"));
  EXPECT_THAT(run_program({"ratings", "thermistr"}).err,
              AllOf(HasSubstr("did you mean \"thermistor\"?"), Not(HasSubstr("any-defrost"))));
  EXPECT_THAT(run_program({"ratings", "nothing-like-it"}).err,
              AllOf(HasSubstr("see: ohmwright ratings"), Not(HasSubstr("any-defrost"))));
}

}  // namespace
}  // namespace ohmwright
