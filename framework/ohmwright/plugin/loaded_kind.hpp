#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/plugin/guard.hpp>

namespace ohmwright {

/// A kind whose plugin is loaded, and where its data lie.
class LoadedKind {
 public:
  /// A kind that holds its library, what it says of itself, and the library or kind file that it comes from.
  LoadedKind(std::shared_ptr<const Kind> kind, const Descriptor& descriptor, std::filesystem::path path);
  /// The same of a kind in a process of its own, with what the kernel would not take away from that process.
  LoadedKind(std::shared_ptr<const Kind> kind, const Descriptor& descriptor, std::filesystem::path path,
             std::vector<std::string> not_held_back);

  const Kind& kind() const { return *kind_; }
  const Descriptor& descriptor() const { return *descriptor_; }
  /// The library, or the kind file.
  const std::filesystem::path& path() const { return path_; }

  /// Whether it runs in a process of its own, as a plugin from outside the installation does.
  bool is_in_worker() const { return in_worker_; }
  /// What that process could not be made to give up on this machine ("its memory has no limit"); usually nothing.
  const std::vector<std::string>& not_held_back() const { return not_held_back_; }

  /// The folder of that file; generic ratings and test vectors lie beside it. They need not exist.
  std::filesystem::path data_folder() const { return path_.parent_path(); }
  std::filesystem::path ratings_folder() const { return data_folder() / "ratings"; }
  std::filesystem::path vectors_folder() const { return data_folder() / "vectors"; }

  /// A part with these ratings (see Kind::make_part); null with at least one problem when they cannot be.
  /// It holds its kind and library and may outlive the registry. Throws PluginError when the plugin fails.
  std::shared_ptr<const Part> make_part(const ValueNode* ratings, std::vector<Problem>& problems) const;

  /// Result of any other call into the plugin: `kind.call("fitting rows", [&] { return kind.kind().fit(request); })`.
  /// Throws PluginError naming `what` when the plugin throws. The result must be of the program's or core's types.
  template <class Call>
  std::invoke_result_t<Call> call(std::string_view what, Call&& into_plugin) const {
    using Result = std::invoke_result_t<Call>;
    if constexpr (std::is_void_v<Result>) {
      if (const auto thrown = guarded(std::forward<Call>(into_plugin))) fail(what, *thrown);
    } else {
      std::optional<Result> result;
      if (const auto thrown = guarded([&] { result.emplace(into_plugin()); })) fail(what, *thrown);
      return *std::move(result);
    }
  }

 private:
  [[noreturn]] void fail(std::string_view what, const std::string& thrown) const;

  std::shared_ptr<const Kind> kind_;
  const Descriptor* descriptor_;
  std::filesystem::path path_;
  bool in_worker_ = false;
  std::vector<std::string> not_held_back_;
};

}  // namespace ohmwright
