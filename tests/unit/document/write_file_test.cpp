#include <csignal>
#include <fcntl.h>
#include <sched.h>
#include <sys/mount.h>
#include <sys/resource.h>
#include <sys/stat.h>

#include <gtest/gtest.h>

#include <ohmwright/document/write_file.hpp>

#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

namespace fs = std::filesystem;
using testing::bytes_of;
using testing::refusal_of;
using testing::TemporaryFolder;

std::string refusal(const std::string& path, std::string_view bytes = "new") {
  return refusal_of([&] { write_file_atomically(path, bytes); });
}

mode_t mode_of(const std::string& path) {
  struct stat status {};
  ::stat(path.c_str(), &status);
  return status.st_mode & 07777U;
}

TEST(WriteFile, WritesANewFileWithTheUsersDefaultPermissions) {
  const TemporaryFolder folder;
  const mode_t before = ::umask(027);
  write_file_atomically(folder.path("a.json"), std::string(1'000'000, 'x'));
  ::umask(before);
  EXPECT_EQ(bytes_of(folder.path("a.json")).size(), 1'000'000U);
  EXPECT_EQ(mode_of(folder.path("a.json")), 0640U);
  EXPECT_EQ(folder.entries(), 1);
}

TEST(WriteFile, ReplacesAFileAndKeepsItsPermissions) {
  const TemporaryFolder folder;
  const std::string path = folder.write("a.json", "old and longer");
  ::chmod(path.c_str(), 0604);
  write_file_atomically(path, "new");
  EXPECT_EQ(bytes_of(path), "new");
  EXPECT_EQ(mode_of(path), 0604U);
  EXPECT_EQ(folder.entries(), 1);
}

TEST(WriteFile, KeepsPermissionsOnlyAsFarAsTheUmaskAllowsAndLendsNobodysRights) {
  const TemporaryFolder folder;
  const std::string path = folder.write("a.json", "old");
  const mode_t before = ::umask(027);
  ::chmod(path.c_str(), 06777);
  write_file_atomically(path, "new");
  ::umask(before);
  EXPECT_EQ(bytes_of(path), "new");
  EXPECT_EQ(mode_of(path), 0750U);
}

TEST(WriteFile, ShowsNoControlCharacterOfAName) {
  const TemporaryFolder folder;
  EXPECT_EQ(refusal(folder.path("a\x1b[31m\n\a/b\x7f")), "cannot write " + folder.path("a\\x1b[31m\\n\\x07/b\\x7f") +
                                                             ": there is no folder " +
                                                             folder.path("a\\x1b[31m\\n\\x07") + "; make it first");
}

TEST(WriteFile, ReplacesNoDatabase) {
  const TemporaryFolder folder;
  const std::string path = folder.path("jobs.db");
  // SQLite, Database File Format, 1.2: "SQLite format 3" and a zero byte
  const std::string book = std::string("SQLite format 3\0", 16) + "and all calls of years";
  std::ofstream(path, std::ios::binary) << book;
  EXPECT_EQ(refusal(path), "cannot write " + path + ": a database is there, such as a job book; choose another name");
  EXPECT_EQ(bytes_of(path), book);
}

TEST(WriteFile, WritesIntoTheCurrentFolder) {
  const TemporaryFolder folder;
  const fs::path before = fs::current_path();
  fs::current_path(folder.path());
  write_file_atomically("plain.json", "new");
  fs::current_path(before);
  EXPECT_EQ(bytes_of(folder.path("plain.json")), "new");
}

TEST(WriteFile, FollowsASymbolicLinkAndLeavesItInPlace) {
  const TemporaryFolder folder;
  fs::create_directory(folder.path("data"));
  folder.write("data/real.json", "old");
  fs::create_symlink("data/real.json", folder.path("link.json"));
  fs::create_symlink("link.json", folder.path("second.json"));
  write_file_atomically(folder.path("second.json"), "new");
  EXPECT_EQ(bytes_of(folder.path("data/real.json")), "new");
  EXPECT_TRUE(fs::is_symlink(folder.path("link.json")));
  EXPECT_TRUE(fs::is_symlink(folder.path("second.json")));
  fs::create_symlink("data/fresh.json", folder.path("dangling.json"));
  write_file_atomically(folder.path("dangling.json"), "new");
  EXPECT_EQ(bytes_of(folder.path("data/fresh.json")), "new");
  fs::create_symlink("circle.json", folder.path("circle.json"));
  EXPECT_EQ(refusal(folder.path("circle.json")),
            "cannot write " + folder.path("circle.json") + ": its symbolic links lead in a circle");
}

TEST(WriteFile, SaysWhatStandsInTheWay) {
  const TemporaryFolder folder;
  folder.write("file", "");
  EXPECT_EQ(refusal(""), "cannot write a file without a name");
  EXPECT_EQ(refusal(folder.path()), "cannot write " + folder.path() + ": it is a folder; name a file in it");
  EXPECT_EQ(refusal(folder.path("new/")), "cannot write " + folder.path("new/") + ": a file's name does not end in /");
  EXPECT_EQ(refusal(folder.path("no/a.json")), "cannot write " + folder.path("no/a.json") + ": there is no folder " +
                                                   folder.path("no") + "; make it first");
  EXPECT_EQ(refusal(folder.path("file/a.json")), "cannot write " + folder.path("file/a.json") +
                                                     ": there is no folder " + folder.path("file") + "; make it first");
  const std::string long_name = folder.path(std::string(300, 'n'));
  EXPECT_EQ(refusal(long_name), "cannot write " + long_name + ": the name is too long; nothing was written");
  EXPECT_EQ(folder.entries(), 1);
}

TEST(WriteFile, RespectsReadOnlyFilesAndFolders) {
  const TemporaryFolder folder;
  ::chmod(folder.path().c_str(), 0777);
  const std::string file = folder.write("a.json", "old");
  ::chmod(file.c_str(), 0444);
  fs::create_directory(folder.path("closed"));
  const std::string inside = folder.path("closed/a.json");
  EXPECT_EQ(testing::refusal_in_child(testing::become_nobody, [&] { write_file_atomically(file, "new"); }),
            "cannot write " + file + ": the file is read-only");
  EXPECT_EQ(testing::refusal_in_child(testing::become_nobody, [&] { write_file_atomically(inside, "new"); }),
            "cannot write " + inside + ": you have no permission to (in the folder " + folder.path("closed") + ")");
  EXPECT_EQ(bytes_of(file), "old");
}

TEST(WriteFile, AFileTooLargeForTheLimitLeavesTheOldOneAndNothingElse) {
  const TemporaryFolder folder;
  const std::string path = folder.write("a.json", "old");
  const auto limit = [] {
    const rlimit small{4096, 4096};
    ::setrlimit(RLIMIT_FSIZE, &small);
    ::signal(SIGXFSZ, SIG_DFL);  // which would end the process
  };
  EXPECT_EQ(testing::refusal_in_child(limit, [&] { write_file_atomically(path, std::string(10'000, 'x')); }),
            "cannot write " + path + ": it would be larger than the system allows a file to be; nothing was written");
  EXPECT_EQ(bytes_of(path), "old");
  EXPECT_EQ(folder.entries(), 1);
}

TEST(WriteFile, AFullDiskLeavesTheOldFileAndNothingElse) {
  const TemporaryFolder folder;
  const std::string path = folder.path("a.json");
  const std::string no_right = "no right to mount";
  const std::string said = testing::refusal_in_child(
      [] {},
      [&] {
        if (::unshare(CLONE_NEWNS) != 0 || ::mount("none", "/", nullptr, MS_REC | MS_PRIVATE, nullptr) != 0 ||
            ::mount("tmpfs", folder.path().c_str(), "tmpfs", 0, "size=64k") != 0)
          throw std::runtime_error(no_right);
        write_file_atomically(path, "old");
        const std::string why = refusal(path, std::string(200'000, 'x'));
        if (bytes_of(path) != "old" || folder.entries() != 1)
          throw std::runtime_error("something half-written was left");
        throw std::runtime_error(why);
      });
  if (said == no_right) GTEST_SKIP() << "skipped: no right to mount a small disk; RLIMIT_FSIZE stands in";
  EXPECT_EQ(said, "cannot write " + path + ": the disk is full; nothing was written");
}

TEST(WriteFile, WritesDevicesAndPipesStraight) {
  const TemporaryFolder folder;
  EXPECT_EQ(refusal("/dev/null"), "");
  EXPECT_EQ(refusal("/dev/full"), "cannot write /dev/full: the disk is full");
  const std::string pipe = folder.path("pipe");
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  const int end = ::open(pipe.c_str(), O_RDWR);
  write_file_atomically(pipe, "new");
  char got[4]{};
  EXPECT_EQ(::read(end, got, sizeof got), 3);
  ::close(end);
  EXPECT_TRUE(fs::is_fifo(pipe));
}

// Where standard output leads into a file, /dev/stdout must add to it: neither replace it nor overwrite its beginning.
TEST(WriteFile, StandardOutputThatIsAFileIsContinued) {
  const TemporaryFolder folder;
  const std::string log = folder.path("log");
  fs::create_symlink("/dev/stdout", folder.path("out"));
  const auto redirect = [&] {
    const int file = ::open(log.c_str(), O_WRONLY | O_CREAT, 0600);
    ::dup2(file, STDOUT_FILENO);
    ::dup2(file, 9);
  };
  EXPECT_EQ(testing::refusal_in_child(redirect,
                                      [&] {
                                        write_file_atomically("/dev/stdout", "one ");
                                        write_file_atomically("/dev/fd/9", "two ");
                                        write_file_atomically("/proc/self/fd/1", "three ");
                                        write_file_atomically(folder.path("out"), "four");
                                      }),
            "");
  EXPECT_EQ(bytes_of(log), "one two three four");
}

}  // namespace
}  // namespace ohmwright
