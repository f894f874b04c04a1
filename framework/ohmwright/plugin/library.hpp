#pragma once

#include <memory>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/plugin_entry.hpp>
#include <ohmwright/plugin/discovery.hpp>

namespace ohmwright {

/// What discovery found, opened and checked again and copied into sealed memory, its stamp compared once more there.
/// Throws PluginError.
FileDescriptor checked_copy(const FoundPlugin& plugin, ::uid_t user, const AllowList& allowed);

/// A plugin in memory with the kinds it made. Held by everything that comes from it.
///
/// Its code stays mapped until the process ends, even after the last holder is gone: what a plugin made may point at
/// its constants from anywhere. The holders therefore only decide when its kinds are destroyed.
class PluginLibrary : public std::enable_shared_from_this<PluginLibrary> {
 public:
  /// Loads what discovery found: opened and checked again, copied into sealed memory, its stamp compared once more
  /// there, every symbol bound at once, its kinds made and their descriptors checked. Throws PluginError, and nothing
  /// else, with everything that is wrong; what the plugin threw comes as text. Only what its static initialisers throw
  /// cannot be caught: the dynamic linker lets no exception through and ends the program.
  static std::shared_ptr<const PluginLibrary> load(const FoundPlugin& plugin, ::uid_t user,
                                                   const AllowList& allowed = {});

  /// The same for a sealed copy of a file that was opened and checked elsewhere: in a worker.
  static std::shared_ptr<const PluginLibrary> load_sealed(const FoundPlugin& plugin, FileDescriptor sealed);

  PluginLibrary(const PluginLibrary&) = delete;
  PluginLibrary(PluginLibrary&&) = delete;
  PluginLibrary& operator=(const PluginLibrary&) = delete;
  PluginLibrary& operator=(PluginLibrary&&) = delete;
  ~PluginLibrary();

  /// The kind of the stamp's line with that index; it holds the library.
  std::shared_ptr<const Kind> kind(std::size_t index) const;
  /// What that kind says of itself, asked for once.
  const Descriptor& descriptor(std::size_t index) const;
  /// The functions of the plugin; for kinds that are made later, of files.
  const PluginTable& table() const;

 private:
  struct Loaded;
  static std::unique_ptr<Loaded> loaded_copy(const FoundPlugin& plugin, FileDescriptor sealed);
  static std::unique_ptr<Loaded> load_checked(const FoundPlugin& plugin, ::uid_t user, const AllowList& allowed);
  explicit PluginLibrary(std::unique_ptr<Loaded> loaded);

  std::unique_ptr<Loaded> loaded_;
};

}  // namespace ohmwright
