// A process that runs one plugin from outside the installation. Started by ohmwright alone, with the plugin and a line
// to it among its open files; see worker_side.hpp.

#include <cstdlib>
#include <iostream>
#include <unistd.h>

#include <ohmwright/plugin/worker/worker_side.hpp>

int main(int argc, char** argv) {
  if (argc != 2 || ::isatty(STDIN_FILENO) == 1) {
    std::cerr << "ohmwright-plugin-worker is started by ohmwright, not by hand\n";
    return 2;
  }
  return ohmwright::live_as_worker(static_cast<std::size_t>(std::strtoull(argv[1], nullptr, 10)));
}
