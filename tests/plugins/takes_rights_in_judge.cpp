#include <csignal>
#include <fcntl.h>
#include <pthread.h>
#include <stdexcept>
#include <string>
#include <sys/ioctl.h>
#include <sys/resource.h>
#include <sys/shm.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <unistd.h>

#include "support/misbehaving_plugin.hpp"

namespace {

/// What it can do while it is loaded, when it may still read libraries.
std::string taken_while_loading() {
  std::string has;
  if (::open("/dev/tty", O_RDWR) >= 0) has += " open the terminal";
  if (::open("/etc/passwd", O_RDONLY) >= 0) has += " read files while it is loaded";
  if (::getsid(0) > 0 && ::getsid(0) != ::getpid()) has += " share a session";
  return has;
}
const std::string taken = taken_while_loading();

// Asked of itself, so that nothing but the filter refuses it, whoever runs the test.
bool may_signal_a_process() {
  ::siginfo_t information{};
  information.si_code = SI_QUEUE;
  return ::kill(::getpid(), 0) == 0 || ::syscall(SYS_rt_sigqueueinfo, ::getpid(), 0, &information) == 0 ||
         ::syscall(SYS_rt_tgsigqueueinfo, ::getpid(), ::getpid(), 0, &information) == 0;
}

}  // namespace

// Says by what it throws which of the rights it has that a plugin does not need.
OHMWRIGHT_MISBEHAVING("takes-rights-in-judge", {
  (void)findings;
  std::string has = "it may:" + taken;
  if (::socket(AF_INET, SOCK_STREAM, 0) >= 0) has += " open a socket";
  if (::open("/etc/passwd", O_RDONLY) >= 0) has += " read files";
  if (::open("/usr/bin/env", O_RDONLY) >= 0) has += " read files of the system";
  if (::open("/tmp/ohmwright-made-by-a-plugin", O_WRONLY | O_CREAT, 0600) >= 0) has += " write files";
  if (::mkdir("/tmp/ohmwright-folder-of-a-plugin", 0700) == 0) has += " make folders";
  const ::pid_t child = ::fork();
  if (child == 0) ::_exit(0);
  if (child > 0) has += " make processes";
  if (may_signal_a_process()) has += " signal a process";
  if (::setpriority(PRIO_PROCESS, 0, 19) == 0) has += " change priorities";
  if (::shmget(IPC_PRIVATE, 4096, IPC_CREAT | 0600) >= 0) has += " share memory";
  int waiting = 0;
  if (::ioctl(STDIN_FILENO, FIONREAD, &waiting) == 0) has += " control devices";
  if (::geteuid() == 0) has += " act as root";
  throw std::runtime_error(has);
})
