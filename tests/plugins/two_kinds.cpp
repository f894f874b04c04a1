#include "support/fixture_kind.hpp"

// Two kinds in one library, nothing wrong.
namespace {
ohmwright::Kind* create(std::uint32_t index) {
  return new fixture::FixtureKind<>(index == 0 ? fixture::complete_descriptor("first-part")
                                               : fixture::complete_descriptor("second-part", {"second"}));
}
}  // namespace

OHMWRIGHT_PLUGIN("first-part\nsecond-part\tsecond\n", create, 2)
