#pragma once

#include <cstddef>
#include <cstdint>
#include <string_view>
#include <vector>

#include <boost/version.hpp>

#include <ohmwright/quantity/core_api.hpp>

// The boundary between the program and a plugin: a stamp that is read from the file before anything of it runs, and one
// entry function whose name carries the ABI number. A plugin exports these two symbols and nothing else.

namespace ohmwright {

// Not included, because the program reads stamps without them:
class Kind;       // <ohmwright/component/kind.hpp>
class ValueNode;  // <ohmwright/component/value_tree.hpp>
struct Problem;   // <ohmwright/quantity/error.hpp>

/// Number of the plugin ABI. Not the release number: it changes when anything in core's headers that crosses the
/// boundary changes its layout or meaning (docs/architecture.md).
inline constexpr std::uint32_t plugin_abi = 2;

// NOLINTBEGIN(modernize-avoid-c-arrays): a layout of bytes in a file, filled from literals, which std::array cannot be
inline constexpr char stamp_magic[16] = "ohmwright-stamp";

/// What a plugin's file says of itself without being run.
///
/// `magic`, `size` and `abi` keep their places for ever, so that any program can say of any plugin which of the two is
/// the newer; the rest may change with the ABI number.
struct PluginStamp {
  char magic[16];
  std::uint32_t size;  ///< sizeof(PluginStamp)
  std::uint32_t abi;
  char build_tag[112];  ///< must equal the program's own, `OHMWRIGHT_BUILD_TAG`
  char compiler[48];    ///< informative
  char kinds[832];      ///< one line a kind: id, then its aliases, tab-separated; or `reads_kind_files` alone
};
// NOLINTEND(modernize-avoid-c-arrays)
static_assert(offsetof(PluginStamp, abi) == 20 && sizeof(PluginStamp) == 1016, "the stamp has no padding");

/// What stands in a stamp instead of kinds where the plugin has none of its own and makes them of files. No kind can
/// have that name.
inline constexpr std::string_view reads_kind_files = "*.kind.json";

/// What the entry function returns. The program copies nothing: the table lives in the plugin.
struct PluginTable {
  std::uint32_t size;  ///< sizeof(PluginTable)
  std::uint32_t kind_count;
  /// In the order of the stamp's lines; may throw. Null in a plugin that reads kind files.
  Kind* (*create_kind)(std::uint32_t index);
  void (*destroy_kind)(Kind* kind);
  /// Makes the kind that a kind file describes. The document is valid against schemas/kind.schema.json and is gone
  /// after the call. What else is wrong with it is added to `problems`, all at once; the result is then null. Null in a
  /// plugin with kinds of its own.
  Kind* (*create_kind_from)(const ValueNode& document, std::vector<Problem>& problems) = nullptr;
};

using PluginEntry = const PluginTable*();

inline constexpr const char* plugin_entry_name = "ohmwright_plugin_entry_v2";
inline constexpr const char* plugin_stamp_section = ".ohmwright_stamp";

/// Number of kinds that a stamp's text names: its lines.
constexpr std::uint32_t kinds_named_in(std::string_view kinds_text) {
  std::uint32_t lines = kinds_text.empty() || kinds_text.back() == '\n' ? 0 : 1;
  for (const char letter : kinds_text) lines += letter == '\n' ? 1 : 0;
  return lines;
}

}  // namespace ohmwright

#define OHMWRIGHT_STRINGIZE_(x) #x
#define OHMWRIGHT_STRINGIZE(x) OHMWRIGHT_STRINGIZE_(x)

#ifdef _LIBCPP_VERSION
#define OHMWRIGHT_STDLIB_TAG "libc++-abi" OHMWRIGHT_STRINGIZE(_LIBCPP_ABI_VERSION)
#else
#define OHMWRIGHT_STDLIB_TAG "libstdc++-cxx11abi" OHMWRIGHT_STRINGIZE(_GLIBCXX_USE_CXX11_ABI)
#endif

#ifdef _GLIBCXX_DEBUG
#define OHMWRIGHT_CONTAINER_TAG "debug-containers"
#else
#define OHMWRIGHT_CONTAINER_TAG "plain-containers"
#endif

// g++ and clang++ number the revisions of the Itanium C++ ABI differently, but agree on it.
#ifdef __GXX_ABI_VERSION
#define OHMWRIGHT_CXX_ABI_TAG "itanium"
#else
#define OHMWRIGHT_CXX_ABI_TAG "other-abi"
#endif

#if defined(__clang__)
#define OHMWRIGHT_COMPILER_TEXT "clang++ " OHMWRIGHT_STRINGIZE(__clang_major__)
#else
#define OHMWRIGHT_COMPILER_TEXT "g++ " OHMWRIGHT_STRINGIZE(__GNUC__)
#endif

/// What must be equal on both sides for C++ objects to cross: C++ ABI, standard library and its switches, C++ standard,
/// Boost, pointer size. The compiler's name is not in it: g++ and clang++ cross both ways.
#define OHMWRIGHT_BUILD_TAG                                                                              \
  OHMWRIGHT_CXX_ABI_TAG " " OHMWRIGHT_STDLIB_TAG " " OHMWRIGHT_CONTAINER_TAG " c++" OHMWRIGHT_STRINGIZE( \
      __cplusplus) " boost" OHMWRIGHT_STRINGIZE(BOOST_VERSION) " ptr" OHMWRIGHT_STRINGIZE(__SIZEOF_POINTER__)

/// The stamp alone, with every field open: for tests. Plugins use OHMWRIGHT_PLUGIN.
#define OHMWRIGHT_PLUGIN_STAMP(abi_number, tag_text, kinds_text)                                                     \
  extern "C" {                                                                                                       \
  extern OHMWRIGHT_CORE_API const ohmwright::PluginStamp ohmwright_plugin_stamp;                                     \
  __attribute__((section(".ohmwright_stamp"), used)) const ohmwright::PluginStamp ohmwright_plugin_stamp = {         \
      "ohmwright-stamp", sizeof(ohmwright::PluginStamp), abi_number, tag_text, OHMWRIGHT_COMPILER_TEXT, kinds_text}; \
  }

/// Writes the stamp and the entry function of a plugin. Use once, in one source file that includes
/// <ohmwright/component/kind.hpp>, outside any namespace:
///
///     OHMWRIGHT_PLUGIN("fan-motor\tfan\tevaporator fan", create, 1)
///
/// `kinds_text` is one line a kind (id and aliases, tab-separated), `create` a function `Kind* (std::uint32_t index)`
/// that makes the kind of that line with `new`, `count` the number of lines.
#define OHMWRIGHT_PLUGIN(kinds_text, create, count)                                                             \
  static_assert(ohmwright::kinds_named_in(kinds_text) == (count), "one line of the kinds' text for each kind"); \
  OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi, OHMWRIGHT_BUILD_TAG, kinds_text)                                \
  extern "C" {                                                                                                  \
  OHMWRIGHT_CORE_API const ohmwright::PluginTable* ohmwright_plugin_entry_v2();                                 \
  const ohmwright::PluginTable* ohmwright_plugin_entry_v2() {                                                   \
    static const ohmwright::PluginTable table = {sizeof(ohmwright::PluginTable), count, create,                 \
                                                 [](ohmwright::Kind* kind) { delete kind; }, nullptr};          \
    return &table;                                                                                              \
  }                                                                                                             \
  }

/// The same for a plugin that has no kind of its own and reads kind files: `create_from` is a function
/// `Kind* (const ValueNode& document, std::vector<Problem>& problems)` as `PluginTable::create_kind_from` says.
#define OHMWRIGHT_KIND_FILE_PLUGIN(create_from)                                                            \
  OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi, OHMWRIGHT_BUILD_TAG, "*.kind.json")                        \
  extern "C" {                                                                                             \
  OHMWRIGHT_CORE_API const ohmwright::PluginTable* ohmwright_plugin_entry_v2();                            \
  const ohmwright::PluginTable* ohmwright_plugin_entry_v2() {                                              \
    static const ohmwright::PluginTable table = {sizeof(ohmwright::PluginTable), 0, nullptr,               \
                                                 [](ohmwright::Kind* kind) { delete kind; }, create_from}; \
    return &table;                                                                                         \
  }                                                                                                        \
  }
