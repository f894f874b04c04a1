#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <sys/types.h>
#include <vector>

#include <ohmwright/plugin/stamp_check.hpp>
#include <ohmwright/plugin/trust.hpp>

namespace ohmwright {

inline constexpr std::string_view plugin_suffix = ".ohmplug";  ///< on every system

/// A plugin that may be loaded, known from its stamp alone; or a kind file, known from its text or from the index.
struct FoundPlugin {
  std::filesystem::path path;      ///< canonical
  std::vector<StampedKind> kinds;  ///< at least one, but for the plugin that reads kind files
  std::string compiler;            ///< informative
  std::uint64_t device = 0;        ///< with `inode`: one file by whatever name it was reached
  std::uint64_t inode = 0;
  bool reads_kind_files = false;
  bool from_installation = false;                          ///< found in the first of the folders
  std::shared_ptr<const std::string> kind_file = nullptr;  ///< of a kind file: its text; null for a library
};

/// A plugin or a folder that was refused, and everything that is wrong with it.
struct RefusedPlugin {
  std::filesystem::path path;
  std::vector<std::string> reasons;
  std::vector<StampedKind> kinds;  ///< what its stamp names, where it could be read; else what names of files tell
  /// The plugin that was found before and has all kinds whose names are taken: another build of this one. Else empty.
  std::filesystem::path another_build_of = {};
};

/// Where to look, in this order: the installation's folder, those of OHMWRIGHT_PLUGIN_PATH (`search_path`, separated by
/// colons; empty pieces are left out), those of --plugins. The environment is read by the caller, at the edge.
std::vector<std::filesystem::path> plugin_folders(const std::filesystem::path& installation,
                                                  std::optional<std::string_view> search_path,
                                                  const std::vector<std::filesystem::path>& from_options);

/// Reads and checks the stamp of a file that is trusted. Throws PluginError with all reasons.
FoundPlugin read_plugin(const ByteSource& bytes, const TrustedFile& file);

/// What a search found; nothing of any plugin has run.
struct Discovery {
  std::vector<FoundPlugin> plugins;  ///< libraries and kind files, in the order found
  std::optional<FoundPlugin> kind_file_reader = std::nullopt;
  std::vector<RefusedPlugin> refused;
};

/// Searches the folders for `*.ohmplug` and `*.kind.json`, and the folders right below each (one folder a kind); files
/// come sorted by name, those of the folder itself first. A folder or file that is reached twice counts once; a kind or
/// an alias that is already there makes the later plugin a refused one, and so does a second reader of kind files;
/// without a reader every kind file is refused. The first folder may be absent (an installation without plugins); any
/// other that is absent is refused.
/// A folder that others can write to is looked through only for files whose bytes are `allowed`.
///
/// In the installation a file named after its kind, in a folder of that name, comes before all others: so `find_named`
/// can tell what a search of everything would find.
Discovery discover(const std::vector<std::filesystem::path>& folders, ::uid_t user, const AllowList& allowed = {});

/// The plugin NAME/NAME.ohmplug or kind file NAME/NAME.kind.json of the installation's folder, without a look at any
/// other: what `discover` finds of that name, unless the alias of another kind has it. `name`: an id, or an alias, as
/// `spoken_name` has it, that the installation's index knows and that the plugin still has. Nothing where it is not
/// there, is not trusted or does not fit, or where symbolic links lead to it; then only `discover` can tell.
std::optional<FoundPlugin> find_named(const std::filesystem::path& installation, std::string_view name, ::uid_t user);

}  // namespace ohmwright
