#include "support/fixture_kind.hpp"

// The table speaks of two kinds, the stamp of one.
OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi, OHMWRIGHT_BUILD_TAG, "wrong-table")

extern "C" OHMWRIGHT_CORE_API const ohmwright::PluginTable* ohmwright_plugin_entry_v2() {
  static const ohmwright::PluginTable table = {
      sizeof(ohmwright::PluginTable), 2,
      [](std::uint32_t) -> ohmwright::Kind* {
        return new fixture::FixtureKind<>(fixture::complete_descriptor("wrong-table"));
      },
      [](ohmwright::Kind* kind) { delete kind; }};
  return &table;
}
