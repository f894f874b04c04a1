#pragma once

#include <functional>
#include <memory>
#include <string>
#include <vector>

#include <ohmwright/component/kind.hpp>
#include <ohmwright/component/plugin_entry.hpp>
#include <ohmwright/plugin/guard.hpp>
#include <ohmwright/plugin/stamp_check.hpp>

namespace ohmwright {

/// Gives a kind back to the plugin that made it.
struct DestroyKind {
  void (*destroy)(Kind*) = nullptr;
  void operator()(Kind* kind) const {
    guarded([&] { destroy(kind); });
  }
};

/// A kind that a plugin made, with its descriptor, asked for once. The plugin's library must outlive it.
struct MadeKind {
  std::unique_ptr<Kind, DestroyKind> kind;
  const Descriptor* descriptor = nullptr;
};

/// Lets a plugin make a kind, `create` being its own call, and checks the descriptor against the names that are known
/// of it. What fails is added to `reasons`; the result is then not to be used.
MadeKind make_kind(const PluginTable& table, const StampedKind& stamped, const std::function<Kind*()>& create,
                   std::vector<std::string>& reasons);

}  // namespace ohmwright
