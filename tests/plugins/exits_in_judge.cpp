#include <unistd.h>

#include "support/misbehaving_plugin.hpp"

OHMWRIGHT_MISBEHAVING("exits-in-judge", {
  findings.add(0, ohmwright::Outcome::within_limits, 0);
  ::_exit(0);
})
