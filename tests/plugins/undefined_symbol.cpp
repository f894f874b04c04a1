#include "support/fixture_kind.hpp"

// Nobody has this function. With lazy binding the library would load, and end the process at the first call.
extern "C" int ohmwright_test_function_of_nobody();

namespace {
ohmwright::Kind* create(std::uint32_t /*index*/) {
  if (ohmwright_test_function_of_nobody() != 0) return nullptr;
  return new fixture::FixtureKind<>(fixture::complete_descriptor("undefined-symbol"));
}
}  // namespace

OHMWRIGHT_PLUGIN("undefined-symbol", create, 1)
