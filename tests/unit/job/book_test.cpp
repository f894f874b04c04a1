// What is in a book stays in it, each entry whole or not at all, and books merge without loss or doubles.

#include <SQLiteCpp/SQLiteCpp.h>

#include <gtest/gtest.h>

#include <ohmwright/job/book_tables.hpp>
#include <ohmwright/job/entry_lines.hpp>
#include <ohmwright/job/service_call.hpp>

#include "book_fixture.hpp"

namespace ohmwright {
namespace {

using testing::book_at;
using testing::noted;
using testing::opening;
using testing::refusal_of;
using testing::SteadySources;
using testing::TemporaryFolder;

TEST(JobBook, GivesBackWhatWasWrittenWithTimeWhoAndTool) {
  const TemporaryFolder folder;
  SteadySources steady;
  std::int64_t number = 0;
  {
    const auto book = book_at(folder.path("jobs.db"), steady);
    number = book->open_job(std::vector<job::NewEntry>{opening("Freezer warm")});
    book->add(number, std::vector<job::NewEntry>{noted("gasket \"torn\"; DROP TABLE entry; --\n<b>")});
  }
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::vector<job::Entry> entries = book->entries(number);
  ASSERT_EQ(entries.size(), 2U);
  EXPECT_EQ(entries[0].form, "opened");
  EXPECT_EQ(entries[1].who, "tester");
  EXPECT_EQ(entries[1].tool, "test 1");
  EXPECT_EQ(entries[1].recorded, "2023-11-14T22:13:22.000Z");  // 1,700,000,002 s: date -u -d @1700000002
  EXPECT_EQ(job::told(entries).notes.front().text, "gasket \"torn\"; DROP TABLE entry; --\n<b>");
  EXPECT_EQ(folder.entries(), 1) << "one file at rest: no journal, no log beside it";
}

TEST(JobBook, RefusesToChangeOrDeleteWhateverAsks) {
  const TemporaryFolder folder;
  SteadySources steady;
  book_at(folder.path("jobs.db"), steady)->open_job(std::vector<job::NewEntry>{opening("a")});
  SQLite::Database database(folder.path("jobs.db"), SQLite::OPEN_READWRITE);
  for (const char* change :
       {"UPDATE entry SET content = '{}'", "DELETE FROM entry", "UPDATE job SET id = upper(id)", "DELETE FROM job",
        "REPLACE INTO job (number, id) SELECT number, id FROM job", "REPLACE INTO entry SELECT * FROM entry"})
    EXPECT_THROW(database.exec(change), SQLite::Exception) << change;
  EXPECT_EQ(database.execAndGet("SELECT count(*) FROM entry").getInt(), 1);
}

TEST(JobBook, TimesOfAJobNeverGoBack) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a")});
  steady.now -= 3'600'000;  // the clock was set back by an hour
  book->add(number, std::vector<job::NewEntry>{noted("later"), noted("latest")});
  const std::vector<job::Entry> entries = book->entries(number);
  ASSERT_EQ(entries.size(), 3U);
  EXPECT_LT(entries[0].recorded, entries[1].recorded);
  EXPECT_LT(entries[1].recorded, entries[2].recorded);
}

TEST(JobBook, AllEntriesOfACallAreThereOrNone) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a")});
  EXPECT_NE(refusal_of([&] {
              book->add(number, std::vector<job::NewEntry>{noted("good"), {job::EntryForm::note, "no JSON"}});
            }),
            "");
  EXPECT_EQ(book->entries(number).size(), 1U);
  EXPECT_TRUE(book->damage().empty());
}

/// Two phones on one book: what the one decided on what it had read is not written after the other wrote.
TEST(JobBook, RefusesWhatWasDecidedBeforeAnotherWrote) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto here = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = here->open_job(std::vector<job::NewEntry>{opening("a")});
  const auto there = book_at(folder.path("jobs.db"), steady);
  const std::size_t seen = here->entries(number).size();
  there->add(number, std::vector<job::NewEntry>{noted("insulation 0.2 MOhm")}, seen);
  EXPECT_THROW(here->add(number, std::vector<job::NewEntry>{{job::EntryForm::state, R"({"state":"repaired"})"}}, seen),
               job::WrittenMeanwhile);
  EXPECT_EQ(here->job_named("1").state, "open");
  EXPECT_EQ(here->entries(number).size(), 2U) << "nothing of it was written";
  here->add(number, std::vector<job::NewEntry>{noted("again")}, here->entries(number).size());
}

TEST(JobBook, ListsByStateAndFindsByNumberOrIdentifier) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t first = book->open_job(std::vector<job::NewEntry>{opening("first")});
  const std::int64_t second = book->open_job(std::vector<job::NewEntry>{opening("second")});
  EXPECT_EQ(book->at_hand()->number, second);
  book->add(second, std::vector<job::NewEntry>{{job::EntryForm::state, R"({"state":"repaired"})"}});
  EXPECT_EQ(book->at_hand()->number, first);
  EXPECT_EQ(book->count(job::JobState::open), 1U);
  EXPECT_EQ(book->list(job::JobState::repaired, 5).front().title, "second");
  const job::JobLine line = book->job_named("1");
  EXPECT_EQ(book->job_named(line.id.substr(0, 8)).number, first);
  EXPECT_EQ(refusal_of([&] { (void)book->job_named("77"); }), "the book has no job \"77\"; see: ohmwright job list");
  EXPECT_NE(refusal_of([&] { (void)book->job_named("' OR 1=1 --"); }), "");
}

TEST(JobBook, TakingAStateBackGivesTheOneBefore) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a")});
  const std::vector<std::string> ids =
      book->add(number, std::vector<job::NewEntry>{{job::EntryForm::state, R"({"state":"declined"})"}});
  EXPECT_EQ(book->job_named("1").state, "declined");
  book->add(number, std::vector<job::NewEntry>{{job::EntryForm::taken_back, "{}", {}, ids[0]}});
  EXPECT_EQ(book->job_named("1").state, "open");
  EXPECT_EQ(job::told(book->entries(number)).state, job::JobState::open);
}

std::vector<job::MovedEntry> all_of(const job::JobBook& book) {
  std::string lines;
  book.each_entry(std::nullopt, [&](const job::MovedEntry& moved) { lines += job::entry_line(moved); });
  return job::entries_of_lines(lines, "export", SteadySources{}.now + 86'400'000);
}

TEST(JobBook, MergesByIdentifiersWithoutLossOrDoubles) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto here = book_at(folder.path("here.db"), steady);
  const auto there = book_at(folder.path("there.db"), steady);
  here->open_job(std::vector<job::NewEntry>{opening("both"), noted("<script>\x1b[31m\u202e")});
  there->merge(all_of(*here));
  here->add(1, std::vector<job::NewEntry>{noted("written here")});
  there->add(1, std::vector<job::NewEntry>{noted("written there")});
  there->open_job(std::vector<job::NewEntry>{opening("only there")});
  const job::Merged first = here->merge(all_of(*there));
  EXPECT_EQ(first.new_jobs, 1U);
  EXPECT_EQ(first.new_entries, 2U);
  EXPECT_EQ(first.known_entries, 2U);
  const job::Merged again = here->merge(all_of(*there));
  EXPECT_EQ(again.new_entries + again.new_jobs, 0U);
  there->merge(all_of(*here));
  EXPECT_EQ(all_of(*here).size(), 5U);
  EXPECT_EQ(here->entries(1), there->entries(1));
  EXPECT_EQ(job::told(here->entries(1)).notes.size(), 3U);
}

TEST(JobBook, RefusesAnEntryThatWasChangedOutside) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  book->open_job(std::vector<job::NewEntry>{opening("a")});
  std::vector<job::MovedEntry> entries = all_of(*book);
  entries.front().entry.content = R"({"title":"b"})";
  EXPECT_NE(refusal_of([&] { book->merge(entries); }).find("stands in the book with another content"),
            std::string::npos);
}

/// What add() took, a line holds: one that it could not hold would bar every export and import of the book.
TEST(JobBook, GivesOutWhateverItTook) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a")});
  const auto of_bytes = [](std::size_t bytes) {
    std::string content = R"({"place":"p","shown":"1","readings":[1)";
    while (content.size() + 4 <= bytes) content += ",1";
    return job::NewEntry{job::EntryForm::reading, content + "]}"};
  };
  const job::NewEntry largest = of_bytes(job::longest_content);
  book->add(number, std::vector<job::NewEntry>{largest});
  ASSERT_EQ(all_of(*book).size(), 2U);
  EXPECT_EQ(all_of(*book)[1].entry.content, largest.content);
  EXPECT_NE(refusal_of([&] {
              book->add(number, std::vector<job::NewEntry>{noted("n"), of_bytes(job::longest_content + 10)});
            }).find("nothing was written"),
            std::string::npos);
  EXPECT_EQ(book->entries(number).size(), 2U);
}

TEST(JobBook, KnowsWhatWasWrittenDownTogether) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const job::NewEntry phone{job::EntryForm::phone, R"({"tingles":"no"})"};
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a"), noted("b")});
  book->add(number, std::vector<job::NewEntry>{noted("c")});
  book->add(number, std::vector<job::NewEntry>{{job::EntryForm::visit, "{}"}, noted("d"), phone});
  const std::vector<job::Entry> entries = book->entries(number);
  EXPECT_EQ(entries[1].content, noted("b").content) << "what a job is opened with is each by itself";
  EXPECT_EQ(entries[2].content, noted("c").content);
  EXPECT_EQ(entries[3].content, R"({"act":")" + entries[3].id + R"("})");
  EXPECT_EQ(entries[4].content, R"({"act":")" + entries[3].id + R"(","text":"d"})");
  EXPECT_EQ(entries[5].content, phone.content);
  const auto other = book_at(folder.path("other.db"), steady);
  other->merge(all_of(*book));
  EXPECT_EQ(other->entries(1), entries);
}

/// One that is not safe to run for days waits for no log, in a list, too.
TEST(JobBook, ListsAJobByTheStateThatIsToldOfIt) {
  const TemporaryFolder folder;
  SteadySources steady;
  const job::NewEntry waits{job::EntryForm::state, R"({"state":"waiting-for-log"})"};
  const job::NewEntry endless{job::EntryForm::checked,
                              R"({"what":"forced-defrost","outcome":"out-of-limits","result":"did-not-end"})"};
  {
    const auto book = book_at(folder.path("jobs.db"), steady);
    const std::int64_t safe = book->open_job(std::vector<job::NewEntry>{opening("safe")});
    const std::int64_t unsafe = book->open_job(std::vector<job::NewEntry>{opening("unsafe")});
    book->add(safe, std::vector<job::NewEntry>{waits});
    book->add(unsafe, std::vector<job::NewEntry>{waits});
    EXPECT_EQ(book->count(job::JobState::waits_for_log), 2U);
    const std::vector<std::string> ids = book->add(unsafe, std::vector<job::NewEntry>{endless});
    EXPECT_EQ(book->list(job::JobState::open, 5).front().title, "unsafe");
    EXPECT_EQ(book->count(job::JobState::waits_for_log), 1U);
    book->add(unsafe, std::vector<job::NewEntry>{{job::EntryForm::taken_back, "{}", {}, ids[0]}});
    EXPECT_EQ(book->count(job::JobState::waits_for_log), 2U) << "a slip";
    book->add(unsafe, std::vector<job::NewEntry>{endless});
    const auto other = book_at(folder.path("other.db"), steady);
    other->merge(all_of(*book));
    EXPECT_EQ(other->count(job::JobState::waits_for_log), 1U);
  }
  // As an earlier version left it.
  SQLite::Database(folder.path("jobs.db"), SQLite::OPEN_READWRITE)
      .exec("UPDATE job_line SET state = 'waiting-for-log'; PRAGMA user_version = 2");
  EXPECT_EQ(book_at(folder.path("jobs.db"), steady)->count(job::JobState::open), 1U);
}

/// Of another version, or made by hand: what it would prove is not proved, and the job goes on.
TEST(JobBook, ARecordThatNobodyCanReadLocksNoJob) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a")});
  book->add(number, std::vector<job::NewEntry>{
                        {job::EntryForm::reading,
                         R"({"place":"t","part":"t","shown":"1","outcome":"within-limits","readings":{"of":"later"}})"},
                        {job::EntryForm::replaced, R"({"part":"t","trips_by_heat":true})"},
                        {job::EntryForm::state, R"({"state":"waiting-for-log"})"}});
  EXPECT_EQ(job::told(book->entries(number)).readings.size(), 1U);
}

TEST(JobBook, RefusesAnEntryThatIsKnownInAnotherJob) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  book->open_job(std::vector<job::NewEntry>{opening("a")});
  std::vector<job::MovedEntry> entries = all_of(*book);
  entries.front().job = "00000000-0000-4000-8000-000000000001";
  EXPECT_NE(refusal_of([&] { book->merge(entries); }).find("stands in the book with another job"), std::string::npos);
  EXPECT_EQ(book->count({}), 1U);
}

/// Entries are never deleted: what could not be exported would bar every export of the book.
TEST(JobBook, TakesNoAuthorThatItCouldNotExport) {
  const TemporaryFolder folder;
  SteadySources steady;
  const std::string path = folder.path("jobs.db");
  const auto refusal = [&](const job::Author& author) {
    return refusal_of(
        [&] { job::JobBook(path, true, author, steady.sources()).open_job(std::vector<job::NewEntry>{opening("a")}); });
  };
  for (const std::string& bad : {std::string("J\xff"), std::string("a\0b", 3), std::string(201, 'x')}) {
    EXPECT_NE(refusal({bad, "test 1"}).find("the name of who writes"), std::string::npos);
    EXPECT_NE(refusal({"tester", bad}).find("the name of the program"), std::string::npos);
  }
  EXPECT_EQ(refusal({"J\u00fcrgen", "test 1"}), "");
  EXPECT_EQ(all_of(*book_at(path, steady)).size(), 1U);
}

TEST(JobBook, GivesOutWhatOlderOnesTookOfAnAuthor) {
  const TemporaryFolder folder;
  SteadySources steady;
  book_at(folder.path("jobs.db"), steady)->open_job(std::vector<job::NewEntry>{opening("a")});
  SQLite::Database(folder.path("jobs.db"), SQLite::OPEN_READWRITE)
      .exec(
          "INSERT INTO entry (id, job, form, recorded, who, tool, content) VALUES "
          "('00000000-0000-4000-8000-000000000002', 1, 'note', '2023-11-15T00:00:00.000Z', CAST(x'4AFF' AS TEXT), "
          "'old', '{\"text\":\"kept\"}')");
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::vector<job::MovedEntry> all = all_of(*book);
  ASSERT_EQ(all.size(), 2U);
  EXPECT_EQ(all[1].entry.who, "J\ufffd");
  EXPECT_EQ(book->merge(all).known_entries, 2U) << "its own export is known to it";
}

/// A pager shows the first page and waits.
TEST(JobBook, IsFreeWhileItIsExported) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("a"), noted("b")});
  book->open_job(std::vector<job::NewEntry>{opening("c")});
  const auto other = book_at(folder.path("jobs.db"), steady);
  std::size_t visited = 0;
  book->each_entry({}, [&](const job::MovedEntry&) {
    if (++visited == 1) other->add(number, std::vector<job::NewEntry>{noted("meanwhile")});
  });
  EXPECT_EQ(visited, 3U) << "a job is given out as it stood when its turn came";
}

/// Both written in one millisecond: what was entered first comes first.
TEST(JobBook, EntriesOfOneMillisecondKeepTheirOrder) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  std::vector<job::MovedEntry> entries;
  for (const char* last : {"9", "5", "7", "1"})
    entries.push_back({"00000000-0000-4000-8000-000000000001",
                       {std::string("00000000-0000-4000-8000-00000000000") + last, "note", "9999-12-31T23:59:59.999Z",
                        "", "", "", "", noted(last).content}});
  book->merge(entries);
  std::string order;
  for (const job::WrittenNote& note : job::told(book->entries(1)).notes) order += note.text;
  EXPECT_EQ(order, "9571");
}

TEST(JobBook, FindsAnIdentifierThatBeginsWithDigitsAlone) {
  const TemporaryFolder folder;
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  book->open_job(std::vector<job::NewEntry>{opening("first")});
  book->merge(std::vector<job::MovedEntry>{{"12345678-0000-4000-8000-000000000001",
                                            {"00000000-0000-4000-8000-000000000002", "opened",
                                             "2023-11-14T00:00:00.000Z", "", "", "", "", R"({"title":"digits"})"}}});
  EXPECT_EQ(book->job_named("12345678").title, "digits");
  EXPECT_EQ(book->job_named("123456").title, "digits");
  EXPECT_EQ(book->job_named("1").title, "first");
  EXPECT_NE(refusal_of([&] { (void)book->job_named("12345"); }), "") << "too few letters of it";
}

TEST(JobBook, BringsABookOfTheFirstVersionUpToDate) {
  const TemporaryFolder folder;
  {
    SQLite::Database database(folder.path("jobs.db"), SQLite::OPEN_READWRITE | SQLite::OPEN_CREATE);
    job::migrate(database, 1);
    database.exec(
        "INSERT INTO job (id) VALUES ('00000000-0000-4000-8000-000000000001');"
        "INSERT INTO entry (id, job, form, recorded, who, tool, content) VALUES "
        "('00000000-0000-4000-8000-000000000002', 1, 'opened', '2026-01-01T00:00:00.000Z', '', 'old', "
        "'{\"title\":\"kept\"}')");
  }
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  EXPECT_EQ(book->list({}, 5).front().title, "kept");
  EXPECT_EQ(book->list(job::JobState::open, 5).size(), 1U);
  EXPECT_TRUE(book->damage().empty());
}

/// Each in a process of its own, as two programs on one book.
TEST(JobBook, TwoProcessesWriteAtOnceAndLoseNothing) {
  const TemporaryFolder folder;
  constexpr int each = 20;
  std::vector<pid_t> children;
  for (std::uint64_t writer = 0; writer < 3; ++writer) {
    const pid_t child = ::fork();
    if (child == 0) {
      SteadySources steady;
      steady.drawn = 1000 * (writer + 1);
      const std::string refused = refusal_of([&] {
        const auto book = book_at(folder.path("jobs.db"), steady);
        const std::int64_t number = book->open_job(std::vector<job::NewEntry>{opening("of one")});
        for (int i = 0; i < each; ++i) book->add(number, std::vector<job::NewEntry>{noted("n")});
      });
      ::_exit(refused.empty() ? 0 : 1);
    }
    children.push_back(child);
  }
  for (const pid_t child : children) {
    int status = 0;
    ::waitpid(child, &status, 0);
    EXPECT_EQ(WEXITSTATUS(status), 0);
  }
  SteadySources steady;
  const auto book = book_at(folder.path("jobs.db"), steady);
  EXPECT_EQ(all_of(*book).size(), 3U * (each + 1));
  EXPECT_TRUE(book->damage().empty());
}

}  // namespace
}  // namespace ohmwright
