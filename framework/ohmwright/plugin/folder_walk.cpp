#include <cerrno>
#include <fcntl.h>
#include <iterator>
#include <system_error>
#include <utility>

#include <ohmwright/plugin/folder_walk.hpp>
#include <ohmwright/plugin/plugin_error.hpp>

namespace ohmwright {

namespace {

namespace fs = std::filesystem;

constexpr ::mode_t others_can_write = S_IWGRP | S_IWOTH;

std::string octal(::mode_t mode) {
  std::string text = "0000";
  for (unsigned digit = 0; digit < 4; ++digit) text[3 - digit] = static_cast<char>('0' + ((mode >> (3 * digit)) & 7U));
  return text;
}

bool is_owner_trusted(const struct ::stat& status, ::uid_t user) { return status.st_uid == 0 || status.st_uid == user; }

/// The first names of `way`, with `last` as the last one.
fs::path path_down_to(const fs::path& way, fs::path::iterator last) {
  fs::path path;
  for (auto name = way.begin(); name != std::next(last); ++name) path /= *name;
  return path;
}

/// In a folder with the sticky bit others cannot rename or remove what is not theirs.
bool can_others_change(const struct ::stat& folder) {
  return (folder.st_mode & others_can_write) != 0 && (folder.st_mode & S_ISVTX) == 0;
}

}  // namespace

void check_owner(const struct ::stat& status, ::uid_t user, const std::string& what, const fs::path& path,
                 std::vector<std::string>& reasons) {
  if (is_owner_trusted(status, user)) return;
  reasons.push_back(what + " belongs to user " + std::to_string(status.st_uid) + ", neither to root nor to you (user " +
                    std::to_string(user) + "); if you trust it: " + (user == 0 ? "" : "sudo ") + "chown " +
                    std::to_string(user) + " " + shell_word(path));
}

void check_mode(const struct ::stat& status, const std::string& what, const fs::path& path,
                std::vector<std::string>& reasons) {
  if ((status.st_mode & others_can_write) == 0) return;
  reasons.push_back("others can write to " + what + " (mode " + octal(status.st_mode) +
                    "); if you trust what is in it: chmod go-w " + shell_word(path));
}

bool FolderWalk::go_to(const fs::path& folder) {
  barred_.clear();
  std::size_t depth = 0;
  for (auto name = folder.begin(); name != folder.end(); ++name, ++depth) {
    if (depth < way_.size() && way_[depth].name == name->native()) continue;
    way_.erase(way_.begin() + static_cast<std::ptrdiff_t>(depth), way_.end());
    if (!enter(depth == 0 ? AT_FDCWD : here(), folder, name)) return false;
  }
  way_.erase(way_.begin() + static_cast<std::ptrdiff_t>(depth), way_.end());
  return depth > 0;
}

std::vector<std::string> FolderWalk::distrust() const {
  std::vector<std::string> reasons;
  for (const Step& step : way_) reasons.insert(reasons.end(), step.distrust.begin(), step.distrust.end());
  if (!barred_.empty()) reasons.push_back(barred_);
  return reasons;
}

bool FolderWalk::enter(int from, const fs::path& way, fs::path::iterator name) {
  // Paths and sentences are made for the few that break a rule: a start enters every folder of plugins.
  const auto folder = [&] { return path_down_to(way, name); };
  FileDescriptor next(::openat(from, name->c_str(), O_PATH | O_DIRECTORY | O_NOFOLLOW | O_CLOEXEC));
  struct ::stat status {};
  if (!next.is_open() || ::fstat(next.number(), &status) != 0) {
    const int error = errno;
    barred_ = "the folder " + shell_word(folder()) + " cannot be entered: " + std::generic_category().message(error);
    return false;
  }
  Step step{name->native(), std::move(next), {}};
  if (!is_owner_trusted(status, user_))
    check_owner(status, user_, "the folder " + shell_word(folder()), folder(), step.distrust);
  if (can_others_change(status)) check_mode(status, "the folder " + shell_word(folder()), folder(), step.distrust);
  way_.push_back(std::move(step));
  return true;
}

}  // namespace ohmwright
