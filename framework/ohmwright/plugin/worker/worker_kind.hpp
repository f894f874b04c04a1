#pragma once

#include <vector>

#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>
#include <ohmwright/plugin/worker/worker_settings.hpp>

namespace ohmwright {

/// The kinds of a plugin that runs in a process of its own. They, and the parts that they make, behave as those of a
/// plugin in this process: whatever the plugin does to its process comes out of a call as an exception that names it,
/// and the next call starts a new process. Throws PluginError where it is refused or does not load.
std::vector<LoadedKind> kinds_in_worker(const FoundPlugin& plugin, ::uid_t user, const AllowList& allowed,
                                        const WorkerSettings& settings);

}  // namespace ohmwright
