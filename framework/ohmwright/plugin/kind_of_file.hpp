#pragma once

#include <ohmwright/plugin/discovery.hpp>
#include <ohmwright/plugin/library.hpp>
#include <ohmwright/plugin/loaded_kind.hpp>

namespace ohmwright {

/// The kind that a kind file describes, made by the plugin that reads them. It holds that plugin's library. Throws
/// PluginError naming the file, with line and JSON pointer of everything that the plugin finds wrong in it.
LoadedKind kind_of_file(const PluginLibrary& reader, const FoundPlugin& file);

}  // namespace ohmwright
