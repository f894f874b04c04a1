#pragma once

#include <filesystem>
#include <iosfwd>

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
};

/// Everything a verb may reach: made once in main and handed down.
struct Environment {
  std::ostream& out;
  std::ostream& err;
  const Locations& locations;
  const Registry& registry;
  PageStyle page;
};

}  // namespace ohmwright::cli
