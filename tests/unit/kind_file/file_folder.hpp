#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/registry.hpp>

#include "../plugin/plugin_folder.hpp"

namespace ohmwright::kind_file::testing_support {

/// A plugin folder with kind files in it and, beside them, the plugin that reads them.
class FileFolder : public test::PluginFolder {
 public:
  std::filesystem::path add_file(std::string_view text, const std::string& as) const {
    const auto* begin = reinterpret_cast<const std::byte*>(text.data());
    return write(as, {begin, begin + text.size()});
  }
  std::filesystem::path add_reader(const std::string& as = "kind-file.ohmplug") const {
    return write(as, test::bytes_of(OHMWRIGHT_KIND_FILE_READER));
  }
  Registry registry() const { return {list(), ::geteuid()}; }
};

/// What the registry says when it is asked for the kind; asked for twice, for a second attempt must not end otherwise.
inline std::string refusal(const Registry& registry, std::string_view kind) {
  std::string first;
  for (int attempt = 0; attempt < 2; ++attempt) {
    try {
      registry.kind(kind);
      return "it was made";
    } catch (const Error& error) {
      if (attempt == 1 && first != error.what()) return "another text the second time";
      first = error.what();
    }
  }
  return first;
}

}  // namespace ohmwright::kind_file::testing_support
