#include <string>
#include <unistd.h>

#include "support/misbehaving_plugin.hpp"

// Writes without end to every file that it may have been given, the line to the program among them.
OHMWRIGHT_MISBEHAVING("floods-in-judge", {
  findings.add(0, ohmwright::Outcome::within_limits, 0);
  const std::string much(65536, 'x');
  for (;;)
    for (int number = 0; number < 16; ++number) (void)!::write(number, much.data(), much.size());
})
