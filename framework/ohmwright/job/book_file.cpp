#include <SQLiteCpp/SQLiteCpp.h>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <sqlite3.h>
#include <system_error>
#include <unistd.h>

#include <ohmwright/job/book_file.hpp>
#include <ohmwright/job/book_tables.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::job {

namespace {

constexpr int wait_for_others_ms = 10'000;

InputError refused(const std::string& path, const std::string& why) {
  return InputError("the job book " + ohmwright::quoted(path, 200) + " " + why);
}

/// A book holds where people live and what was wrong there: others on the machine have no business in it. SQLite gives
/// its journal the permissions of the book.
void make_file(const std::string& path) {
  const std::filesystem::path folder = std::filesystem::path(path).parent_path();
  std::error_code error;
  if (!folder.empty() && !std::filesystem::exists(folder, error)) {
    std::filesystem::create_directories(folder, error);
    if (!error) std::filesystem::permissions(folder, std::filesystem::perms::owner_all, error);
    if (error)
      throw refused(path, "cannot be made: its folder: " + error.message() + "; name another file with --book");
  }
  const int descriptor = ::open(path.c_str(), O_CREAT | O_RDWR | O_CLOEXEC, 0600);
  if (descriptor < 0)
    throw refused(path,
                  "cannot be made: " + std::generic_category().message(errno) + "; name another file with --book");
  ::close(descriptor);
}

/// Version of the tables; throws for what this program cannot keep. All is asked in one transaction: another process
/// may be making the book.
int version_of(const std::string& path, SQLite::Database& database) {
  const SQLite::Transaction one_view(database);
  const int version = database.execAndGet("PRAGMA user_version").getInt();
  const int application = database.execAndGet("PRAGMA application_id").getInt();
  const bool is_empty = database.execAndGet("SELECT count(*) FROM sqlite_master").getInt() == 0;
  if (application != book_application_id && !(is_empty && version == 0))
    throw refused(path, "is a database of something else; name another file with --book. It was left as it is");
  if (version < 0)
    throw refused(path,
                  "is damaged (version " + std::to_string(version) +
                      " of its tables) and was left as it is; take a copy of it, begin a new one with --book, and "
                      "import your last export into that");
  if (version > newest_book_version())
    throw refused(path, "was written by a newer ohmwright (version " + std::to_string(version) +
                            " of its tables, this one knows " + std::to_string(newest_book_version()) +
                            "); use that one. It was left as it is");
  return version;
}

}  // namespace

InputError book_error(const std::string& path, const SQLite::Exception& error) {
  switch (error.getErrorCode()) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return refused(path, "is held by another program; try again once that has ended");
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return refused(path,
                     "cannot be written; make it and its folder writable, or copy it and name the copy with --book");
    case SQLITE_CANTOPEN:
      return refused(path, "cannot be opened; is its folder there, and may you read and write in it?");
    case SQLITE_FULL:
      return refused(path,
                     "has no room left on its disk: this was not written down, what was before stays. Make room, "
                     "then do it again");
    case SQLITE_IOERR:
      return refused(path,
                     "could not be written or read (disk full, over its limit or failing): this was not written "
                     "down, what was before stays. Make room, then do it again");
    case SQLITE_NOTADB:
      return refused(path,
                     "is no job book, or damaged from its first bytes on, and was left as it is; name another file "
                     "with --book");
    case SQLITE_CORRUPT:
      return refused(path,
                     "is damaged and was left as it is; take a copy of it, begin a new one with --book, and import "
                     "your last export into that");
    default:
      return refused(path, "refused: " + printable(error.what()));
  }
}

std::unique_ptr<SQLite::Database> open_book_file(const std::string& path, bool create) {
  std::error_code none;
  if (!std::filesystem::exists(path, none)) {
    if (!create) throw refused(path, "is not there yet; the first call begins it: ohmwright job open TITLE");
    make_file(path);
  }
  if (std::filesystem::is_directory(path, none)) throw refused(path, "is a folder; name a file with --book");
  try {
    auto database = std::make_unique<SQLite::Database>(path, SQLite::OPEN_READWRITE, wait_for_others_ms);
    database->exec("PRAGMA foreign_keys = ON; PRAGMA cell_size_check = ON");
    // One file at rest, and an entry that was acknowledged is on the disk: the rollback journal is removed and its
    // folder synchronised before the commit returns.
    database->exec("PRAGMA synchronous = EXTRA");
    if (version_of(path, *database) < newest_book_version()) migrate(*database);
    return database;
  } catch (const SQLite::Exception& error) {
    throw book_error(path, error);
  }
}

}  // namespace ohmwright::job
