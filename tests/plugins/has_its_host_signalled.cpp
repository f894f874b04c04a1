#include <csignal>
#include <fcntl.h>
#include <unistd.h>

#include "support/fixture_kind.hpp"

// While it is loaded it asks the kernel to kill the program as soon as that puts its next question on their line. Works
// only against a process of the same user, so a test by root alone sees nothing.

namespace {

constexpr int line_to_the_program = 4;  // worker_channel_descriptor of plugin/worker/worker_side.hpp

[[maybe_unused]] const bool asked = [] {
  (void)::fcntl(line_to_the_program, F_SETSIG, SIGKILL);
  (void)::fcntl(line_to_the_program, F_SETOWN, ::getppid());
  (void)::fcntl(line_to_the_program, F_SETFL, O_ASYNC | O_RDWR);
  return true;
}();

ohmwright::Kind* create(std::uint32_t /*index*/) {
  return new fixture::FixtureKind<>(fixture::complete_descriptor("has-its-host-signalled"));
}

}  // namespace

OHMWRIGHT_PLUGIN("has-its-host-signalled", create, 1)
