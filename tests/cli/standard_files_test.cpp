// What becomes of the program when its standard files are closed, full, or read by somebody who stops.

#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sys/wait.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

namespace ohmwright {
namespace {

using ::testing::HasSubstr;

class StandardFiles : public ::testing::Test {
 protected:
  void SetUp() override {
    std::string name = "/tmp/ohmwright-standard-XXXXXX";
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { std::filesystem::remove_all(folder_); }

  /// Runs it in a shell; `$P` is the program, `$D` a folder. Gives the exit code, 128 + n for signal n.
  int shell(const std::string& command) const {
    const std::string all = "P='" OHMWRIGHT_PROGRAM "'; D='" + folder_.string() + "'; " + command;
    const int status = std::system(all.c_str());
    return WIFEXITED(status) ? WEXITSTATUS(status) : 128 + WTERMSIG(status);
  }

  std::string text(const std::string& name) const {
    std::ifstream file(folder_ / name);
    return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
  }

  std::filesystem::path folder_;
};

TEST_F(StandardFiles, AClosedOutputIsToldOnce) {
  EXPECT_EQ(shell("$P kinds >&- 2>$D/err"), 2);
  EXPECT_EQ(text("err"), "ohmwright: could not write to the standard output; is it closed, or the disk full?\n");
}

TEST_F(StandardFiles, AFullDiskIsToldOnce) {
  EXPECT_EQ(shell("$P kinds >/dev/full 2>$D/err"), 2);
  EXPECT_EQ(text("err"), "ohmwright: could not write to the standard output; is it closed, or the disk full?\n");
}

TEST_F(StandardFiles, ClosedOnesGetNoFileOfOurs) {
  EXPECT_EQ(shell("$P check thermistor OL --format json --out $D/verdict.json <&- >&- 2>&-"), 1);
  EXPECT_EQ(shell("$P check thermistor OL --format json --out $D/same.json"), 1);
  EXPECT_EQ(text("verdict.json"), text("same.json"));
  // Standard error is closed and something is refused: nothing of it may land in a file.
  EXPECT_EQ(shell("$P check thermistor 11k --ratings none >$D/out 2>&-"), 2);
  EXPECT_EQ(text("out"), "");
}

TEST_F(StandardFiles, AReaderWhoStopsEndsItWithoutAWord) {
  // A pipe whose reader is gone before anything is written.
  const std::string run = "{ sleep 0.2; $P kinds thermistor 2>$D/err; echo $? >$D/code; } | true; sleep 0.5";
  EXPECT_EQ(shell(run), 0);
  EXPECT_EQ(text("err"), "");
  EXPECT_EQ(text("code"), std::to_string(128 + SIGPIPE) + "\n");
}

TEST_F(StandardFiles, AnOutputFileThatIsAPipeNobodyReadsIsRefused) {
  const std::string run =
      "{ sleep 0.2; $P check thermistor OL --out /dev/fd/1 2>$D/err; echo $? >$D/code; } | true; sleep 0.5";
  EXPECT_EQ(shell(run), 0);
  EXPECT_THAT(text("err"), HasSubstr("whoever read it has stopped reading"));
  EXPECT_EQ(text("code"), "2\n");
}

}  // namespace
}  // namespace ohmwright
