#include "support/fixture_kind.hpp"

// An alias that good.cpp has, written another way.
namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<>(fixture::complete_descriptor("other-part", {"Well-made part"}));
}
}  // namespace

OHMWRIGHT_PLUGIN("other-part\tWell-made part", create, 1)
