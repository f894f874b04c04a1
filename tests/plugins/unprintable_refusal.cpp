#include <stdexcept>

#include "support/fixture_kind.hpp"

namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) { throw std::runtime_error("made\nof \x1b[31mred"); }
}  // namespace

OHMWRIGHT_PLUGIN("unprintable-refusal", create, 1)
