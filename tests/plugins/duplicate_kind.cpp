#include "support/fixture_kind.hpp"

// The kind of good.cpp once more.
namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<>(fixture::complete_descriptor("good-part"));
}
}  // namespace

OHMWRIGHT_PLUGIN("good-part", create, 1)
