#include "support/fixture_kind.hpp"

// Nothing is wrong with this one: the others differ from it in one thing each.
namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<>(fixture::complete_descriptor("good-part", {"well made part"}));
}
}  // namespace

OHMWRIGHT_PLUGIN("good-part\twell made part", create, 1)
