#include <ohmwright/component/plugin_entry.hpp>

// All that does not fit is told at once.
OHMWRIGHT_PLUGIN_STAMP(ohmwright::plugin_abi + 1, "itanium libc++-abi1 plain-containers c++202002L boost107400 ptr8",
                       "Every Thing\tan alias\t\nsecond")
