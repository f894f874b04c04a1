#include <csignal>

#include "support/misbehaving_plugin.hpp"

// As a null pointer does; raised, so that no compiler and no sanitizer sees something to mend.
OHMWRIGHT_MISBEHAVING("crashes-in-judge", {
  findings.add(0, ohmwright::Outcome::within_limits, 0);
  std::raise(SIGSEGV);
})
