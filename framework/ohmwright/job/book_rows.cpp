#include <SQLiteCpp/SQLiteCpp.h>
#include <string>

#include <nlohmann/json.hpp>

#include <ohmwright/job/book_rows.hpp>
#include <ohmwright/job/service_call.hpp>

namespace ohmwright::job {

namespace {

/// A text with U+FFFD in the place of bytes that are no UTF-8. Books took them once in the names of who wrote, and are
/// read and exported all the same.
std::string readable(const std::string& text) {
  using Text = nlohmann::json;
  return Text::parse(Text(text).dump(-1, ' ', false, Text::error_handler_t::replace)).get<std::string>();
}

}  // namespace

Entry entry_in(const SQLite::Statement& row, int first) {
  const auto text = [&](int column) { return row.getColumn(first + column).getString(); };
  return {text(0), text(1), text(2), text(3), readable(text(4)), readable(text(5)), text(6), text(7)};
}

std::vector<Entry> entries_of_job(SQLite::Database& database, std::int64_t job) {
  SQLite::Statement rows(database, std::string("SELECT ") + entry_columns +
                                       " FROM entry AS e WHERE e.job = ? ORDER BY e.recorded, e.sequence");
  rows.bind(1, job);
  std::vector<Entry> entries;
  while (rows.executeStep()) entries.push_back(entry_in(rows, 0));
  return entries;
}

void tell_state(SQLite::Database& database, std::int64_t job) {
  SQLite::Statement line(database, "SELECT state FROM job_line WHERE job = ?");
  line.bind(1, job);
  if (!line.executeStep() || line.getColumn(0).getString() != name_of(JobState::waits_for_log)) return;
  line.reset();
  const JobState state = told(entries_of_job(database, job)).state;
  if (state == JobState::waits_for_log) return;
  SQLite::Statement update(database, "UPDATE job_line SET state = ? WHERE job = ?");
  update.bind(1, std::string(name_of(state)));
  update.bind(2, job);
  update.exec();
}

}  // namespace ohmwright::job
