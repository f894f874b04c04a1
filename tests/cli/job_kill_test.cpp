// Whatever instant a kill comes at: the book opens, it is sound, and every entry that was acknowledged is there.

#include <chrono>
#include <csignal>
#include <cstdlib>
#include <fcntl.h>
#include <filesystem>
#include <random>
#include <string>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using testing::run_program;

/// 500 of them: OHMWRIGHT_KILLS=500 cli_program_test --gtest_filter='JobKill*'
int number_of_kills() {
  const char* asked = std::getenv("OHMWRIGHT_KILLS");
  return asked == nullptr ? 40 : std::atoi(asked);
}

struct Killed {
  bool acknowledged = false;  ///< it said so, or ended well
  bool in_time = false;       ///< the kill came before its end
};

/// Runs an action of `job` on the book and kills it after `delay`.
Killed run_and_kill(const std::string& book, std::vector<std::string> words, std::chrono::microseconds delay) {
  words.insert(words.begin(), {OHMWRIGHT_PROGRAM, "job"});
  words.insert(words.end(), {"--book", book});
  int ends[2];
  if (::pipe2(ends, O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    std::string language = "LC_ALL=C.UTF-8";
    char* environment[] = {language.data(), nullptr};
    ::dup2(ends[1], STDOUT_FILENO);
    ::execve(arguments[0], arguments.data(), environment);
    ::_exit(127);
  }
  ::close(ends[1]);
  std::this_thread::sleep_for(delay);
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  char first = 0;
  const bool spoke = ::read(ends[0], &first, 1) == 1;
  ::close(ends[0]);
  return {spoke || (WIFEXITED(status) && WEXITSTATUS(status) == 0), WIFSIGNALED(status)};
}

/// A call in actions that each write; `mark` stands in what they write.
std::vector<std::string> action(int number, const std::string& mark) {
  switch (number % 4) {
    case 0:
      return {"open", mark, "--answer", "tried=" + mark, "--complaint", mark};
    case 1:
      return {"note", mark};
    case 2:
      return {"replace", "heater", "--new", "unknown", "--because", mark};
    default:
      return {"wait", "part", "--because", mark};
  }
}

TEST(JobKill, LosesNoAcknowledgedEntryAndLeavesASoundBook) {
  std::string folder = "/tmp/ohmwright-kill-XXXXXX";
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  const std::string book = folder + "/jobs.db";
  const auto begin = std::chrono::steady_clock::now();
  ASSERT_EQ(run_program({"job", "open", "first", "--book", book}).exit_code, 0);
  const auto whole = std::chrono::duration_cast<std::chrono::microseconds>(std::chrono::steady_clock::now() - begin);
  std::mt19937 stream(20'261'126);  // which instants, not which numbers: the machine adds the rest
  std::vector<std::string> acknowledged;
  int in_time = 0;
  for (int i = 0; i < number_of_kills(); ++i) {
    const std::string mark = "mark-" + std::to_string(i) + "-";
    const std::chrono::microseconds delay(stream() % static_cast<unsigned>(whole.count() * 5 / 4 + 1));
    const Killed killed = run_and_kill(book, action(i, mark), delay);
    if (killed.acknowledged) acknowledged.push_back(mark);
    in_time += killed.in_time ? 1 : 0;
    const auto check = run_program({"job", "check", "--book", book});
    ASSERT_EQ(check.exit_code, 0) << "after kill " << i << ": " << check.err;
  }
  const std::string all = run_program({"job", "export", "--book", book}).out;
  for (const std::string& mark : acknowledged) EXPECT_THAT(all, HasSubstr(mark));
  // An opening is two entries: both are there, or none.
  std::size_t opened = 0;
  std::size_t tried = 0;
  for (std::size_t at = all.find("\"form\":\"opened\""); at != std::string::npos;
       at = all.find("\"form\":\"opened\"", at + 1))
    ++opened;
  for (std::size_t at = all.find("\"form\":\"phone\""); at != std::string::npos;
       at = all.find("\"form\":\"phone\"", at + 1))
    ++tried;
  EXPECT_EQ(opened, tried + 1) << "the first had no phone";
  EXPECT_GT(in_time, 0) << "no kill came in time: nothing was tried";
  EXPECT_FALSE(acknowledged.empty());
  RecordProperty("kills_in_time", in_time);
  RecordProperty("acknowledged", static_cast<int>(acknowledged.size()));
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace ohmwright
