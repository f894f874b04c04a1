#include "support/fixture_kind.hpp"

namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) { return nullptr; }
}  // namespace

OHMWRIGHT_PLUGIN("null-kind", create, 1)
