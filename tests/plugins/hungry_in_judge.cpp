#include <cstring>
#include <vector>

#include "support/misbehaving_plugin.hpp"

OHMWRIGHT_MISBEHAVING("hungry-in-judge", {
  findings.add(0, ohmwright::Outcome::within_limits, 0);
  std::vector<std::vector<char>> eaten;
  for (;;) eaten.emplace_back(std::size_t{16} << 20U, 'x');
})
