#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string_view>
#include <sys/types.h>
#include <vector>

#include <ohmwright/plugin/allowed/allow_list.hpp>
#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/plugin/worker/worker_settings.hpp>

namespace ohmwright {

/// Which plugins are taken, and how they are run.
struct RegistryOptions {
  AllowList allowed = {};  ///< files that are taken whoever can write to them
  /// How libraries from outside the first folder, the installation's, are run; nothing: in this process, as its own.
  std::optional<WorkerSettings> worker = {};
};

/// The kinds there are. Made once by the program, handed down, and the only way to a plugin.
///
/// A kind that lies in the installation in a folder of its name is found by that name alone. For all else it reads the
/// stamps of all plugins, and the kind files, once. A plugin is loaded only when a kind of it is asked for: for a kind
/// file, the plugin that reads them. Safe to use from several threads.
class Registry {
 public:
  /// Searches `folders` (see `plugin_folders`) for plugins that `user`, usually the effective user, can trust.
  Registry(const std::vector<std::filesystem::path>& folders, ::uid_t user, RegistryOptions options = {});
  Registry(const Registry&) = delete;
  Registry(Registry&&) noexcept;
  Registry& operator=(const Registry&) = delete;
  Registry& operator=(Registry&&) noexcept;
  ~Registry();

  /// Plugins and kind files that can be asked for, with their kinds and aliases; no plugin has run for this.
  const std::vector<FoundPlugin>& plugins() const;
  /// Plugins and folders that were refused, with every reason.
  const std::vector<RefusedPlugin>& refused() const;

  /// The kind of that id or alias ("Evaporator fan" finds "evaporator-fan"), its plugin loaded if it was not yet.
  /// Throws InputError for a name that nobody has, with the nearest one that there is; PluginError when the plugin that
  /// has it was refused or cannot be loaded. The reference holds as long as the registry.
  const LoadedKind& kind(std::string_view name_or_alias) const;

 private:
  class State;
  std::unique_ptr<State> state_;
};

}  // namespace ohmwright
