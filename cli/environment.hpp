#pragma once

#include <filesystem>
#include <iosfwd>
#include <sys/types.h>
#include <vector>

#include <ohmwright/plugin/registry.hpp>
#include <ohmwright/report/paragraph.hpp>

namespace ohmwright::cli {

/// Where the program's own files are, found relative to the program.
struct Locations {
  std::filesystem::path plugins;
  std::filesystem::path schemas;
  std::filesystem::path meters;
  std::filesystem::path appliances;
  std::filesystem::path translations;
  std::filesystem::path worker;     ///< the program that runs plugins from outside the installation
  std::filesystem::path templates;  ///< of folders of new kinds
  std::filesystem::path prefix;     ///< of the installation
  std::filesystem::path settings;   ///< the user's own files; empty where the environment names no place for them
};

/// The list of plugins that the user permitted.
inline std::filesystem::path allow_list_file(const Locations& locations) {
  return locations.settings.empty() ? std::filesystem::path() : locations.settings / "allowed-plugins.json";
}

/// What the registry was made from: for verbs that look at plugins and not at kinds.
struct PluginSearch {
  std::vector<std::filesystem::path> folders;  ///< the installation's first
  ::uid_t user = 0;
  RegistryOptions options;
};

/// Everything a verb may reach: made once in main and handed down.
struct Environment {
  std::ostream& out;
  std::ostream& err;
  const Locations& locations;
  const PluginSearch& search;
  const Registry& registry;
  PageStyle page;
};

}  // namespace ohmwright::cli
