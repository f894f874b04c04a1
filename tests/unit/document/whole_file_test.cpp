// Both ways in which a file comes into its place, and what is left when the process ends in the middle of either. The
// system is made to answer as an older or poorer one would, by a filter on its calls in a child process.

#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <sys/stat.h>
#include <sys/syscall.h>

#include <gtest/gtest.h>

#include <ohmwright/document/write_file.hpp>

#include "system_calls.hpp"
#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

using testing::answer_calls;
using testing::bytes_of;
using testing::fail_with;
using testing::kill_at_call;
using testing::TemporaryFolder;

#ifdef SYS_rename
#define RENAMES SYS_rename, SYS_renameat2
#else
#define RENAMES SYS_renameat, SYS_renameat2
#endif

const std::string killed = "the child was ended by signal " + std::to_string(SIGSYS);
const std::string large(200'000, 'x');

bool has_nameless_files(const TemporaryFolder& folder) {
  const int file = ::open(folder.path().c_str(), O_TMPFILE | O_WRONLY, 0600);
  if (file >= 0) ::close(file);
  return file >= 0;
}

void refuse_nameless_files() {
  if (!answer_calls({SYS_openat}, fail_with(EOPNOTSUPP), 2, O_TMPFILE)) ::_exit(98);
}

std::string written_in_child(const std::function<void()>& before, const std::string& path) {
  return testing::refusal_in_child(before, [&] { write_file_atomically(path, large); });
}

class WholeFile : public ::testing::Test {
 protected:
  void SetUp() override {
    if (!has_nameless_files(folder_)) GTEST_SKIP() << "skipped: this file system has no files without a name";
    const std::string filters = testing::refusal_in_child(
        [] {}, [] { throw std::runtime_error(answer_calls({SYS_linkat}, kill_at_call) ? "there" : "none"); });
    if (filters != "there") GTEST_SKIP() << "skipped: this system has no filters on system calls";
  }

  TemporaryFolder folder_;
};

TEST_F(WholeFile, ThatIsNewLeavesNothingWhenKilledBeforeItHasItsName) {
  EXPECT_EQ(written_in_child([] { answer_calls({SYS_linkat}, kill_at_call); }, folder_.path("a.json")), killed);
  EXPECT_EQ(folder_.entries(), 0);
}

TEST_F(WholeFile, ThatReplacesLeavesTheOldOneAloneWhenKilledBeforeItHasItsName) {
  const std::string path = folder_.write("a.json", "old");
  EXPECT_EQ(written_in_child([] { answer_calls({SYS_linkat}, kill_at_call); }, path), killed);
  EXPECT_EQ(bytes_of(path), "old");
  EXPECT_EQ(folder_.entries(), 1);
}

TEST_F(WholeFile, ThatIsNewNeedsNoRename) {
  const std::string path = folder_.path("a.json");
  EXPECT_EQ(written_in_child([] { answer_calls({RENAMES}, kill_at_call); }, path), "");
  EXPECT_EQ(bytes_of(path), large);
}

TEST_F(WholeFile, IsWrittenWhereAllFilesHaveNames) {
  const std::string fresh = folder_.path("new.json");
  EXPECT_EQ(written_in_child(refuse_nameless_files, fresh), "");
  EXPECT_EQ(bytes_of(fresh), large);
  const std::string old = folder_.write("old.json", "old");
  ::chmod(old.c_str(), 0604);
  EXPECT_EQ(written_in_child(refuse_nameless_files, old), "");
  EXPECT_EQ(bytes_of(old), large);
  struct stat status {};
  ::stat(old.c_str(), &status);
  EXPECT_EQ(status.st_mode & 07777U, 0604U);
  EXPECT_EQ(folder_.entries(), 2);
}

TEST_F(WholeFile, IsWrittenWhereNothingNamelessCanGetAName) {
  const auto no_names = [] { answer_calls({SYS_linkat}, fail_with(ENOENT)); };  // as without /proc
  const std::string fresh = folder_.path("new.json");
  EXPECT_EQ(written_in_child(no_names, fresh), "");
  EXPECT_EQ(bytes_of(fresh), large);
  const std::string old = folder_.write("old.json", "old");
  EXPECT_EQ(written_in_child(no_names, old), "");
  EXPECT_EQ(bytes_of(old), large);
  EXPECT_EQ(folder_.entries(), 2);
}

TEST_F(WholeFile, ThatCannotGetItsNameSaysWhyAndLeavesNothing) {
  const std::string path = folder_.path("a.json");
  EXPECT_EQ(written_in_child([] { answer_calls({SYS_linkat}, fail_with(ENOSPC)); }, path),
            "cannot write " + path + ": the disk is full; nothing was written");
  EXPECT_EQ(written_in_child(
                [] {
                  refuse_nameless_files();
                  answer_calls({RENAMES}, fail_with(EACCES));
                },
                path),
            "cannot write " + path + ": you have no permission to; nothing was written");
  EXPECT_EQ(folder_.entries(), 0);
}

// Where all files have names, a kill between writing and renaming leaves one; it is hidden, and the old file is whole.
TEST_F(WholeFile, KilledWhereAllFilesHaveNamesLeavesTheOldOneWhole) {
  const std::string path = folder_.write("a.json", "old");
  EXPECT_EQ(written_in_child(
                [] {
                  refuse_nameless_files();
                  answer_calls({RENAMES}, kill_at_call);
                },
                path),
            killed);
  EXPECT_EQ(bytes_of(path), "old");
  EXPECT_EQ(folder_.entries(), 2);
}

/// A child writes the file again and again and is asked to end in the middle of it.
void write_until_asked_to_end(const std::string& path, bool nameless) {
  const pid_t child = ::fork();
  if (child == 0) {
    if (!nameless) refuse_nameless_files();
    for (;;) write_file_atomically(path, large);
  }
  ::usleep(20'000);
  ::kill(child, SIGTERM);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status) && WTERMSIG(status) == SIGTERM);
}

TEST_F(WholeFile, ASignalThatCanWaitLeavesNothingInEitherWay) {
  const std::string path = folder_.write("a.json", "old");
  for (int round = 0; round < 20; ++round) write_until_asked_to_end(path, round % 2 == 0);
  EXPECT_EQ(bytes_of(path), large);
  EXPECT_EQ(folder_.entries(), 1);
}

}  // namespace
}  // namespace ohmwright
