#include "support/fixture_kind.hpp"

// The stamp says that it reads kind files, the table has no function for it.
OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi, OHMWRIGHT_BUILD_TAG, "*.kind.json")

extern "C" OHMWRIGHT_CORE_API const ohmwright::PluginTable* ohmwright_plugin_entry_v2() {
  static const ohmwright::PluginTable table = {sizeof(ohmwright::PluginTable), 0, nullptr,
                                               [](ohmwright::Kind* kind) { delete kind; }, nullptr};
  return &table;
}
