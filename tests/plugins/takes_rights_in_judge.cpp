#include <fcntl.h>
#include <stdexcept>
#include <string>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include "support/misbehaving_plugin.hpp"

// Says by what it throws which of the rights it has that a plugin does not need.
OHMWRIGHT_MISBEHAVING("takes-rights-in-judge", {
  (void)findings;
  std::string has = "it may:";
  if (::socket(AF_INET, SOCK_STREAM, 0) >= 0) has += " open a socket";
  if (::open("/etc/passwd", O_RDONLY) >= 0) has += " read files";
  if (::open("/tmp/ohmwright-made-by-a-plugin", O_WRONLY | O_CREAT, 0600) >= 0) has += " write files";
  if (::mkdir("/tmp/ohmwright-folder-of-a-plugin", 0700) == 0) has += " make folders";
  const ::pid_t child = ::fork();
  if (child == 0) ::_exit(0);
  if (child > 0) has += " make processes";
  if (::kill(::getppid(), 0) == 0) has += " signal its parent";
  if (::geteuid() == 0) has += " act as root";
  throw std::runtime_error(has);
})
