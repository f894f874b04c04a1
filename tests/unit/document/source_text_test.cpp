#include <fcntl.h>
#include <sys/stat.h>
#include <thread>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/document/document.hpp>
#include <ohmwright/document/named_file.hpp>
#include <ohmwright/document/source_text.hpp>

#include "temporary_folder.hpp"

namespace ohmwright {
namespace {

using testing::refusal_of;
using testing::TemporaryFolder;

std::string refusal(const std::string& path) {
  return refusal_of([&] { read_document(path); });
}

TEST(SourceText, ReadsAFile) {
  const TemporaryFolder folder;
  EXPECT_EQ(read_document(folder.write("a.json", "[1]")).root.array()->size(), 1U);
}

TEST(SourceText, SuggestsTheNameThatWasMeant) {
  const TemporaryFolder folder;
  folder.write("readings.json", "[]");
  const std::string wrong = folder.path("raedings.json");
  EXPECT_EQ(refusal(wrong), wrong + ": not found; did you mean \"readings.json\"?");
  const std::string bare = folder.path("readings");
  EXPECT_EQ(refusal(bare), bare + ": not found; did you mean \"readings.json\"?");
  const std::string other = folder.path("x.txt");
  EXPECT_EQ(refusal(other), other + ": not found");
  const std::string nowhere = folder.path("no/such/file.json");
  EXPECT_EQ(refusal(nowhere), nowhere + ": not found: there is no folder \"" + folder.path("no/such") + '"');
  EXPECT_EQ(refusal(""), "(no name): the name of the file is empty");
}

TEST(SourceText, RefusesAFolderAndADevice) {
  const TemporaryFolder folder;
  EXPECT_EQ(refusal(folder.path()), folder.path() + ": is a folder; expected a file");
  EXPECT_EQ(refusal("/dev/zero"), "/dev/zero: is a device; expected a file (\"-\" reads standard input)");
}

TEST(SourceText, RefusesALargeFileByItsSizeWithoutReadingIt) {
  const TemporaryFolder folder;
  const std::string path = folder.write("large.json", "");
  std::filesystem::resize_file(path, 100'000'000);  // sparse
  EXPECT_EQ(refusal(path), path + ": is 100.0 MB long; a document has at most 16.8 MB");
}

TEST(SourceText, RefusesAFileThatIsNotForThisUser) {
  const TemporaryFolder folder;
  const std::string path = folder.write("secret.json", "[]");
  ::chmod(path.c_str(), 0);
  EXPECT_EQ(testing::refusal_in_child(testing::become_nobody, [&] { read_document(path); }),
            path + ": cannot be read: you have no permission to");
}

TEST(SourceText, ReadsAPipeThatSomebodyWritesTo) {
  const TemporaryFolder folder;
  const std::string path = folder.path("pipe");
  ASSERT_EQ(::mkfifo(path.c_str(), 0600), 0);
  EXPECT_EQ(refusal(path), path + ": is a pipe that nobody writes to");
  const int both = ::open(path.c_str(), O_RDWR);  // keeps the pipe open, so that the writer does not wait
  ASSERT_EQ(::write(both, "[1, 2]", 6), 6);
  std::thread closing([both] {
    ::usleep(50'000);
    ::close(both);
  });
  EXPECT_EQ(read_document(path).root.array()->size(), 2U);
  closing.join();
}

TEST(SourceText, ReadsStandardInput) {
  const TemporaryFolder folder;
  const std::string path = folder.write("a.json", "[1,]");
  const auto from_file = [&] {
    const int file = ::open(path.c_str(), O_RDONLY);
    ::dup2(file, STDIN_FILENO);
  };
  EXPECT_EQ(testing::refusal_in_child(from_file, [] { read_document("-"); }),
            "standard input:1: a comma before \"]\"; remove it");
}

TEST(NamedFile, FindsAFileByItsNameOrSaysWhatThereIs) {
  const TemporaryFolder folder;
  folder.write("basic.json", "");
  folder.write("good.json", "");
  folder.write("notes.txt", "");
  EXPECT_EQ(named_file(folder.path(), "good", "meter"), folder.path("good.json"));
  EXPECT_EQ(
      refusal_of([&] { named_file(folder.path(), "basik", "meter"); }),
      "there is no meter \"basik\" in " + folder.path() + "; did you mean \"basic\"? There is \"basic\" or \"good\"");
  EXPECT_EQ(refusal_of([&] { named_file(folder.path("none"), "x", "meter"); }),
            "there is no meter \"x\" in " + folder.path("none") + ", which holds no JSON files");
  EXPECT_EQ(refusal_of([&] { named_file(folder.path(), "../basic", "meter"); }).substr(0, 28),
            "there is no meter \"../basic\"");
}

}  // namespace
}  // namespace ohmwright
