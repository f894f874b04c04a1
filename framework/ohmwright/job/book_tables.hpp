#pragma once

#include <string_view>

namespace SQLite {
class Database;
}

namespace ohmwright::job {

/// "OHMJ", by which a book is told from another SQLite file (PRAGMA application_id).
inline constexpr int book_application_id = 0x4F484D4A;

/// The newest form of the tables that this program writes (PRAGMA user_version).
int newest_book_version();

/// Brings an empty file, or a book of an earlier version, to the newest one, in one transaction. `to` is less than
/// the newest only in tests of that very step.
void migrate(SQLite::Database& database, int to = newest_book_version());

}  // namespace ohmwright::job
