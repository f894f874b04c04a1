#include <ohmwright/component/plugin_entry.hpp>

OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi, OHMWRIGHT_BUILD_TAG, "no-entry")
