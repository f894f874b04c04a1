#include <stdexcept>

#include "support/fixture_kind.hpp"

namespace {
/// A type that only this library has: its text must be copied while the library is held.
class NoWish : public std::runtime_error {
 public:
  using std::runtime_error::runtime_error;
};

ohmwright::Kind* create(std::uint32_t /*index*/) { throw NoWish("no wish to be made"); }
}  // namespace

OHMWRIGHT_PLUGIN("throws-in-factory", create, 1)
