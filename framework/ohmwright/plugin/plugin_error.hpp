#pragma once

#include <filesystem>
#include <string>
#include <vector>

#include <ohmwright/plugin/stamp_check.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright {

/// A plugin or kind file that was refused, or one that failed: exit 4. All reasons at once, one line
/// "PATH: plugin refused: …" ("PATH: kind file refused: …") each.
class PluginError : public Error {
 public:
  /// `reasons` must not be empty. `kinds`: what the plugin's stamp names, where it could be read.
  PluginError(std::filesystem::path path, std::vector<std::string> reasons, std::vector<StampedKind> kinds = {});

  const std::filesystem::path& path() const { return path_; }
  const std::vector<std::string>& reasons() const { return reasons_; }
  const std::vector<StampedKind>& kinds() const { return kinds_; }

 private:
  std::filesystem::path path_;
  std::vector<std::string> reasons_;
  std::vector<StampedKind> kinds_;
};

/// A path as a shell reads it and as it can be shown: plain where it can be, quoted where it must be.
std::string shell_word(const std::filesystem::path& path);

}  // namespace ohmwright
