// Full disk, read-only file, a newer version, damaged pages, something else: one clear line, and the file as it was.

#include <SQLiteCpp/SQLiteCpp.h>
#include <csignal>
#include <sys/resource.h>
#include <sys/stat.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "book_fixture.hpp"

namespace ohmwright {
namespace {

using ::testing::AllOf;
using testing::book_at;
using testing::bytes_of;
using ::testing::HasSubstr;
using ::testing::Not;
using testing::noted;
using testing::opening;
using testing::refusal_in_child;
using testing::refusal_of;
using testing::SteadySources;
using testing::TemporaryFolder;

std::string made_book(const TemporaryFolder& folder, int notes = 0) {
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a")});
  for (int i = 0; i < notes; ++i) book->add(number, std::vector<job::NewEntry>{noted(std::string(200, 'n'))});
  return folder.path("jobs.db");
}

void write_a_note(const std::string& path) {
  SteadySources steady;
  book_at(path, steady)->add(1, std::vector<job::NewEntry>{noted(std::string(4000, 'x'))});
}

TEST(JobBookTrouble, OfANewerVersionIsLeftAlone) {
  const TemporaryFolder folder;
  const std::string path = made_book(folder);
  SQLite::Database(path, SQLite::OPEN_READWRITE).exec("PRAGMA user_version = 99");
  const std::string before = bytes_of(path);
  EXPECT_THAT(refusal_of([&] { write_a_note(path); }),
              AllOf(HasSubstr("newer ohmwright (version 99"), HasSubstr(path)));
  EXPECT_EQ(bytes_of(path), before);
}

TEST(JobBookTrouble, SomethingElseIsLeftAlone) {
  const TemporaryFolder folder;
  const std::string other = folder.path("other.db");
  SQLite::Database(other, SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE).exec("CREATE TABLE t (a)");
  const std::string text =
      folder.write("text.db", "this is no database, and long enough to be looked at: " + std::string(600, 't'));
  for (const std::string& path : {other, text}) {
    const std::string before = bytes_of(path);
    EXPECT_THAT(refusal_of([&] { write_a_note(path); }), HasSubstr("left as it is")) << path;
    EXPECT_EQ(bytes_of(path), before);
  }
  EXPECT_THAT(refusal_of([&] { write_a_note(folder.path()); }), HasSubstr("is a folder"));
}

TEST(JobBookTrouble, AMissingBookNamesTheWayToBeginOne) {
  const TemporaryFolder folder;
  SteadySources steady;
  EXPECT_THAT(refusal_of([&] { job::JobBook(folder.path("no.db"), false, {}, steady.sources()); }),
              HasSubstr("ohmwright job open"));
  EXPECT_EQ(folder.entries(), 0);
}

TEST(JobBookTrouble, DamagedPagesAreToldAndNotWrittenOver) {
  const TemporaryFolder folder;
  const std::string path = made_book(folder, 60);
  std::string bytes = bytes_of(path);
  constexpr std::size_t page = 4096;
  ASSERT_GT(bytes.size(), 8 * page);
  for (std::size_t i = 2 * page; i < bytes.size(); ++i) bytes[i] = static_cast<char>(0xA5);  // all but the first two
  folder.write("jobs.db", bytes);
  const auto read_all = [&] {
    SteadySources steady;
    const auto book = book_at(path, steady);
    (void)book->entries(1);
    (void)book->list({}, 5);
  };
  EXPECT_THAT(refusal_of(read_all), AllOf(HasSubstr("is damaged and was left as it is"), HasSubstr("--book")));
  EXPECT_THAT(refusal_of([&] { write_a_note(path); }), HasSubstr("is damaged"));
  EXPECT_EQ(bytes_of(path), bytes);
}

TEST(JobBookTrouble, ACutFileIsToldAndNotWrittenOver) {
  const TemporaryFolder folder;
  const std::string path = made_book(folder, 60);
  const std::string bytes = bytes_of(path).substr(0, 5000);
  folder.write("jobs.db", bytes);
  EXPECT_THAT(refusal_of([&] { write_a_note(path); }), HasSubstr("left as it is"));
  EXPECT_EQ(bytes_of(path), bytes);
}

TEST(JobBookTrouble, AReadOnlyBookIsReadAndNotWritten) {
  const TemporaryFolder folder;
  const std::string path = made_book(folder);
  ::chmod(path.c_str(), 0444);
  const std::string before = bytes_of(path);
  EXPECT_THAT(refusal_in_child(testing::become_nobody, [&] { write_a_note(path); }),
              AllOf(HasSubstr("cannot be written"), HasSubstr("--book")));
  EXPECT_EQ(refusal_in_child(testing::become_nobody,
                             [&] {
                               SteadySources steady;
                               if (book_at(path, steady)->entries(1).size() != 1) throw std::runtime_error("not read");
                             }),
            "");
  EXPECT_EQ(bytes_of(path), before);
}

TEST(JobBookTrouble, AFileThatMayNotGrowLosesOnlyTheNewEntry) {
  const TemporaryFolder folder;
  const std::string path = made_book(folder, 10);
  const std::string before = bytes_of(path);
  const auto no_room = [&] {
    const rlimit limit{before.size(), before.size()};
    ::setrlimit(RLIMIT_FSIZE, &limit);
  };
  const std::string refused = refusal_in_child(no_room, [&] {
    for (int i = 0; i < 20; ++i) write_a_note(path);
  });
  EXPECT_THAT(refused, AllOf(HasSubstr("was not written down, what was before stays"), Not(HasSubstr("signal"))));
  SteadySources steady;
  const auto book = book_at(path, steady);
  EXPECT_TRUE(book->damage().empty());
  EXPECT_GE(book->entries(1).size(), 11U);
}

TEST(JobBookTrouble, IsMadeForItsOwnerAlone) {
  const TemporaryFolder folder;
  SteadySources steady;
  book_at(folder.path("new/deep/jobs.db"), steady)->open_job(std::vector<job::NewEntry>{opening("a")});
  struct stat status {};
  ASSERT_EQ(::stat(folder.path("new/deep/jobs.db").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0600U);
  ASSERT_EQ(::stat(folder.path("new/deep").c_str(), &status), 0);
  EXPECT_EQ(status.st_mode & 0777U, 0700U);
}

}  // namespace
}  // namespace ohmwright
