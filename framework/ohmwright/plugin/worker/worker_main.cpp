// A process that runs one plugin from outside the installation. Started by ohmwright alone, with the plugin and a line
// to it among its open files; see worker_side.hpp.

#include <cstdlib>
#include <iostream>
#include <unistd.h>

#include <ohmwright/plugin/worker/worker_side.hpp>

#ifdef OHMWRIGHT_SANITIZED
// A signal ends this process as it ends one without sanitizers, and what looks for leaks at the end asks for rights
// that this process has given up.
// NOLINTBEGIN(bugprone-reserved-identifier): the sanitizer looks for a function of this name
extern "C" const char* __asan_default_options();
extern "C" const char* __asan_default_options() { return "handle_segv=0:detect_leaks=0"; }
// NOLINTEND(bugprone-reserved-identifier)
#endif

int main(int argc, char** argv) {
  if (argc != 2 || ::isatty(STDIN_FILENO) == 1) {
    std::cerr << "ohmwright-plugin-worker is started by ohmwright, not by hand\n";
    return 2;
  }
  return ohmwright::live_as_worker(static_cast<std::size_t>(std::strtoull(argv[1], nullptr, 10)));
}
