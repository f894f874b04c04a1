#include <SQLiteCpp/SQLiteCpp.h>
#include <algorithm>
#include <charconv>
#include <set>
#include <utility>

#include <ohmwright/document/size_signal.hpp>
#include <ohmwright/job/book_file.hpp>
#include <ohmwright/job/book_rows.hpp>
#include <ohmwright/job/content_writer.hpp>
#include <ohmwright/job/job_book.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::job {

struct JobBook::File {
  std::unique_ptr<SQLite::Database> database;
};

namespace {

constexpr const char* line_columns = "j.number, j.id, l.state, l.changed, l.title";

JobLine line_in(const SQLite::Statement& row) {
  return {row.getColumn(0).getInt64(), row.getColumn(1).getString(), row.getColumn(2).getString(),
          row.getColumn(3).getString(), row.getColumn(4).getString()};
}

void bind_or_null(SQLite::Statement& statement, int place, const std::string& text) {
  if (text.empty())
    statement.bind(place);
  else
    statement.bind(place, text);
}

void insert_row(SQLite::Database& database, std::int64_t job, const Entry& entry) {
  SQLite::Statement insert(database,
                           "INSERT INTO entry (job, id, form, recorded, happened, who, tool, corrects, content) "
                           "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)");
  insert.bind(1, job);
  insert.bind(2, entry.id);
  insert.bind(3, entry.form);
  insert.bind(4, entry.recorded);
  bind_or_null(insert, 5, entry.happened);
  insert.bind(6, entry.who);
  insert.bind(7, entry.tool);
  bind_or_null(insert, 8, entry.corrects);
  insert.bind(9, entry.content);
  insert.exec();
}

/// Who reads a series of a night takes fewer rows: what no line can hold would bar every export of the book.
void refuse_too_long(const NewEntry& entry) {
  if (entry.content.size() > longest_content)
    throw InputError("what is to be written down has " + std::to_string(entry.content.size()) +
                     " bytes, and the job book takes " + std::to_string(longest_content) +
                     " of one entry; nothing was written. Of a series give every tenth row, or judge it outside the "
                     "job: ohmwright check");
}

/// The content with the act that it is of. The answers of the telephone are each one by itself: their content holds
/// nothing but questions.
std::string of_act(const NewEntry& entry, const std::string& act) {
  constexpr std::string_view nothing = "{}";
  if (entry.form == EntryForm::phone || !entry.content.starts_with('{')) return entry.content;
  return "{\"" + std::string(act_field) + "\":\"" + act + "\"" + (entry.content == nothing ? "" : ",") +
         entry.content.substr(1);
}

std::int64_t new_job(SQLite::Database& database, const std::string& id) {
  SQLite::Statement insert(database, "INSERT INTO job (id) VALUES (?)");
  insert.bind(1, id);
  insert.exec();
  return database.getLastInsertRowid();
}

std::int64_t number_of(SQLite::Database& database, const std::string& id) {
  SQLite::Statement find(database, "SELECT number FROM job WHERE id = ?");
  find.bind(1, id);
  return find.executeStep() ? find.getColumn(0).getInt64() : 0;
}

std::size_t entries_of(SQLite::Database& database, std::int64_t job) {
  SQLite::Statement count(database, "SELECT count(*) FROM entry WHERE job = ?");
  count.bind(1, job);
  return count.executeStep() ? static_cast<std::size_t>(count.getColumn(0).getInt64()) : std::size_t{0};
}

/// The entry of that id, with its job.
std::optional<MovedEntry> known(SQLite::Database& database, const std::string& id) {
  SQLite::Statement find(database, std::string("SELECT j.id, ") + entry_columns +
                                       " FROM entry AS e JOIN job AS j ON j.number = e.job WHERE e.id = ?");
  find.bind(1, id);
  if (!find.executeStep()) return std::nullopt;
  return MovedEntry{find.getColumn(0).getString(), entry_in(find, 1)};
}

}  // namespace

/// What SQLite throws becomes the one line; a file that may not grow fails a write and does not end the process.
template <class Work>
auto JobBook::guarded(const Work& work) const {
  const SizeSignalBlocked blocked;
  try {
    return work(*file_->database);
  } catch (const SQLite::Exception& error) {
    throw book_error(path_, error);
  }
}

JobBook::JobBook(const std::string& path, bool create, Author author, BookSources sources)
    : path_(path), author_(std::move(author)), sources_(std::move(sources)) {
  const SizeSignalBlocked blocked;
  file_ = std::make_unique<File>(File{open_book_file(path, create)});
}

JobBook::~JobBook() = default;

std::vector<std::string> JobBook::insert(std::int64_t job, std::span<const NewEntry> entries, Written written) {
  // What goes in comes out again: entries are never deleted, and one that no line can hold would bar every export.
  refuse_what_no_book_keeps(author_.who, "the name of who writes (--who, LOGNAME)", Author::longest);
  refuse_what_no_book_keeps(author_.tool, "the name of the program", Author::longest);
  SQLite::Database& database = *file_->database;
  SQLite::Statement last(database, "SELECT max(recorded) FROM entry WHERE job = ?");
  last.bind(1, job);
  std::int64_t before = 0;
  if (last.executeStep() && !last.getColumn(0).isNull())
    before = milliseconds_of(last.getColumn(0).getString()).value_or(0);
  std::vector<std::string> ids;
  for (const NewEntry& entry : entries) {
    refuse_too_long(entry);
    before = std::max(sources_.milliseconds(), before + 1);
    ids.push_back(identifier_of(sources_.random()));
    insert_row(database, job,
               {ids.back(), std::string(name_of(entry.form)), time_text(before), entry.happened, author_.who,
                author_.tool, entry.corrects,
                written == Written::together && entries.size() > 1 ? of_act(entry, ids.front()) : entry.content});
  }
  tell_state(database, job);
  return ids;
}

std::int64_t JobBook::open_job(std::span<const NewEntry> entries) {
  return guarded([&](SQLite::Database& database) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    const std::int64_t number = new_job(database, identifier_of(sources_.random()));
    insert(number, entries, Written::each_by_itself);
    transaction.commit();
    return number;
  });
}

std::vector<std::string> JobBook::add(std::int64_t job, std::span<const NewEntry> entries,
                                      std::optional<std::size_t> seen) {
  return guarded([&](SQLite::Database& database) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    if (seen && *seen != entries_of(database, job))
      throw WrittenMeanwhile("somebody else wrote in job " + std::to_string(job) +
                             " meanwhile, and nothing was written down; look at it (ohmwright job show --job " +
                             std::to_string(job) + ") and do it again");
    std::vector<std::string> ids = insert(job, entries, Written::together);
    transaction.commit();
    return ids;
  });
}

std::vector<Entry> JobBook::entries(std::int64_t job) const {
  return guarded([&](SQLite::Database& database) { return entries_of_job(database, job); });
}

JobLine JobBook::job_named(const std::string& number_or_id) const {
  std::int64_t number = 0;
  const char* end = number_or_id.data() + number_or_id.size();
  const auto [stop, error] = std::from_chars(number_or_id.data(), end, number);
  const bool is_number = error == std::errc() && stop == end && number > 0;
  const auto found_by = [this](const char* what, const auto& value) {
    return guarded([&](SQLite::Database& database) {
      SQLite::Statement rows(database, std::string("SELECT ") + line_columns +
                                           " FROM job AS j JOIN job_line AS l ON l.job = j.number WHERE " + what);
      rows.bind(1, value);
      std::vector<JobLine> lines;
      while (rows.executeStep()) lines.push_back(line_in(rows));
      return lines;
    });
  };
  std::vector<JobLine> found;
  if (is_number) found = found_by("j.number = ?1", number);
  if (found.size() == 1) return found.front();
  constexpr std::size_t least_letters = 6;  // which may all be digits
  if (number_or_id.size() >= least_letters) found = found_by("j.id >= ?1 AND j.id < ?1 || 'g' LIMIT 2", number_or_id);
  if (found.size() == 1) return found.front();
  throw InputError((found.size() > 1 ? "more than one job of the book begins with " : "the book has no job ") +
                   ohmwright::quoted(number_or_id) + "; see: ohmwright job list");
}

std::optional<JobLine> JobBook::at_hand() const {
  return guarded([&](SQLite::Database& database) -> std::optional<JobLine> {
    std::optional<JobLine> latest;
    for (const JobState state : all_job_states()) {
      if (is_closed(state)) continue;
      SQLite::Statement row(database, std::string("SELECT ") + line_columns +
                                          " FROM job_line AS l JOIN job AS j ON j.number = l.job WHERE l.state = ? "
                                          "ORDER BY l.changed DESC, l.job DESC LIMIT 1");
      row.bind(1, std::string(name_of(state)));
      if (row.executeStep() && (!latest || latest->changed < row.getColumn(3).getString())) latest = line_in(row);
    }
    return latest;
  });
}

std::vector<JobLine> JobBook::list(std::optional<JobState> state, std::size_t most) const {
  return guarded([&](SQLite::Database& database) {
    SQLite::Statement rows(
        database, std::string("SELECT ") + line_columns + " FROM job_line AS l JOIN job AS j ON j.number = l.job " +
                      (state ? "WHERE l.state = ?2 " : "") + "ORDER BY l.changed DESC, l.job DESC LIMIT ?1");
    rows.bind(1, static_cast<std::int64_t>(most));
    if (state) rows.bind(2, std::string(name_of(*state)));
    std::vector<JobLine> lines;
    while (rows.executeStep()) lines.push_back(line_in(rows));
    return lines;
  });
}

std::size_t JobBook::count(std::optional<JobState> state) const {
  return guarded([&](SQLite::Database& database) {
    SQLite::Statement row(database, std::string("SELECT count(*) FROM job_line") + (state ? " WHERE state = ?1" : ""));
    if (state) row.bind(1, std::string(name_of(*state)));
    return row.executeStep() ? static_cast<std::size_t>(row.getColumn(0).getInt64()) : std::size_t{0};
  });
}

void JobBook::each_entry(std::optional<std::int64_t> job, const std::function<void(const MovedEntry&)>& visit) const {
  const auto jobs = guarded([&](SQLite::Database& database) {
    SQLite::Statement rows(
        database, std::string("SELECT number, id FROM job ") + (job ? "WHERE number = ?1 " : "") + "ORDER BY number");
    if (job) rows.bind(1, *job);
    std::vector<std::pair<std::int64_t, std::string>> found;
    while (rows.executeStep()) found.emplace_back(rows.getColumn(0).getInt64(), rows.getColumn(1).getString());
    return found;
  });
  for (const auto& [number, id] : jobs)
    for (Entry& entry : entries(number)) visit({id, std::move(entry)});
}

Merged JobBook::merge(std::span<const MovedEntry> entries) {
  return guarded([&](SQLite::Database& database) {
    SQLite::Transaction transaction(database, SQLite::TransactionBehavior::IMMEDIATE);
    Merged merged;
    std::set<std::int64_t> written_to;
    for (const MovedEntry& moved : entries) {
      if (const std::optional<MovedEntry> here = known(database, moved.entry.id)) {
        if (here->entry != moved.entry || here->job != moved.job)
          throw InputError("entry " + moved.entry.id + " stands in the book with another " +
                           (here->entry != moved.entry ? "content" : "job") +
                           "; entries are never changed, so the file is not what was exported. Nothing was taken in");
        ++merged.known_entries;
        continue;
      }
      std::int64_t number = number_of(database, moved.job);
      if (number == 0) {
        number = new_job(database, moved.job);
        ++merged.new_jobs;
      }
      insert_row(database, number, moved.entry);
      written_to.insert(number);
      ++merged.new_entries;
    }
    for (const std::int64_t number : written_to) tell_state(database, number);
    transaction.commit();
    return merged;
  });
}

std::vector<std::string> JobBook::damage() const {
  return guarded([&](SQLite::Database& database) {
    std::vector<std::string> found;
    SQLite::Statement check(database, "PRAGMA integrity_check");
    while (check.executeStep())
      if (const std::string line = check.getColumn(0).getString(); line != "ok") found.push_back(line);
    SQLite::Statement orphans(database, "PRAGMA foreign_key_check");
    while (orphans.executeStep()) found.push_back("a row of " + orphans.getColumn(0).getString() + " has lost its job");
    return found;
  });
}

}  // namespace ohmwright::job
