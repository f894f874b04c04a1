#include <SQLiteCpp/SQLiteCpp.h>
#include <array>
#include <cstdint>
#include <string>
#include <vector>

#include <ohmwright/job/book_rows.hpp>
#include <ohmwright/job/book_tables.hpp>

namespace ohmwright::job {

namespace {

/// Version 1: entries that nobody can change, and the jobs they belong to. Numbers are this book's own; identifiers
/// hold in every book.
constexpr const char* entries_and_jobs = R"sql(
CREATE TABLE job (
  number INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE CHECK (length(id) = 36)
) STRICT;
CREATE TABLE entry (
  sequence INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE CHECK (length(id) = 36),
  job INTEGER NOT NULL REFERENCES job(number),
  form TEXT NOT NULL,
  recorded TEXT NOT NULL CHECK (length(recorded) = 24),
  happened TEXT CHECK (length(happened) = 24),
  who TEXT NOT NULL,
  tool TEXT NOT NULL,
  corrects TEXT,
  content TEXT NOT NULL CHECK (json_valid(content))
) STRICT;
CREATE INDEX entry_of_job ON entry (job, recorded, id);
CREATE TRIGGER entry_stays BEFORE UPDATE ON entry
  BEGIN SELECT RAISE(ABORT, 'an entry of a job book is never changed'); END;
CREATE TRIGGER entry_is_kept BEFORE DELETE ON entry
  BEGIN SELECT RAISE(ABORT, 'an entry of a job book is never deleted'); END;
CREATE TRIGGER entry_is_new BEFORE INSERT ON entry
  WHEN EXISTS (SELECT 1 FROM entry WHERE id = NEW.id) OR EXISTS (SELECT 1 FROM entry WHERE sequence = NEW.sequence)
  BEGIN SELECT RAISE(ABORT, 'an entry of a job book is never replaced'); END;
CREATE TRIGGER job_is_new BEFORE INSERT ON job
  WHEN EXISTS (SELECT 1 FROM job WHERE id = NEW.id) OR EXISTS (SELECT 1 FROM job WHERE number = NEW.number)
  BEGIN SELECT RAISE(ABORT, 'a job of a job book is never replaced'); END;
CREATE TRIGGER job_stays BEFORE UPDATE ON job
  BEGIN SELECT RAISE(ABORT, 'a job of a job book is never changed'); END;
CREATE TRIGGER job_is_kept BEFORE DELETE ON job
  BEGIN SELECT RAISE(ABORT, 'a job of a job book is never deleted'); END;
)sql";

/// Version 2: one line a job for lists, told from the entries and written with them, so that a list of a hundred
/// thousand jobs reads a page and not the book.
constexpr const char* lines_of_jobs = R"sql(
CREATE TABLE job_line (
  job INTEGER PRIMARY KEY REFERENCES job(number),
  state TEXT NOT NULL,
  changed TEXT NOT NULL,
  title TEXT NOT NULL
) STRICT;
CREATE INDEX job_line_by_state ON job_line (state, changed, job);
CREATE INDEX job_line_by_change ON job_line (changed, job);
CREATE VIEW standing AS SELECT e.job AS job, e.form AS form, e.recorded AS recorded, e.id AS id, e.content AS content
  FROM entry AS e WHERE NOT EXISTS (SELECT 1 FROM entry AS c WHERE c.job = e.job AND c.corrects = e.id);
CREATE TRIGGER line_of_job AFTER INSERT ON entry BEGIN
  INSERT INTO job_line (job, state, changed, title) VALUES (
    NEW.job,
    coalesce((SELECT json_extract(content, '$.state') FROM standing WHERE job = NEW.job AND form = 'state'
              ORDER BY recorded DESC, id DESC LIMIT 1), 'open'),
    (SELECT max(recorded) FROM entry WHERE job = NEW.job),
    coalesce((SELECT json_extract(content, '$.title') FROM standing WHERE job = NEW.job AND form = 'opened'
              ORDER BY recorded DESC, id DESC LIMIT 1), ''))
  ON CONFLICT (job) DO UPDATE SET state = excluded.state, changed = excluded.changed, title = excluded.title;
END;
INSERT INTO job_line (job, state, changed, title)
  SELECT number,
    coalesce((SELECT json_extract(content, '$.state') FROM standing WHERE job = number AND form = 'state'
              ORDER BY recorded DESC, id DESC LIMIT 1), 'open'),
    coalesce((SELECT max(recorded) FROM entry WHERE job = number), ''),
    coalesce((SELECT json_extract(content, '$.title') FROM standing WHERE job = number AND form = 'opened'
              ORDER BY recorded DESC, id DESC LIMIT 1), '')
  FROM job;
)sql";

/// Version 3: the state in a line is that which is told from all entries (`tell_state`), and an earlier program would
/// put another one there. The tables are those of version 2.
constexpr const char* told_states = "";
constexpr int version_of_told_states = 3;

constexpr std::array migrations{entries_and_jobs, lines_of_jobs, told_states};

void tell_all_states(SQLite::Database& database) {
  std::vector<std::int64_t> jobs;
  SQLite::Statement rows(database, "SELECT number FROM job");
  while (rows.executeStep()) jobs.push_back(rows.getColumn(0).getInt64());
  for (const std::int64_t job : jobs) tell_state(database, job);
}

}  // namespace

int newest_book_version() { return static_cast<int>(migrations.size()); }

void migrate(SQLite::Database& database, int to) {
  SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
  const int from = database.execAndGet("PRAGMA user_version").getInt();  // another process may have been faster
  for (int version = from; version < to; ++version) database.exec(migrations.at(static_cast<std::size_t>(version)));
  if (from < version_of_told_states && to >= version_of_told_states) tell_all_states(database);
  if (from < to) {
    database.exec("PRAGMA application_id = " + std::to_string(book_application_id));
    database.exec("PRAGMA user_version = " + std::to_string(to));
  }
  transaction.commit();
}

}  // namespace ohmwright::job
