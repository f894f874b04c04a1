#include <fcntl.h>
#include <sys/stat.h>

#include <ohmwright/batch/used_files.hpp>
#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/file_descriptor.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::batch {

std::optional<std::string> sha256_of_file(const std::string& path) {
  const FileDescriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  struct stat status {};
  if (!file.is_open() || ::fstat(file.number(), &status) != 0 || !S_ISREG(status.st_mode)) return std::nullopt;
  std::string digest = sha256_of(FileBytes(file.number(), static_cast<std::uint64_t>(status.st_size)));
  return digest.empty() ? std::nullopt : std::optional<std::string>(std::move(digest));
}

void UsedFiles::note(const std::string& what, const std::string& path) {
  add(what, {path, sha256_of_file(path).value_or("unreadable")});
}

void UsedFiles::take_up(const UsedFileMap& earlier) {
  for (const auto& [what, file] : earlier) {
    add(what, file);
    if (const std::optional<std::string> now = sha256_of_file(file.path)) add(what, {file.path, *now});
  }
}

void UsedFiles::add(const std::string& what, const UsedFile& file) {
  const std::lock_guard lock(mutex_);
  const auto [found, is_new] = files_.try_emplace(what, file);
  if (!is_new && found->second.sha256 != file.sha256 && changed_.empty()) changed_ = what + " (" + file.path + ")";
}

UsedFileMap UsedFiles::all() const {
  const std::lock_guard lock(mutex_);
  return files_;
}

void UsedFiles::refuse_changed() const {
  const std::lock_guard lock(mutex_);
  if (!changed_.empty())
    throw InputError("the " + changed_ +
                     " is not what it was when this run began; put it back, or remove what the run has written and "
                     "begin anew, so that all records are by one and the same");
}

}  // namespace ohmwright::batch
