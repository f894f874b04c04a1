#include <cerrno>
#include <fcntl.h>
#include <sys/stat.h>
#include <system_error>
#include <utility>

#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/folder_walk.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/sealed_copy.hpp>
#include <ohmwright/plugin/trust.hpp>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

std::string system_text(int error) { return std::generic_category().message(error); }

std::string sort_of(::mode_t mode) {
  if (S_ISDIR(mode)) return "a folder";
  if (S_ISFIFO(mode)) return "a pipe";
  if (S_ISSOCK(mode)) return "a socket";
  if (S_ISLNK(mode)) return "a symbolic link";
  return "a device";
}

void check_file(const struct ::stat& status, ::uid_t user, const fs::path& path, std::vector<std::string>& reasons) {
  if (!S_ISREG(status.st_mode)) {
    reasons.push_back("it is " + sort_of(status.st_mode) + ", not a regular file");
    return;
  }
  check_owner(status, user, "the file", path, reasons);
  check_mode(status, "the file", path, reasons);
}

}  // namespace

ExaminedFile examine_file(const fs::path& canonical, FolderWalk& walk) {
  ExaminedFile examined;
  TrustedFile& file = examined.file;
  file.path = canonical;
  const bool is_reached = walk.go_to(canonical.parent_path());
  examined.distrust = walk.distrust();
  if (!is_reached) return examined;
  // Not to wait for a pipe's other end; a symbolic link here was put in after the path was resolved.
  file.descriptor = FileDescriptor(
      ::openat(walk.here(), canonical.filename().c_str(), O_RDONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC));
  struct ::stat status {};
  if (!file.descriptor.is_open() || ::fstat(file.descriptor.number(), &status) != 0) {
    examined.distrust.push_back("it cannot be opened: " + system_text(errno));
    return examined;
  }
  check_file(status, walk.user(), canonical, examined.distrust);
  if (!S_ISREG(status.st_mode)) file.descriptor = FileDescriptor();
  file.size = static_cast<std::uint64_t>(status.st_size);
  file.device = status.st_dev;
  file.inode = status.st_ino;
  return examined;
}

ExaminedFile examine_file(const fs::path& path, ::uid_t user) {
  std::error_code error;
  const fs::path canonical = fs::canonical(path, error);
  if (error) throw PluginError(path, {"it cannot be opened: " + error.message()});
  FolderWalk walk(user);
  return examine_file(canonical, walk);
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
  return admit(examine_file(path, user), path, allowed, from_installation);
}

TrustedFile admit(ExaminedFile examined, const fs::path& path, const AllowList& allowed, bool from_installation) {
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
  FolderWalk walk(user);
  walk.go_to(canonical);
  return walk.distrust();
}

}  // namespace ohmwright
