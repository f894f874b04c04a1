// This host loads libraries alone: reading kind files would bring the whole of document/ into a second build by another
// compiler, and no code of a plugin crosses there.

#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/kind_of_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>

namespace ohmwright {

bool is_named_as_kind_file(const std::filesystem::path& /*path*/) { return false; }
std::vector<StampedKind> kind_named_by(const std::filesystem::path& /*path*/) { return {}; }
std::vector<std::string> reasons_of(const std::vector<Problem>& /*problems*/) { return {}; }

FoundPlugin read_kind_file(const ByteSource& /*bytes*/, const TrustedFile& file) {
  throw PluginError(file.path, {"this host reads no kind files"});
}

LoadedKind kind_of_file(const PluginLibrary& /*reader*/, const FoundPlugin& file) {
  throw PluginError(file.path, {"this host reads no kind files"});
}

}  // namespace ohmwright
