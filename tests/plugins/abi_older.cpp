#include <ohmwright/component/plugin_entry.hpp>

OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi - 1, OHMWRIGHT_BUILD_TAG, "abi-older")
