#pragma once

#include <filesystem>
#include <span>
#include <string>
#include <string_view>
#include <sys/types.h>
#include <vector>

namespace ohmwright {

/// One plugin or kind file that the user permitted, by what is in it.
struct AllowedPlugin {
  std::string sha256;              ///< of the whole file, 64 hexadecimal digits
  std::string name;                ///< its path when it was permitted: for people, nothing is decided by it
  std::vector<std::string> kinds;  ///< the same: what its stamp named
};

/// The files that the user permitted though others own them or can write to them (schemas/allowed-plugins.schema.json).
///
/// An entry stands for bytes, not for a name: a copy of them is what is hashed and what is loaded, so it does not
/// matter who else could have changed the file. It lifts the rules of owner and mode (`open_trusted`) and nothing else:
/// stamp, names, descriptor and findings are checked as ever, and the plugin runs where any other of its folder would.
class AllowList {
 public:
  bool permits(std::string_view sha256) const;
  bool empty() const { return entries_.empty(); }

  /// From now on a file from outside the installation is taken only when its bytes are on the list, whoever owns it.
  void make_the_only_way() { is_the_only_way_ = true; }
  bool is_the_only_way() const { return is_the_only_way_; }

  std::span<const AllowedPlugin> entries() const { return entries_; }

  /// Permits these bytes; an entry of the same digest is replaced.
  void allow(AllowedPlugin plugin);
  /// Takes back what has that digest, or a name (its path) or kind of that text. Gives what was taken out.
  std::vector<AllowedPlugin> revoke(std::string_view digest_name_or_kind);

  /// The list as its file holds it.
  std::string text() const;

 private:
  std::vector<AllowedPlugin> entries_;
  bool is_the_only_way_ = false;
};

/// The list in that file; an empty one where there is no file. It must itself be one that only `user` or root can have
/// written. Throws PluginError when it is not, DocumentError for what is wrong in it.
AllowList read_allow_list(const std::filesystem::path& file, ::uid_t user);

}  // namespace ohmwright
