#include <sys/wait.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/trust.hpp>

#include "plugin_folder.hpp"

namespace ohmwright {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;

constexpr ::uid_t somebody_else = 54321;

std::vector<std::string> distrust(const std::filesystem::path& path, ::uid_t user = ::geteuid()) {
  try {
    open_trusted(path, user);
    return {};
  } catch (const PluginError& error) {
    EXPECT_EQ(error.category(), ErrorCategory::plugin);
    return error.reasons();
  }
}

TEST(Trust, AFileThatOnlyItsOwnerCanWriteIsOpened) {
  const test::PluginFolder folder;
  const auto path = folder.add("good");
  const TrustedFile file = open_trusted(path, ::geteuid());
  EXPECT_TRUE(file.descriptor.is_open());
  EXPECT_EQ(file.path, path);
  EXPECT_EQ(file.size, std::filesystem::file_size(path));
}

TEST(Trust, AFileThatOthersOrTheGroupCanWriteIsRefusedWithTheCommandThatMendsIt) {
  const test::PluginFolder folder;
  const auto path = folder.add("good");
  folder.set_mode(path, 0666);
  EXPECT_THAT(distrust(path), ElementsAre("others can write to the file (mode 0666); if you trust what is in it: "
                                          "chmod go-w " +
                                          path.string()));
  folder.set_mode(path, 0664);
  EXPECT_THAT(distrust(path), ElementsAre("others can write to the file (mode 0664); if you trust what is in it: "
                                          "chmod go-w " +
                                          path.string()));
  folder.set_mode(path, 0644);
  EXPECT_THAT(distrust(path), IsEmpty());
}

TEST(Trust, AFolderThatOthersCanWriteIsRefusedUnlessItIsSticky) {
  const test::PluginFolder folder;
  const auto path = folder.add("good", "a kind/good.ohmplug");
  folder.set_mode(path.parent_path(), 0777);
  const std::string reason = "others can write to the folder '" + path.parent_path().string() +
                             "' (mode 0777); if you trust what is in it: chmod go-w '" + path.parent_path().string() +
                             "'";
  EXPECT_THAT(distrust(path), ElementsAre(reason));
  EXPECT_THAT(distrust_of_folder(path.parent_path(), ::geteuid()), ElementsAre(reason));
  folder.set_mode(path.parent_path(), 01777);
  EXPECT_THAT(distrust(path), IsEmpty());
}

TEST(Trust, EverythingWrongIsToldAtOnce) {
  const test::PluginFolder folder;
  const auto path = folder.add("good", "kind/good.ohmplug");
  folder.set_mode(path.parent_path(), 0775);
  folder.set_mode(path, 0646);
  EXPECT_EQ(distrust(path).size(), 2U);
}

TEST(Trust, AFileOfAnotherUserIsRefused) {
  if (::geteuid() == 0) {
    const test::PluginFolder folder;
    const auto path = folder.add("good");
    ASSERT_EQ(::chown(path.c_str(), somebody_else, somebody_else), 0);
    EXPECT_THAT(distrust(path),
                ElementsAre("the file belongs to user 54321, neither to root nor to you (user 0); if you "
                            "trust it: chown 0 " +
                            path.string()));
  } else {
    GTEST_SKIP() << "giving a file to another user takes root";
  }
}

TEST(Trust, AFolderOfAnotherUserIsRefused) {
  if (::geteuid() != 0) GTEST_SKIP() << "giving a folder to another user takes root";
  const test::PluginFolder folder;
  const auto path = folder.add("good", "kind/good.ohmplug");
  ASSERT_EQ(::chown(path.parent_path().c_str(), somebody_else, somebody_else), 0);
  EXPECT_THAT(distrust(path),
              ElementsAre("the folder " + path.parent_path().string() +
                          " belongs to user 54321, neither to root nor to you (user 0); if you trust it: "
                          "chown 0 " +
                          path.parent_path().string()));
}

// As an unprivileged user: root's files are trusted, those of a third user are not, and the command says sudo.
TEST(Trust, HoldsForAnUnprivilegedUser) {
  if (::geteuid() != 0) GTEST_SKIP() << "becoming another user takes root";
  const test::PluginFolder folder;
  folder.set_mode(folder.path(), 0755);
  const auto of_root = folder.add("good");
  const auto of_third = folder.add("good", "third.ohmplug");
  const auto own = folder.add("good", "own.ohmplug");
  ASSERT_EQ(::chown(of_third.c_str(), somebody_else, somebody_else), 0);
  ASSERT_EQ(::chown(own.c_str(), 65534, 65534), 0);
  const ::pid_t child = ::fork();
  if (child == 0) {
    if (::setgid(65534) != 0 || ::setuid(65534) != 0) ::_exit(10);
    if (!distrust(of_root, ::geteuid()).empty()) ::_exit(11);
    if (!distrust(own, ::geteuid()).empty()) ::_exit(12);
    const std::vector<std::string> expected = {
        "the file belongs to user 54321, neither to root nor to you (user 65534); if you trust it: sudo chown 65534 " +
        of_third.string()};
    ::_exit(distrust(of_third, ::geteuid()) == expected ? 0 : 13);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_TRUE(WIFEXITED(status));
  EXPECT_EQ(WEXITSTATUS(status), 0);
}

TEST(Trust, WhatIsNoRegularFileIsRefusedWithoutWaitingForIt) {
  const test::PluginFolder folder;
  const auto pipe = folder.path() / "pipe.ohmplug";
  ASSERT_EQ(::mkfifo(pipe.c_str(), 0600), 0);
  EXPECT_THAT(distrust(pipe), ElementsAre("it is a pipe, not a regular file"));
  std::filesystem::create_directory(folder.path() / "folder.ohmplug");
  EXPECT_THAT(distrust(folder.path() / "folder.ohmplug"), ElementsAre("it is a folder, not a regular file"));
  EXPECT_THAT(distrust(folder.path() / "absent.ohmplug"),
              ElementsAre("it cannot be opened: No such file or directory"));
}

TEST(Trust, ASymbolicLinkIsAsTrustedAsWhatItLeadsTo) {
  const test::PluginFolder folder;
  const test::PluginFolder elsewhere;
  const auto target = elsewhere.add("good");
  const auto link = folder.path() / "link.ohmplug";
  std::filesystem::create_symlink(target, link);
  EXPECT_EQ(open_trusted(link, ::geteuid()).path, target);
  elsewhere.set_mode(elsewhere.path(), 0777);
  EXPECT_THAT(distrust(link),
              ElementsAre("others can write to the folder " + elsewhere.path().string() +
                          " (mode 0777); if you trust what is in it: chmod go-w " + elsewhere.path().string()));
}

TEST(ShellWord, CanBePastedIntoAShellAndHidesNothing) {
  EXPECT_EQ(shell_word("/usr/lib/a.ohmplug"), "/usr/lib/a.ohmplug");
  EXPECT_EQ(shell_word("/a b/c"), "'/a b/c'");
  EXPECT_EQ(shell_word("/it's"), "'/it'\\''s'");
  EXPECT_EQ(shell_word("/$(reboot)"), "'/$(reboot)'");
  EXPECT_EQ(shell_word("/a\x1b[2J'\\"), "$'/a\\x1b[2J\\'\\\\'");
  EXPECT_EQ(shell_word(""), "''");
}

}  // namespace
}  // namespace ohmwright
