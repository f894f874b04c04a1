#include <ohmwright/component/plugin_entry.hpp>

// A stamp is enough: nothing of it may run.
OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi + 1, OHMWRIGHT_BUILD_TAG, "abi-newer")
