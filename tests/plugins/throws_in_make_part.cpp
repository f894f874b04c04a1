#include <stdexcept>

#include "support/fixture_kind.hpp"

namespace {
class ThrowingPart : public fixture::FixturePart {
 public:
  ThrowingPart() { throw std::length_error("too many leads"); }
};

ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<ThrowingPart>(fixture::complete_descriptor("throws-in-make-part"));
}
}  // namespace

OHMWRIGHT_PLUGIN("throws-in-make-part", create, 1)
