#include <ohmwright/component/plugin_entry.hpp>

OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi, OHMWRIGHT_BUILD_TAG, "null-table")

extern "C" OHMWRIGHT_CORE_API const ohmwright::PluginTable* ohmwright_plugin_entry_v2() { return nullptr; }
