#include <ohmwright/component/plugin_entry.hpp>

OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi, "itanium libc++-abi1 plain-containers c++202002L boost108100 ptr8",
                       "wrong-build-tag")
