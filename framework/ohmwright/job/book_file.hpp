#pragma once

#include <memory>
#include <string>

#include <ohmwright/quantity/error.hpp>

namespace SQLite {
class Database;
class Exception;
}  // namespace SQLite

namespace ohmwright::job {

/// Opens the file of a book, made when it is not there and `create`; brings an earlier version up to date. Throws
/// InputError, one line that names the file, for: no file, no book, a book of a newer version, a damaged one, a file
/// that cannot be read or written.
std::unique_ptr<SQLite::Database> open_book_file(const std::string& path, bool create);

/// The line for what SQLite says of the book at `path`: what happened, that what stood in the book stays, a way on.
InputError book_error(const std::string& path, const SQLite::Exception& error);

}  // namespace ohmwright::job
