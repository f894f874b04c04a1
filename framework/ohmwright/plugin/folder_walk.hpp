#pragma once

#include <filesystem>
#include <string>
#include <sys/stat.h>
#include <sys/types.h>
#include <vector>

#include <ohmwright/plugin/file_descriptor.hpp>

namespace ohmwright {

/// The way from the root folder down to a folder, each entered through the descriptor of the one above it and checked.
///
/// A walk can go on to the next folder: what both ways share is not entered again, so the checks of a tree's folders
/// cost one look at each. Meant for one pass over a tree; what is changed behind it is not seen.
class FolderWalk {
 public:
  /// For a program that runs as `user`.
  explicit FolderWalk(::uid_t user) : user_(user) {}

  /// Goes to the folder, an absolute path without symbolic links. False when a folder of the way cannot be entered.
  bool go_to(const std::filesystem::path& folder);

  /// The folder reached, as the descriptor of a path; valid until the walk goes on, after a `go_to` that gave true.
  int here() const { return way_.back().descriptor.number(); }

  /// Why the folders of the way cannot be trusted, from the root down; empty when they can.
  std::vector<std::string> distrust() const;

  ::uid_t user() const { return user_; }

 private:
  struct Step {
    std::string name;
    FileDescriptor descriptor;
    std::vector<std::string> distrust;
  };

  /// The folder `name` of that way, from the descriptor of the one above it.
  bool enter(int from, const std::filesystem::path& way, std::filesystem::path::iterator name);

  ::uid_t user_;
  std::vector<Step> way_;
  std::string barred_;  ///< why the last `go_to` could not enter a folder
};

/// Why a file or folder belongs to somebody who is not trusted, into `reasons`; nothing is added for root and `user`.
/// `what` is how the sentence begins: "the file".
void check_owner(const struct ::stat& status, ::uid_t user, const std::string& what, const std::filesystem::path& path,
                 std::vector<std::string>& reasons);

/// That others can write to it, into `reasons`; `what` ends the sentence: "the file".
void check_mode(const struct ::stat& status, const std::string& what, const std::filesystem::path& path,
                std::vector<std::string>& reasons);

}  // namespace ohmwright
