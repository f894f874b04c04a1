#include <array>
#include <cerrno>
#include <charconv>
#include <fcntl.h>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string_view>
#include <sys/stat.h>
#include <system_error>
#include <utility>

#include <ohmwright/document/open_file.hpp>
#include <ohmwright/document/size_signal.hpp>
#include <ohmwright/document/whole_file.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

std::optional<struct stat> status_of(const std::string& path) {
  struct stat status {};
  if (::stat(path.c_str(), &status) == 0) return status;
  return std::nullopt;
}

/// The number of an open file of this process that the path names: 1 for "/dev/stdout".
///
/// Such a path is never opened anew: where standard output leads into a file, that would overwrite its beginning.
std::optional<int> own_open_file(const std::string& path) {
  if (path == "/dev/stdout") return STDOUT_FILENO;
  if (path == "/dev/stderr") return STDERR_FILENO;
  for (const std::string_view folder : {"/dev/fd/", "/proc/self/fd/"}) {
    if (path.compare(0, folder.size(), folder) != 0) continue;
    int number = -1;
    const char* end = path.data() + path.size();
    const auto parsed = std::from_chars(path.data() + folder.size(), end, number);
    if (parsed.ec == std::errc() && parsed.ptr == end && number >= 0) return number;
  }
  return std::nullopt;
}

/// The path with its symbolic links followed, up to a file, which need not exist yet, or an open file of this process.
fs::path target_of(const std::string& path) {
  constexpr int most_links = 40;  // as many as Linux follows
  fs::path target(path);
  std::error_code error;
  for (int links = 0; !own_open_file(target.string()) && fs::is_symlink(target, error); ++links) {
    if (links == most_links) refuse_to_write(path, "its symbolic links lead in a circle");
    const fs::path next = fs::read_symlink(target, error);
    if (error) refuse_to_write(path, error.message());
    target = next.is_absolute() ? next : target.parent_path() / next;
  }
  return target;
}

void write_straight(const std::string& path, OpenFile file, std::string_view bytes) {
  if (!file.is_open()) refuse_to_write(path, write_reason(errno));
  if (const int error = write_all(file, bytes); error != 0) refuse_to_write(path, write_reason(error));
  if (!file.close()) refuse_to_write(path, write_reason(errno));
}

/// Whether a database of SQLite is there (its file format, section 1.2: the first 16 bytes). No verb writes one this
/// way, and what stands in one, the calls of years, is nowhere else.
bool is_database(const std::string& path) {
  constexpr std::string_view begins("SQLite format 3\0", 16);
  std::array<char, 16> head{};
  std::ifstream file(path, std::ios::binary);
  return file.read(head.data(), head.size()) && std::string_view(head.data(), head.size()) == begins;
}

}  // namespace

int write_all(const OpenFile& file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(file.number(), bytes.data(), bytes.size());
    if (written < 0 && errno != EINTR) return errno;
    if (written > 0) bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

std::string write_reason(int error) {
  switch (error) {
    case ENOSPC:
      return "the disk is full";
    case EDQUOT:
      return "your disk quota is used up";
    case EFBIG:
      return "it would be larger than the system allows a file to be";
    case EACCES:
    case EPERM:
      return "you have no permission to";
    case EROFS:
      return "the disk is read-only";
    case ENAMETOOLONG:
      return "the name is too long";
    case EPIPE:
      return "whoever read it has stopped reading";
    default:
      return std::generic_category().message(error);
  }
}

void refuse_to_write(const std::string& path, const std::string& why) {
  throw InputError("cannot write " + printable(path) + ": " + why);
}

void write_file_atomically(const std::string& path, std::string_view bytes) {
  if (path.empty()) throw InputError("cannot write a file without a name");
  const SizeSignalBlocked no_signal;
  const fs::path target = target_of(path);
  if (const std::optional<int> number = own_open_file(target.string()))
    return write_straight(path, OpenFile(::fcntl(*number, F_DUPFD_CLOEXEC, 0)), bytes);
  const std::optional<struct stat> before = status_of(path);
  if (before && S_ISDIR(before->st_mode)) refuse_to_write(path, "it is a folder; name a file in it");
  if (before && !S_ISREG(before->st_mode))
    return write_straight(path, OpenFile(::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY)), bytes);
  if (path.back() == '/') refuse_to_write(path, "a file's name does not end in /");
  if (before && is_database(path))
    refuse_to_write(path, "a database is there, such as a job book; choose another name");
  if (before && ::faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) != 0)
    refuse_to_write(path, errno == EROFS ? write_reason(EROFS) : "the file is read-only");
  put_whole_file({path, target, before ? &*before : nullptr}, bytes);
}

}  // namespace ohmwright
