#include <atomic>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <pthread.h>
#include <stdexcept>
#include <string>
#include <sys/ioctl.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/shm.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <sys/syscall.h>
#include <sys/wait.h>
#include <thread>
#include <unistd.h>

#include "support/misbehaving_plugin.hpp"

namespace {

bool is_refused(long result) { return result == -1 && errno == EPERM; }

/// Whether a file can be made to signal a process of its choice, or the process be opened to others. All is asked of
/// itself, so that nothing but the filter refuses it, whoever runs the test.
std::string taken_by_commands() {
  std::string has;
  ::f_owner_ex owner{F_OWNER_PID, ::getpid()};
  int on = 1;
  int itself = ::getpid();
  if (!is_refused(::fcntl(STDIN_FILENO, F_SETOWN, itself))) has += " name who is signalled of a file";
  if (!is_refused(::fcntl(STDIN_FILENO, F_SETOWN_EX, &owner))) has += " name who is signalled of a file, the new way";
  if (!is_refused(::fcntl(STDIN_FILENO, F_SETSIG, 0))) has += " choose the signal of a file";
  if (!is_refused(::fcntl(STDIN_FILENO, F_SETFL, O_ASYNC))) has += " have a file signal";
  if (!is_refused(::fcntl(STDIN_FILENO, F_NOTIFY, 0))) has += " have a folder signal";
  if (!is_refused(::fcntl(STDIN_FILENO, F_SETLEASE, F_UNLCK))) has += " have a lease signal";
  if (!is_refused(::ioctl(STDIN_FILENO, FIOASYNC, &on))) has += " have a file signal by ioctl";
  if (!is_refused(::ioctl(STDIN_FILENO, FIOSETOWN, &itself))) has += " name who is signalled by ioctl";
  if (!is_refused(::ioctl(STDIN_FILENO, SIOCSPGRP, &itself))) has += " name who is signalled by ioctl of a socket";
  if (!is_refused(::ioctl(STDIN_FILENO, TIOCSTI, ""))) has += " type into a terminal";
  if (!is_refused(::prctl(PR_SET_DUMPABLE, 1, 0, 0, 0))) has += " let others look into it";
  if (!is_refused(::prctl(PR_SET_PTRACER, PR_SET_PTRACER_ANY, 0, 0, 0))) has += " name who looks into it";
  if (!is_refused(::prctl(PR_SET_PDEATHSIG, 0, 0, 0, 0))) has += " be signalled at its parent's death";
  return has;
}

/// Keeps the rights of its start after the library was loaded, where the second filter is not for all threads.
std::atomic<bool> asked_to_look{false};
std::atomic<bool> has_looked{false};
std::atomic<bool> thread_can_open{false};

void start_a_thread() {
  std::thread([] {
    while (!asked_to_look) std::this_thread::yield();
    thread_can_open = ::open("/usr/bin/env", O_RDONLY) >= 0;
    has_looked = true;
  }).detach();
}

/// What it can do while it is loaded, when it may still read libraries.
std::string taken_while_loading() {
  start_a_thread();
  std::string has = taken_by_commands();
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

bool may_see_files() {
#ifdef OHMWRIGHT_SANITIZED
  return false;  // a sanitizer looks its own process up: there the filter lets it through
#else
  struct ::stat about {};
  return ::stat("/etc/passwd", &about) == 0;
#endif
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
  if (may_see_files()) has += " see which files there are";
  asked_to_look = true;
  while (!has_looked) std::this_thread::yield();
  if (thread_can_open) has += " read files of the system by a thread that it started while it was loaded";
  has += taken_by_commands();
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
