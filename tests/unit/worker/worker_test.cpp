// Plugins that do what only a process of its own survives, as real libraries.

#include <csignal>
#include <filesystem>
#include <grp.h>
#include <string>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/guarded_judge.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "../../plugins/support/no_readings.hpp"
#include "../plugin/plugin_folder.hpp"

namespace ohmwright {
namespace {

using std::chrono::milliseconds;

WorkerSettings worker(milliseconds longest_answer = milliseconds(20'000)) {
  WorkerSettings settings{OHMWRIGHT_WORKER};
  settings.longest_answer = longest_answer;
  settings.memory_bytes = std::size_t{512} << 20U;
  settings.longest_line = std::size_t{1} << 20U;
  return settings;
}

/// A registry whose installation is empty, so that everything runs in workers.
Registry registry_of(const test::PluginFolder& folder, const WorkerSettings& settings) {
  return {{"/no/installation", folder.path()}, ::geteuid(), {.allowed = {}, .worker = settings}};
}

/// What a judgement of nothing gives: the outcome, or why there is none.
std::string judged(const LoadedKind& kind) {
  std::vector<Problem> problems;
  const auto part = kind.make_part(nullptr, problems);
  if (part == nullptr) return "no part";
  const auto verdict = judge_guarded(*part, kind.descriptor(), fixture::no_readings(kind.descriptor()), {});
  if (const auto* failed = std::get_if<NotJudged>(&verdict)) return failed->text;
  return std::string(name_of(std::get<Verdict>(verdict).outcome));
}

struct Misdeed {
  std::string fixture;
  std::string said;
  milliseconds longest_answer{20'000};
};

void PrintTo(const Misdeed& misdeed, std::ostream* out) { *out << misdeed.fixture; }

class Worker : public testing::TestWithParam<Misdeed> {};

/// The result is lost and named, twice; a plugin beside it is judged before, between and after.
TEST_P(Worker, LosesOneResultAndNamesIt) {
#ifdef OHMWRIGHT_SANITIZED
  if (GetParam().fixture == "hungry_in_judge") GTEST_SKIP() << "a sanitizer maps more memory than any limit allows";
#endif
  const test::PluginFolder folder;
  folder.add(GetParam().fixture);
  folder.add("good");
  const Registry registry = registry_of(folder, worker(GetParam().longest_answer));
  std::string id = GetParam().fixture;
  for (char& letter : id)
    if (letter == '_') letter = '-';
  EXPECT_EQ(judged(registry.kind("good-part")), "undecided");
  for (int attempt = 0; attempt < 2; ++attempt) {
    EXPECT_EQ(judged(registry.kind(id)), "not judged: the plugin failed: " + GetParam().said);
    EXPECT_EQ(judged(registry.kind("good-part")), "undecided");
  }
}

const std::vector<Misdeed> misdeeds = {
    {"crashes_in_judge", "it ended its process by signal 11 (Segmentation fault)"},
    {"hangs_in_judge", "it gave no answer within 300 ms", milliseconds(300)},
    {"exits_in_judge", "it ended its process with code 0"},
    {"floods_in_judge", "its answer has more than 1048576 bytes"},
    {"hungry_in_judge", "it asked for more memory than the 512 MiB that its worker process may have"},
    {"not_a_number_in_judge", "its rule \"reads-something\" gave something that is not a number"},
    {"unknown_verdict_in_judge", "its rule \"reads-something\" gave an outcome that it does not declare"},
    {"throws_in_judge", "the curve has no value there"},
    // The rights that its process has: none of those that it tries.
    {"takes_rights_in_judge", "it may:"},
    {"answers_too_deep_in_judge", "its answer is not as it should be"},
};

INSTANTIATE_TEST_SUITE_P(Misdeeds, Worker, testing::ValuesIn(misdeeds),
                         [](const auto& misdeed) { return misdeed.param.fixture; });

/// What a call into a plugin threw.
template <class Call>
std::string thrown_by(Call&& call) {
  try {
    call();
  } catch (const Error& error) {
    return error.what();
  }
  return "nothing";
}

TEST(WorkerParts, WhatIsNoModelExpectationFitOrComparisonIsRefused) {
  const test::PluginFolder folder;
  folder.add("misleads_in_models");
  const Registry registry = registry_of(folder, worker());
  const LoadedKind& kind = registry.kind("misleads-in-models");
  std::vector<Problem> problems;
  const auto part = kind.make_part(nullptr, problems);
  std::vector<Element> elements;
  EXPECT_EQ(thrown_by([&] { part->electrical_model(not_found, Situation(), elements); }),
            "its electrical model gives an element whose value is not a number");
  EXPECT_THAT(thrown_by([&] { (void)part->expect(0, Situation()); }),
              testing::HasSubstr("what it expects of \"resistance\" is of another dimension"));
  const std::vector<MeasuredRow> rows = {{AnyQuantity(Dimension::temperature, 300.0), 0.0, OverRange{}}};
  EXPECT_EQ(thrown_by([&] { (void)kind.kind().fit({0, 0, rows}); }), "its fit speaks of a row that there is not");
  EXPECT_EQ(thrown_by([&] { (void)kind.kind().compare(*part, *part, {}); }),
            "its comparison gives an outcome that there is not");
  EXPECT_EQ(judged(kind), "undecided");
}

TEST(WorkerParts, APluginThatDoesNotComeBackIsAskedNoMoreAfterThreeTimes) {
  const test::PluginFolder folder;
  folder.add("hangs_in_judge");
  const Registry registry = registry_of(folder, worker(milliseconds(200)));
  const LoadedKind& kind = registry.kind("hangs-in-judge");
  for (int attempt = 0; attempt < 3; ++attempt)
    EXPECT_EQ(judged(kind), "not judged: the plugin failed: it gave no answer within 200 ms");
  EXPECT_THAT(thrown_by([&] { judged(kind); }),
              testing::HasSubstr("it gave no answer within 200 ms, 3 times, and is asked no more"));
}

TEST(WorkerLoading, ACrashIsARefusal) {
  const test::PluginFolder folder;
  const auto path = folder.add("crashes_in_loading");
  const Registry registry = registry_of(folder, worker());
  try {
    registry.kind("crashes-in-loading");
    FAIL() << "it was loaded";
  } catch (const PluginError& error) {
    EXPECT_EQ(std::string(error.what()),
              path.string() + ": plugin refused: it ended its process by signal 11 (Segmentation fault)");
  }
}

/// Judges by that plugin as a user other than root: the worker, being of the same user, could signal this process.
/// Gives 0 where it lived to judge.
int judged_without_root() {
  constexpr ::uid_t nobody = 65534;
  constexpr int cannot_be_tried = 77;
  const test::PluginFolder folder;  // made as who the test runs as; readable by all
  folder.add("has_its_host_signalled");
  const ::pid_t child = ::fork();
  if (child == 0) {
    if (::geteuid() == 0 && (::setgroups(0, nullptr) != 0 || ::setresgid(nobody, nobody, nobody) != 0 ||
                             ::setresuid(nobody, nobody, nobody) != 0))
      ::_exit(cannot_be_tried);
    if (::access(OHMWRIGHT_WORKER, X_OK) != 0 || ::access(folder.path().c_str(), X_OK) != 0) ::_exit(cannot_be_tried);
    const Registry registry = registry_of(folder, worker());
    ::_exit(judged(registry.kind("has-its-host-signalled")) == "undecided" ? 0 : 1);
  }
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -WTERMSIG(status);
}

TEST(WorkerLoading, ALineThatIsMadeToSignalTheProgramDoesNotEndIt) {
  const int ending = judged_without_root();
  if (ending == 77) GTEST_SKIP() << "another user than root cannot be had here, or cannot read the build folder";
  EXPECT_EQ(ending, 0);
}

TEST(WorkerLoading, RefusesWithTheReasonsThatThePluginGetsInTheProgram) {
  const test::PluginFolder folder;
  const auto path = folder.add("throws_in_factory");
  const Registry registry = registry_of(folder, worker());
  try {
    registry.kind("throws-in-factory");
    FAIL() << "it was loaded";
  } catch (const PluginError& error) {
    EXPECT_EQ(std::string(error.what()), path.string() +
                                             ": plugin refused: making the kind \"throws-in-factory\" failed: no wish "
                                             "to be made");
  }
}

TEST(WorkerLoading, AMissingWorkerIsNamed) {
  const test::PluginFolder folder;
  folder.add("good");
  WorkerSettings settings = worker();
  settings.program = "/no/such/worker";
  const Registry registry = registry_of(folder, settings);
  try {
    registry.kind("good-part");
    FAIL() << "it was loaded";
  } catch (const PluginError& error) {
    EXPECT_THAT(error.what(), testing::HasSubstr("its worker process cannot be started: /no/such/worker"));
  }
}

TEST(WorkerLoading, PluginsOfTheInstallationRunInTheProgram) {
  const test::PluginFolder folder;
  folder.add("good");
  WorkerSettings settings = worker();
  settings.program = "/no/such/worker";
  const Registry registry({folder.path()}, ::geteuid(), {.allowed = {}, .worker = settings});
  EXPECT_EQ(judged(registry.kind("good-part")), "undecided");
}

TEST(WorkerLoading, AReaderOfKindFilesMustLieInTheInstallation) {
  const test::PluginFolder folder;
  folder.add("reader");
  const std::string text = R"({"kind":"x"})";
  const auto* bytes = reinterpret_cast<const std::byte*>(text.data());
  folder.write("x.kind.json", {bytes, bytes + text.size()});
  const Registry registry = registry_of(folder, worker());
  EXPECT_THROW(registry.kind("x"), PluginError);
}

TEST(WorkerParts, TakesItsTurnsAmongThreads) {
  const test::PluginFolder folder;
  folder.add("good");
  const Registry registry = registry_of(folder, worker());
  const LoadedKind& kind = registry.kind("good-part");
  std::vector<std::string> said(4);
  std::vector<std::thread> threads;
  for (std::string& one : said)
    threads.emplace_back([&] {
      for (int i = 0; i < 20; ++i) one = judged(kind);
    });
  for (std::thread& thread : threads) thread.join();
  EXPECT_THAT(said, testing::Each("undecided"));
}

TEST(WorkerParts, APartOutlivesItsRegistry) {
  const test::PluginFolder folder;
  folder.add("good");
  std::shared_ptr<const Part> part;
  {
    const Registry registry = registry_of(folder, worker());
    std::vector<Problem> problems;
    part = registry.kind("good-part").make_part(nullptr, problems);
  }
  Findings findings;
  const Descriptor descriptor = [] {
    Descriptor made;
    made.rules.resize(1);
    return made;
  }();
  part->judge(fixture::no_readings(descriptor), {}, findings);
  EXPECT_EQ(findings.findings().size(), 1U);
}

}  // namespace
}  // namespace ohmwright
