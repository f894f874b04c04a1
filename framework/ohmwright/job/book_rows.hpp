#pragma once

#include <cstdint>
#include <vector>

#include <ohmwright/job/entry.hpp>

namespace SQLite {
class Database;
class Statement;
}  // namespace SQLite

namespace ohmwright::job {

/// The columns of an entry of the table `entry AS e`, as `entry_in` takes them.
inline constexpr const char* entry_columns =
    "e.id, e.form, e.recorded, e.happened, e.who, e.tool, e.corrects, e.content";

/// The entry in a row of a query, its first column at `first`.
Entry entry_in(const SQLite::Statement& row, int first);

/// The entries of a job by the time they were recorded; of one millisecond in the order in which the book took them.
std::vector<Entry> entries_of_job(SQLite::Database& database, std::int64_t job);

/// Puts the state of a job that waits for a log into its line as it is told from all its entries: what the tables tell
/// themselves is its last entry of a state, and one that is not safe to run waits for no log.
void tell_state(SQLite::Database& database, std::int64_t job);

}  // namespace ohmwright::job
