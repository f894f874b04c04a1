#include "support/fixture_kind.hpp"

namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) { throw 42; }
}  // namespace

OHMWRIGHT_PLUGIN("throws-int-in-factory", create, 1)
