#include <array>
#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <system_error>
#include <utility>

#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/sealed_copy.hpp>
#include <ohmwright/plugin/trust.hpp>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

constexpr ::mode_t others_can_write = S_IWGRP | S_IWOTH;

std::string octal(::mode_t mode) {
  std::string text = "0000";
  for (unsigned digit = 0; digit < 4; ++digit) text[3 - digit] = static_cast<char>('0' + ((mode >> (3 * digit)) & 7U));
  return text;
}

std::string system_text(int error) { return std::generic_category().message(error); }

std::string sort_of(::mode_t mode) {
  if (S_ISDIR(mode)) return "a folder";
  if (S_ISFIFO(mode)) return "a pipe";
  if (S_ISSOCK(mode)) return "a socket";
  if (S_ISLNK(mode)) return "a symbolic link";
  return "a device";
}

/// The checks, gathered on the way from the root folder down.
class Walk {
 public:
  explicit Walk(::uid_t user) : user_(user) {}

  /// Descends into a canonical folder, checking each on the way. False when it cannot be entered.
  bool descend(const fs::path& folder) {
    fs::path so_far = "/";
    if (!enter(AT_FDCWD, "/", so_far)) return false;
    for (const fs::path& name : folder.relative_path()) {
      so_far /= name;
      if (!enter(here_.number(), name.c_str(), so_far)) return false;
    }
    return true;
  }

  /// Opens the file of that name in the folder reached.
  TrustedFile open(const fs::path& path) {
    TrustedFile file;
    file.path = path;
    // Not to wait for a pipe's other end; a symbolic link here was put in after the path was resolved.
    file.descriptor = FileDescriptor(
        ::openat(here_.number(), path.filename().c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
    struct ::stat status {};
    if (!file.descriptor.is_open() || ::fstat(file.descriptor.number(), &status) != 0) {
      reasons.push_back("it cannot be opened: " + system_text(errno));
      return file;
    }
    check_file(status, path);
    if (!S_ISREG(status.st_mode)) file.descriptor = FileDescriptor();
    file.size = static_cast<std::uint64_t>(status.st_size);
    file.device = status.st_dev;
    file.inode = status.st_ino;
    return file;
  }

  std::vector<std::string> reasons;

 private:
  bool enter(int from, const char* name, const fs::path& folder) {
    FileDescriptor next(::openat(from, name, O_PATH | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
    struct ::stat status {};
    if (!next.is_open() || ::fstat(next.number(), &status) != 0) {
      reasons.push_back("the folder " + shell_word(folder) + " cannot be entered: " + system_text(errno));
      return false;
    }
    here_ = std::move(next);
    check_owner(status, "the folder " + shell_word(folder), folder);
    if ((status.st_mode & others_can_write) != 0 && (status.st_mode & S_ISVTX) == 0) {
      reasons.push_back("others can write to the folder " + shell_word(folder) + " (mode " + octal(status.st_mode) +
                        "); if you trust what is in it: chmod go-w " + shell_word(folder));
    }
    return true;
  }

  void check_file(const struct ::stat& status, const fs::path& path) {
    if (!S_ISREG(status.st_mode)) {
      reasons.push_back("it is " + sort_of(status.st_mode) + ", not a regular file");
      return;
    }
    check_owner(status, "the file", path);
    if ((status.st_mode & others_can_write) != 0) {
      reasons.push_back("others can write to the file (mode " + octal(status.st_mode) +
                        "); if you trust what is in it: chmod go-w " + shell_word(path));
    }
  }

  void check_owner(const struct ::stat& status, const std::string& what, const fs::path& path) {
    if (status.st_uid == 0 || status.st_uid == user_) return;
    reasons.push_back(what + " belongs to user " + std::to_string(status.st_uid) +
                      ", neither to root nor to you (user " + std::to_string(user_) + "); if you trust it: " +
                      (user_ == 0 ? "" : "sudo ") + "chown " + std::to_string(user_) + " " + shell_word(path));
  }

  ::uid_t user_;
  FileDescriptor here_;
};

}  // namespace

ExaminedFile examine_file(const fs::path& path, ::uid_t user) {
  std::error_code error;
  const fs::path canonical = fs::canonical(path, error);
  if (error) throw PluginError(path, {"it cannot be opened: " + error.message()});
  Walk walk(user);
  ExaminedFile examined;
  if (walk.descend(canonical.parent_path())) examined.file = walk.open(canonical);
  examined.distrust = std::move(walk.reasons);
  return examined;
}

TrustedFile open_trusted(const fs::path& path, ::uid_t user) {
  ExaminedFile examined = examine_file(path, user);
  if (!examined.distrust.empty()) throw PluginError(path, std::move(examined.distrust));
  return std::move(examined.file);
}

std::string reason_not_listed(const fs::path& path) {
  return "it is not on the list of allowed plugins, and nothing else is taken here (OHMWRIGHT_ONLY_ALLOWED_PLUGINS); "
         "if you trust it: ohmwright plugin allow " +
         shell_word(path);
}

TrustedFile open_admitted(const fs::path& path, ::uid_t user, const AllowList& allowed, bool from_installation) {
  ExaminedFile examined = examine_file(path, user);
  const bool must_be_listed = allowed.is_the_only_way() && !from_installation;
  if (examined.distrust.empty() && !must_be_listed) return std::move(examined.file);
  if (!allowed.empty() && examined.file.descriptor.is_open()) {
    FileDescriptor copy = sealed_copy(examined.file);
    if (allowed.permits(sha256_of(FileBytes(copy.number(), examined.file.size)))) {
      examined.file.descriptor = std::move(copy);
      return std::move(examined.file);
    }
  }
  if (must_be_listed && examined.file.descriptor.is_open()) examined.distrust.push_back(reason_not_listed(path));
  throw PluginError(path, std::move(examined.distrust));
}

std::vector<std::string> distrust_of_folder(const fs::path& folder, ::uid_t user) {
  std::error_code error;
  const fs::path canonical = fs::canonical(folder, error);
  if (error) return {"the folder cannot be read: " + error.message()};
  if (!fs::is_directory(canonical, error)) return {"it is not a folder"};
  Walk walk(user);
  walk.descend(canonical);
  return std::move(walk.reasons);
}

}  // namespace ohmwright
