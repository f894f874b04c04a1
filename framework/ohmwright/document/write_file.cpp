#include <cerrno>
#include <charconv>
#include <cstdio>
#include <fcntl.h>
#include <filesystem>
#include <optional>
#include <random>
#include <sys/stat.h>
#include <system_error>
#include <utility>

#include <fmt/core.h>

#include <ohmwright/document/open_file.hpp>
#include <ohmwright/document/size_signal.hpp>
#include <ohmwright/document/write_file.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

[[noreturn]] void refuse(const std::string& path, const std::string& why) {
  throw InputError("cannot write " + path + ": " + why);
}

std::string reason_of(int error) {
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

/// 0, or the system's error number.
int write_all(const OpenFile& file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(file.number(), bytes.data(), bytes.size());
    if (written < 0 && errno != EINTR) return errno;
    if (written > 0) bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return 0;
}

/// A file beside the target, gone with this object unless it was moved into the target's place.
class Beside {
 public:
  Beside(const std::string& path, const fs::path& target) : path_(path), target_(target) {
    const fs::path folder = target.has_parent_path() ? target.parent_path() : fs::path(".");
    std::random_device random;
    constexpr int attempts = 16;
    for (int attempt = 0; attempt < attempts && !file_.is_open(); ++attempt) {
      name_ = (folder / fmt::format(".ohmwright-{:08x}{:08x}.part", random(), random())).string();
      file_ = OpenFile(::open(name_.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, 0666));
      if (!file_.is_open() && errno != EEXIST) break;
    }
    if (file_.is_open()) return;
    const int error = errno;
    std::error_code ignored;
    if (error == ENOENT || error == ENOTDIR) refuse(path_, "there is no folder " + folder.string() + "; make it first");
    if (!fs::is_directory(folder, ignored)) refuse(path_, folder.string() + " is not a folder");
    refuse(path_, reason_of(error) + " (in the folder " + folder.string() + ")");
  }
  ~Beside() {
    if (!moved_) ::unlink(name_.c_str());
  }
  Beside(const Beside&) = delete;
  Beside& operator=(const Beside&) = delete;

  /// Owner and permissions of the file that will be replaced. Only root may give a file away: otherwise it stays ours.
  void take_after(const struct stat& before) {
    if (before.st_uid != ::geteuid() || before.st_gid != ::getegid()) {
      const int given = ::fchown(file_.number(), before.st_uid, before.st_gid);
      static_cast<void>(given);
    }
    if (::fchmod(file_.number(), before.st_mode & 07777U) != 0) refuse(path_, reason_of(errno));
  }

  void fill(std::string_view bytes) {
    if (const int error = write_all(file_, bytes); error != 0) fail(error);
    if (::fsync(file_.number()) != 0) fail(errno);
    if (!file_.close()) fail(errno);
  }

  void move_into_place() {
    if (::rename(name_.c_str(), target_.c_str()) != 0) fail(errno);
    moved_ = true;
    const fs::path folder = target_.has_parent_path() ? target_.parent_path() : fs::path(".");
    const OpenFile opened(::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
    // Some file systems cannot synchronise a folder; the file is whole either way.
    if (opened.is_open() && ::fsync(opened.number()) != 0 && errno == EIO) refuse(path_, reason_of(EIO));
  }

 private:
  [[noreturn]] void fail(int error) const { refuse(path_, reason_of(error) + "; nothing was written"); }

  const std::string& path_;
  const fs::path& target_;
  std::string name_;
  OpenFile file_{-1};
  bool moved_ = false;
};

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
    if (links == most_links) refuse(path, "its symbolic links lead in a circle");
    const fs::path next = fs::read_symlink(target, error);
    if (error) refuse(path, error.message());
    target = next.is_absolute() ? next : target.parent_path() / next;
  }
  return target;
}

void write_straight(const std::string& path, OpenFile file, std::string_view bytes) {
  if (!file.is_open()) refuse(path, reason_of(errno));
  if (const int error = write_all(file, bytes); error != 0) refuse(path, reason_of(error));
  if (!file.close()) refuse(path, reason_of(errno));
}

}  // namespace

void write_file_atomically(const std::string& path, std::string_view bytes) {
  if (path.empty()) throw InputError("cannot write a file without a name");
  const SizeSignalBlocked no_signal;
  const fs::path target = target_of(path);
  if (const std::optional<int> number = own_open_file(target.string()))
    return write_straight(path, OpenFile(::fcntl(*number, F_DUPFD_CLOEXEC, 0)), bytes);
  const std::optional<struct stat> before = status_of(path);
  if (before && S_ISDIR(before->st_mode)) refuse(path, "it is a folder; name a file in it");
  if (before && !S_ISREG(before->st_mode))
    return write_straight(path, OpenFile(::open(path.c_str(), O_WRONLY | O_CLOEXEC | O_NOCTTY)), bytes);
  if (path.back() == '/') refuse(path, "a file's name does not end in /");
  if (before && ::faccessat(AT_FDCWD, path.c_str(), W_OK, AT_EACCESS) != 0)
    refuse(path, errno == EROFS ? reason_of(EROFS) : "the file is read-only");
  Beside beside(path, target);
  if (before) beside.take_after(*before);
  beside.fill(bytes);
  beside.move_into_place();
}

}  // namespace ohmwright
