#include <csignal>

#include "support/fixture_kind.hpp"

namespace {
const int crashed = std::raise(SIGSEGV);

ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<>(fixture::complete_descriptor(crashed == 0 ? "crashes-in-loading" : "still-alive"));
}
}  // namespace

OHMWRIGHT_PLUGIN("crashes-in-loading", create, 1)
