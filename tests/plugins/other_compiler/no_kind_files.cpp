// This host loads libraries into its own process alone: kind files, the list of allowed ones and worker processes would
// bring the whole of document/ into a second build by another compiler, and no code of a plugin crosses there.

#include <ohmwright/plugin/allowed/allow_list.hpp>
#include <ohmwright/plugin/allowed/digest.hpp>
#include <ohmwright/plugin/kind_file.hpp>
#include <ohmwright/plugin/kind_of_file.hpp>
#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/worker/worker_kind.hpp>

namespace ohmwright {

bool is_named_as_kind_file(const std::filesystem::path& /*path*/) { return false; }
std::vector<StampedKind> kind_named_by(const std::filesystem::path& /*path*/) { return {}; }
std::vector<std::string> reasons_of(const std::vector<Problem>& /*problems*/) { return {}; }

KindIndex read_kind_index(const std::filesystem::path& /*folder*/, ::uid_t /*user*/) { return {}; }

FoundPlugin read_kind_file(const ByteSource& /*bytes*/, const TrustedFile& file, const KindIndex& /*index*/) {
  throw PluginError(file.path, {"this host reads no kind files"});
}

LoadedKind kind_of_file(const PluginLibrary& /*reader*/, const FoundPlugin& file) {
  throw PluginError(file.path, {"this host reads no kind files"});
}

bool AllowList::permits(std::string_view /*sha256*/) const { return false; }
std::string sha256_of(const ByteSource& /*bytes*/) { return {}; }

std::vector<LoadedKind> kinds_in_worker(const FoundPlugin& plugin, ::uid_t /*user*/, const AllowList& /*allowed*/,
                                        const WorkerSettings& /*settings*/) {
  throw PluginError(plugin.path, {"this host starts no workers"});
}

}  // namespace ohmwright
