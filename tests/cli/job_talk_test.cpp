// Four whole calls through the conversation, on a terminal, compared line by line with kept screens; stopped and taken
// up again at every question.

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <poll.h>
#include <pty.h>
#include <sstream>
#include <string>
#include <sys/wait.h>
#include <unistd.h>
#include <utility>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using ::testing::HasSubstr;
using testing::run_program;
using ::testing::StartsWith;

/// `ohmwright job` on a pseudo-terminal of 80 columns.
class JobTerminal {
 public:
  explicit JobTerminal(const std::string& book) {
    const winsize size{40, 80, 0, 0};
    child_ = ::forkpty(&terminal_, nullptr, nullptr, &size);
    if (child_ < 0) throw std::runtime_error("no pseudo-terminal");
    if (child_ != 0) return;
    std::vector<std::string> words{OHMWRIGHT_PROGRAM, "job", "--book", book};
    std::vector<char*> arguments;
    for (std::string& word : words) arguments.push_back(word.data());
    arguments.push_back(nullptr);
    std::string language = "LC_ALL=C.UTF-8";
    std::string colour = "NO_COLOR=1";
    char* environment[] = {language.data(), colour.data(), nullptr};
    ::execve(arguments[0], arguments.data(), environment);
    ::_exit(127);
  }
  ~JobTerminal() {
    ::close(terminal_);
    int status = 0;
    ::kill(child_, SIGKILL);
    ::waitpid(child_, &status, 0);
  }
  JobTerminal(const JobTerminal&) = delete;
  JobTerminal& operator=(const JobTerminal&) = delete;

  /// Everything up to the next prompt; false where the program has ended.
  bool reaches_prompt() {
    std::array<char, 4096> buffer{};
    for (;;) {
      if (screen_.size() > seen_ + 1 && screen_.compare(screen_.size() - 2, 2, "> ") == 0) {
        seen_ = screen_.size();
        return true;
      }
      pollfd waits{terminal_, POLLIN, 0};
      constexpr int longest_ms = 120'000;
      if (::poll(&waits, 1, longest_ms) <= 0) throw std::runtime_error("no prompt comes: " + screen_);
      const ssize_t count = ::read(terminal_, buffer.data(), buffer.size());
      if (count <= 0) return false;
      for (ssize_t i = 0; i < count; ++i)
        if (buffer.at(static_cast<std::size_t>(i)) != '\r') screen_ += buffer.at(static_cast<std::size_t>(i));
    }
  }
  void type(const std::string& answer) {
    const std::string line = answer + "\n";
    if (::write(terminal_, line.data(), line.size()) != static_cast<ssize_t>(line.size()))
      throw std::runtime_error("nothing could be typed");
  }
  const std::string& screen() const { return screen_; }

 private:
  int terminal_ = -1;
  pid_t child_ = -1;
  std::string screen_;
  std::size_t seen_ = 0;
};

std::string text_of_file(const std::string& path) {
  std::ifstream file(path);
  return {std::istreambuf_iterator<char>(file), std::istreambuf_iterator<char>()};
}

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream in(text);
  for (std::string line; std::getline(in, line);) lines.push_back(line);
  return lines;
}

/// Answers, one a line. Lines that begin with "$ " are actions of `job` that were typed before the conversation.
std::vector<std::string> answers_of(const std::string& name) {
  std::vector<std::string> answers;
  for (const std::string& line : lines_of(text_of_file(OHMWRIGHT_SOURCE_DIR "/tests/cli/screens/" + name + ".answers")))
    answers.push_back(line);
  return answers;
}

class TalkedCall : public ::testing::TestWithParam<const char*> {
 protected:
  TalkedCall() {
    std::string name = "/tmp/ohmwright-talk-XXXXXX";
    folder_ = ::mkdtemp(name.data());
  }
  ~TalkedCall() override { std::filesystem::remove_all(folder_); }

  std::string folder_;
};

/// Where screens changed for a reason: OHMWRIGHT_WRITE_SCREENS=1 writes them anew, to be read before they are kept.
TEST_P(TalkedCall, ShowsTheKeptScreens) {
  const std::string name = GetParam();
  std::vector<std::string> answers = answers_of(name);
  for (; answers.front().rfind("$ ", 0) == 0; answers.erase(answers.begin())) {
    std::istringstream typed(answers.front().substr(2));
    std::vector<std::string> words{"job", "--book", folder_ + "/jobs.db"};
    words.insert(words.end(), std::istream_iterator<std::string>(typed), {});
    ASSERT_NE(run_program(words).exit_code, 2) << answers.front();
  }
  JobTerminal terminal(folder_ + "/jobs.db");
  for (std::size_t i = 0; terminal.reaches_prompt(); ++i) {
    ASSERT_LT(i, answers.size()) << "asks for more: " << terminal.screen().substr(terminal.screen().size() - 600);
    terminal.type(answers[i]);
  }
  const std::string kept = OHMWRIGHT_SOURCE_DIR "/tests/cli/screens/" + name + ".txt";
  if (std::getenv("OHMWRIGHT_WRITE_SCREENS") != nullptr) std::ofstream(kept) << terminal.screen();
  const std::vector<std::string> shown = lines_of(terminal.screen());
  const std::vector<std::string> expected = lines_of(text_of_file(kept));
  ASSERT_EQ(shown.size(), expected.size());
  for (std::size_t i = 0; i < shown.size(); ++i) ASSERT_EQ(shown[i], expected[i]) << "line " << i + 1;
}

INSTANTIATE_TEST_SUITE_P(Calls, TalkedCall,
                         ::testing::Values("sensor_drifted", "heater_open", "thermostat_warm", "splice_high"));

/// Who has one meter reads the insulation with it, too, and types what it shows.
TEST(TalkedMend, IsProvedLikeANewPartAndAnOhmmetersOlProvesNoInsulation) {
  std::string folder = "/tmp/ohmwright-talk-XXXXXX";
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  const std::string book = folder + "/jobs.db";
  std::vector<std::string> open{
      "job",       "--book",          book, "open", "Warm", "--appliance", "upright-timer-bimetal-120v",
      "--symptom", "frost-whole-coil"};
  for (const char* answer : {"tingles=no", "burning_smell=no", "refrigerant=R-134a", "frost=whole", "volts=118",
                             "room=24C", "tried=nothing"}) {
    open.emplace_back("--answer");
    open.emplace_back(answer);
  }
  ASSERT_EQ(run_program(open).exit_code, 0);
  ASSERT_EQ(run_program({"job", "--book", book, "read", "heater-alone=OL"}).exit_code, 1);
  JobTerminal terminal(book);
  const auto answer = [&](const std::string& question, const std::string& typed) {
    ASSERT_TRUE(terminal.reaches_prompt());
    const std::string& screen = terminal.screen();
    ASSERT_THAT(screen.substr(screen.size() - std::min<std::size_t>(screen.size(), 2000)), HasSubstr(question));
    terminal.type(typed);
  };
  answer("Which call is it?", "1");
  answer("What do you see?", "1");
  answer("7  close the job, or wait", "7");
  answer("How does the job stand?", "1");
  answer("What was repaired?", "1");
  answer("Which part or joint was mended?", "4");
  answer("What was done", "pushed its connector on");
  answer("nothing was read since that shows it", "1");
  answer("What it shows", "32.1");
  answer("read with an ordinary meter", "1");
  answer("Insulation (such as", "OL");
  answer("OL of which meter?", "2");
  answer("The insulation of Defrost heater is not decided", "3");
  answer("its insulation was not read since", "0");
  EXPECT_EQ(run_program({"job", "--book", book, "close", "repaired", "--because", "sure"}).exit_code, 2);
  std::filesystem::remove_all(folder);
}

/// Who knows no option closes a good repair of no part all the same: what bars it is asked for.
TEST(TalkedClosing, AsksForWhatBarsIt) {
  std::string folder = "/tmp/ohmwright-talk-XXXXXX";
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  const std::string book = folder + "/jobs.db";
  std::vector<std::string> open{"job", "--book", book, "open", "Warm", "--appliance", "upright-timer-bimetal-120v"};
  for (const char* answer : {"tingles=no", "burning_smell=no", "refrigerant=R-134a", "frost=whole", "volts=118",
                             "room=24C", "tried=nothing"}) {
    open.emplace_back("--answer");
    open.emplace_back(answer);
  }
  ASSERT_EQ(run_program(open).exit_code, 0);
  ASSERT_EQ(run_program({"job", "--book", book, "read", "heater-alone=32"}).exit_code, 0);
  JobTerminal terminal(book);
  const auto answer = [&](const std::string& question, const std::string& typed) {
    ASSERT_TRUE(terminal.reaches_prompt());
    const std::string& screen = terminal.screen();
    ASSERT_THAT(screen.substr(screen.size() - std::min<std::size_t>(screen.size(), 2000)), HasSubstr(question));
    terminal.type(typed);
  };
  answer("Which call is it?", "1");
  answer("What do you see?", "1");
  answer("7  close the job, or wait", "7");
  answer("How does the job stand?", "1");
  answer("What was repaired?", "2");
  answer("no insulation tester read an", "1");
  answer("Whose insulation?", "1");
  answer("Insulation (such as", "200M");
  answer("7  close the job, or wait", "7");
  answer("How does the job stand?", "1");
  answer("What was repaired?", "2");
  answer("its earth bond was not read", "1");
  answer("Earth bond with its cord", "0.1");
  answer("7  close the job, or wait", "7");
  answer("How does the job stand?", "1");
  answer("What was repaired?", "2");
  answer("What was repaired", "a new gasket");
  answer("Which day is the customer called back", "tomorrow");
  answer("Which day is the customer called back", "");
  EXPECT_FALSE(terminal.reaches_prompt());
  EXPECT_THAT(terminal.screen(), HasSubstr("State: repaired"));
  std::filesystem::remove_all(folder);
}

/// What was measured before the new part went in holds no more; what was measured since is asked about.
TEST(TalkedTemperature, IsAskedForAnewAfterARepairAndWhetherItStillHolds) {
  std::string folder = "/tmp/ohmwright-talk-XXXXXX";
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  const std::string book = folder + "/jobs.db";
  std::vector<std::string> open{
      "job",       "--book",           book,     "open",   "Warm", "--appliance", "upright-thermistor-230v",
      "--symptom", "frost-whole-coil", "--zone", "coil=5F"};
  for (const char* answer : {"tingles=no", "burning_smell=no", "refrigerant=R-134a", "frost=whole", "volts=230",
                             "room=24C", "tried=nothing"}) {
    open.emplace_back("--answer");
    open.emplace_back(answer);
  }
  ASSERT_EQ(run_program(open).exit_code, 0);
  ASSERT_EQ(run_program({"job", "--book", book, "read", "sensor-plug=10.1k"}).exit_code, 1);
  ASSERT_EQ(run_program({"job", "--book", book, "replace", "sensor", "--new", "ntc-10k-b3977"}).exit_code, 0);
  const auto talk = [&](const std::vector<std::pair<std::string, std::string>>& answers) {
    JobTerminal terminal(book);
    for (const auto& [question, typed] : answers) {
      ASSERT_TRUE(terminal.reaches_prompt());
      const std::string& screen = terminal.screen();
      ASSERT_THAT(screen.substr(screen.size() - std::min<std::size_t>(screen.size(), 2000)), HasSubstr(question));
      terminal.type(typed);
    }
  };
  talk({{"Which call is it?", "1"},
        {"What do you see?", "1"},
        {"the ice melted", "1"},
        {"Read the new part", "1"},
        {"What it shows", "10.1k"},
        {"Temperature at the part, evaporator coil (such as 4C", "0"}});
  ASSERT_EQ(run_program({"job", "--book", book, "sign", "--zone", "coil=77F"}).exit_code, 0);
  talk({{"Which call is it?", "1"},
        {"Read the new part", "1"},
        {"What it shows", "10.1k"},
        {"still 77", "2"},
        {"insulation", "0"}});
  std::filesystem::remove_all(folder);
}

TEST(TalkedAgain, GoesOnAtTheQuestionWhereItWasStopped) {
  std::string folder = "/tmp/ohmwright-talk-XXXXXX";
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  const std::vector<std::string> answers = answers_of("heater_open");
  const auto question = [](const JobTerminal& terminal) {
    const std::vector<std::string> lines = lines_of(terminal.screen());
    std::string last;
    for (const std::string& line : lines)
      if (line.size() > 2 && line.compare(line.size() - 1, 1, "?") == 0) last = line;
    return last;
  };
  std::string asked;
  constexpr std::size_t questions = 5;  // the title, and what of the phone ends in a question mark
  for (std::size_t i = 0; i < questions; ++i) {
    JobTerminal terminal(folder + "/jobs.db");
    ASSERT_TRUE(terminal.reaches_prompt());
    if (i > 0) {
      terminal.type("1");  // go on with the job
      ASSERT_TRUE(terminal.reaches_prompt());
    }
    if (!asked.empty()) {
      EXPECT_EQ(question(terminal), asked) << "after answer " << i;
    }
    terminal.type(answers[i]);
    ASSERT_TRUE(terminal.reaches_prompt()) << terminal.screen();
    asked = question(terminal);
  }  // each ends by a kill
  std::filesystem::remove_all(folder);
}

}  // namespace
}  // namespace ohmwright
