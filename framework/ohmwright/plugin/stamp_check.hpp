#pragma once

#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/component/plugin_entry.hpp>

namespace ohmwright {

/// A kind as a plugin's stamp names it, known without running anything of the plugin.
struct StampedKind {
  std::string id;                    ///< as its descriptor says it
  std::vector<std::string> aliases;  ///< what people say: "evaporator fan"

  friend bool operator==(const StampedKind&, const StampedKind&) = default;
};

/// A stamp compared with this program.
struct CheckedStamp {
  std::vector<StampedKind> kinds;    ///< as far as they could be read, also of a plugin that does not fit
  bool reads_kind_files = false;     ///< it has no kind of its own and makes them of files
  std::string compiler;              ///< informative: "clang++ 14"
  std::vector<std::string> reasons;  ///< everything that does not fit; empty: the plugin may be loaded
};

/// Compares a plugin's stamp with what this program was built as, and reads the kinds it names.
/// All differences are told at once: magic, size, ABI number with the way on, build tag piece by piece, kinds.
CheckedStamp check_stamp(const PluginStamp& stamp);

/// Whether `id` can name a kind: `[a-z][a-z0-9-]*`.
bool is_kind_id(std::string_view id);

/// Whether that is the kind's id or an alias of it. `spoken`: as `spoken_name` has it.
bool is_called(const StampedKind& kind, std::string_view spoken);

/// Whether a name can be printed as it is: nothing in it that moves a cursor, hides or reverses text.
bool is_shown_as_it_is(std::string_view name);

}  // namespace ohmwright
