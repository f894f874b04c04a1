#include "support/misbehaving_plugin.hpp"

OHMWRIGHT_MISBEHAVING("unknown-verdict-in-judge", { findings.add(0, static_cast<ohmwright::Outcome>(77), 0); })
