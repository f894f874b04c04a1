#include <cerrno>
#include <csignal>
#include <cstdio>
#include <fcntl.h>
#include <pthread.h>
#include <random>
#include <system_error>

#include <fmt/core.h>

#include <ohmwright/document/whole_file.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

/// While it lives, every signal that can wait does.
class SignalsWait {
 public:
  SignalsWait() {
    sigset_t signals{};
    sigfillset(&signals);
    for (const int at_once : {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGTRAP, SIGABRT, SIGSYS}) sigdelset(&signals, at_once);
    pthread_sigmask(SIG_BLOCK, &signals, &before_);
  }
  ~SignalsWait() { pthread_sigmask(SIG_SETMASK, &before_, nullptr); }
  SignalsWait(const SignalsWait&) = delete;
  SignalsWait& operator=(const SignalsWait&) = delete;

 private:
  sigset_t before_{};
};

[[noreturn]] void fail(const FilePlace& place, int error) {
  refuse_to_write(place.path, write_reason(error) + "; nothing was written");
}

[[noreturn]] void fail_to_create(const FilePlace& place, int error) {
  const std::string folder = printable(place.folder().string());
  if (error == ENOENT || error == ENOTDIR)
    refuse_to_write(place.path, "there is no folder " + folder + "; make it first");
  std::error_code ignored;
  if (!fs::is_directory(place.folder(), ignored)) refuse_to_write(place.path, folder + " is not a folder");
  refuse_to_write(place.path, write_reason(error) + " (in the folder " + folder + ")");
}

/// A file that replaces another is nobody else's until it has that one's permissions: it may hold the same secrets.
mode_t mode_at_first(const FilePlace& place) { return place.before != nullptr ? 0600 : 0666; }

/// What the process takes from the permissions of new files. It can only be read by setting it; the strictest is the
/// one that does no harm meanwhile.
mode_t umask_of_process() {
  const mode_t mask = ::umask(S_IRWXG | S_IRWXO);
  ::umask(mask);
  return mask;
}

void take_after(const FilePlace& place, const OpenFile& file) {
  const struct stat& before = *place.before;
  if (before.st_uid != ::geteuid() || before.st_gid != ::getegid()) {
    // Only root may give a file away: otherwise it stays ours.
    const int given = ::fchown(file.number(), before.st_uid, before.st_gid);
    static_cast<void>(given);
  }
  if (::fchmod(file.number(), before.st_mode & 0777U & ~umask_of_process()) != 0) fail(place, errno);
}

void fill(const FilePlace& place, OpenFile& file, std::string_view bytes) {
  if (const int error = write_all(file, bytes); error != 0) fail(place, error);
  if (place.before != nullptr) take_after(place, file);
  if (::fsync(file.number()) != 0) fail(place, errno);
}

/// A name beside the place, gone with this object unless it was renamed.
class NameBeside {
 public:
  explicit NameBeside(const FilePlace& place) : place_(place) {}
  ~NameBeside() {
    if (!name_.empty()) ::unlink(name_.c_str());
  }
  NameBeside(const NameBeside&) = delete;
  NameBeside& operator=(const NameBeside&) = delete;

  /// `make` makes a file of the name it is given, or gives false and says why not in errno; so does this.
  template <class Make>
  bool take(Make make) {
    std::random_device random;
    constexpr int attempts = 16;
    for (int attempt = 0; attempt < attempts; ++attempt) {
      const fs::path name = place_.folder() / fmt::format(".ohmwright-{:08x}{:08x}.part", random(), random());
      if (make(name.c_str())) {
        name_ = name;
        return true;
      }
      if (errno != EEXIST) break;
    }
    return false;
  }

  void rename_into_place() {
    if (::rename(name_.c_str(), place_.target.c_str()) != 0) fail(place_, errno);
    name_.clear();
  }

 private:
  const FilePlace& place_;
  fs::path name_;
};

/// Gives a file without a name its first one. Needs /proc, for want of the right to link a file by its number alone.
bool give_name(const OpenFile& file, const char* name) {
  const std::string by_number = fmt::format("/proc/self/fd/{}", file.number());
  return ::linkat(AT_FDCWD, by_number.c_str(), AT_FDCWD, name, AT_SYMLINK_FOLLOW) == 0;
}

/// Whether a refusal means that the system cannot do this at all, rather than that it went wrong.
bool is_not_possible(int error) {
  return error == EOPNOTSUPP || error == EISDIR || error == EINVAL || error == ENOENT || error == EPERM ||
         error == EXDEV || error == ENOSYS;
}

/// Writes to a file without a name and gives it one at the very end. False where the system has no such files.
bool put_nameless(const FilePlace& place, std::string_view bytes) {
  OpenFile file(::open(place.folder().c_str(), O_TMPFILE | O_WRONLY | O_CLOEXEC, mode_at_first(place)));
  if (!file.is_open()) {
    if (errno != ENOENT && is_not_possible(errno)) return false;
    fail_to_create(place, errno);
  }
  fill(place, file, bytes);
  if (place.before == nullptr) {
    if (give_name(file, place.target.c_str())) return true;
    if (is_not_possible(errno)) return false;
    if (errno != EEXIST) fail(place, errno);
  }
  const SignalsWait no_interruption;
  NameBeside beside(place);
  if (!beside.take([&](const char* name) { return give_name(file, name); })) {
    if (is_not_possible(errno)) return false;
    fail(place, errno);
  }
  beside.rename_into_place();
  return true;
}

void put_named(const FilePlace& place, std::string_view bytes) {
  const SignalsWait no_interruption;
  NameBeside beside(place);
  OpenFile file(-1);
  const bool made = beside.take([&](const char* name) {
    file = OpenFile(::open(name, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC | O_NOFOLLOW, mode_at_first(place)));
    return file.is_open();
  });
  if (!made) fail_to_create(place, errno);
  fill(place, file, bytes);
  if (!file.close()) fail(place, errno);
  beside.rename_into_place();
}

}  // namespace

fs::path FilePlace::folder() const { return target.has_parent_path() ? target.parent_path() : fs::path("."); }

void put_whole_file(const FilePlace& place, std::string_view bytes) {
  if (!put_nameless(place, bytes)) put_named(place, bytes);
  const OpenFile folder(::open(place.folder().c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC));
  // Some file systems cannot synchronise a folder; the file is whole either way.
  if (folder.is_open() && ::fsync(folder.number()) != 0 && errno == EIO) refuse_to_write(place.path, write_reason(EIO));
}

}  // namespace ohmwright
