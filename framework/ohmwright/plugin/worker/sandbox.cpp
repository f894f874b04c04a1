#include <array>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <grp.h>
#include <linux/landlock.h>
#include <memory>
#include <sched.h>
#include <seccomp.h>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <ohmwright/plugin/worker/sandbox.hpp>

namespace ohmwright {

namespace {

/// A filter of system calls, allowing whatever no rule refuses: a plugin computes, and what computing asks of the
/// kernel differs from one C library to the next.
class CallFilter {
 public:
  CallFilter() : context_(::seccomp_init(SCMP_ACT_ALLOW), &::seccomp_release) {}

  /// Refused with "not permitted"; a call that this processor does not have is left out.
  void refuse(int call) { add(SCMP_ACT_ERRNO(EPERM), call); }
  /// As if the kernel did not know the call, so that callers take the older one.
  void hide(int call) { add(SCMP_ACT_ERRNO(ENOSYS), call); }
  /// Refused where the argument of that index, masked, has that value.
  void refuse_where(int call, unsigned argument, scmp_datum_t mask, scmp_datum_t value) {
    add_where(call, scmp_arg_cmp{argument, SCMP_CMP_MASKED_EQ, mask, value});
  }
  /// Refused where the argument of that index has another value.
  void refuse_unless(int call, unsigned argument, scmp_datum_t value) {
    add_where(call, scmp_arg_cmp{argument, SCMP_CMP_NE, value, 0});
  }

  bool load() { return context_ != nullptr && ok_ && ::seccomp_load(context_.get()) == 0; }

 private:
  void add(std::uint32_t action, int call) {
    if (context_ != nullptr && call != __NR_SCMP_ERROR)
      ok_ = ::seccomp_rule_add_array(context_.get(), action, call, 0, nullptr) == 0 && ok_;
  }
  void add_where(int call, const scmp_arg_cmp& condition) {
    if (context_ != nullptr && call != __NR_SCMP_ERROR)
      ok_ = ::seccomp_rule_add_array(context_.get(), SCMP_ACT_ERRNO(EPERM), call, 1, &condition) == 0 && ok_;
  }

  std::unique_ptr<void, void (*)(scmp_filter_ctx)> context_;
  bool ok_ = true;
};

constexpr std::array calls_of_network{SCMP_SYS(socket), SCMP_SYS(socketpair), SCMP_SYS(connect), SCMP_SYS(bind),
                                      SCMP_SYS(listen), SCMP_SYS(accept),     SCMP_SYS(accept4)};
constexpr std::array calls_of_processes{SCMP_SYS(execve),
                                        SCMP_SYS(execveat),
                                        SCMP_SYS(fork),
                                        SCMP_SYS(vfork),
                                        SCMP_SYS(ptrace),
                                        SCMP_SYS(process_vm_readv),
                                        SCMP_SYS(process_vm_writev),
                                        SCMP_SYS(kill),
                                        SCMP_SYS(tkill),
                                        SCMP_SYS(pidfd_open),
                                        SCMP_SYS(pidfd_getfd),
                                        SCMP_SYS(pidfd_send_signal),
                                        SCMP_SYS(rt_sigqueueinfo),
                                        SCMP_SYS(setns),
                                        SCMP_SYS(unshare),
                                        SCMP_SYS(kcmp),
                                        SCMP_SYS(setrlimit),
                                        SCMP_SYS(prlimit64),
                                        SCMP_SYS(bpf),
                                        SCMP_SYS(perf_event_open),
                                        SCMP_SYS(io_uring_setup),
                                        SCMP_SYS(userfaultfd),
                                        SCMP_SYS(keyctl),
                                        SCMP_SYS(add_key),
                                        SCMP_SYS(request_key),
                                        SCMP_SYS(shmget),
                                        SCMP_SYS(shmat),
                                        SCMP_SYS(msgget),
                                        SCMP_SYS(semget),
                                        SCMP_SYS(mq_open),
                                        SCMP_SYS(chroot),
                                        SCMP_SYS(pivot_root),
                                        SCMP_SYS(mount),
                                        SCMP_SYS(umount2),
                                        SCMP_SYS(move_mount),
                                        SCMP_SYS(fsopen),
                                        SCMP_SYS(open_tree)};
constexpr std::array calls_that_change_files{
    SCMP_SYS(creat),     SCMP_SYS(truncate),  SCMP_SYS(rename),      SCMP_SYS(renameat),
    SCMP_SYS(renameat2), SCMP_SYS(unlink),    SCMP_SYS(unlinkat),    SCMP_SYS(mkdir),
    SCMP_SYS(mkdirat),   SCMP_SYS(rmdir),     SCMP_SYS(link),        SCMP_SYS(linkat),
    SCMP_SYS(symlink),   SCMP_SYS(symlinkat), SCMP_SYS(mknod),       SCMP_SYS(mknodat),
    SCMP_SYS(chmod),     SCMP_SYS(fchmod),    SCMP_SYS(fchmodat),    SCMP_SYS(chown),
    SCMP_SYS(fchown),    SCMP_SYS(lchown),    SCMP_SYS(fchownat),    SCMP_SYS(utime),
    SCMP_SYS(utimes),    SCMP_SYS(utimensat), SCMP_SYS(futimesat),   SCMP_SYS(setxattr),
    SCMP_SYS(lsetxattr), SCMP_SYS(fsetxattr), SCMP_SYS(removexattr), SCMP_SYS(open_by_handle_at)};

void refuse_opening_to_write(CallFilter& filter, int call, unsigned flags_at) {
  for (const int mode : {O_WRONLY, O_RDWR})
    filter.refuse_where(call, flags_at, O_ACCMODE, static_cast<scmp_datum_t>(mode));
  for (const int flag : {O_CREAT, O_TRUNC})
    filter.refuse_where(call, flags_at, static_cast<scmp_datum_t>(flag), static_cast<scmp_datum_t>(flag));
}

bool filter_before_loading() {
  CallFilter filter;
  for (const int call : calls_of_network) filter.refuse(call);
  for (const int call : calls_of_processes) filter.refuse(call);
  for (const int call : calls_that_change_files) filter.refuse(call);
  filter.refuse_where(SCMP_SYS(clone), 0, CLONE_THREAD, 0);  // a thread may be made, a process not
  filter.hide(SCMP_SYS(clone3));                             // its flags lie in memory, where no filter sees them
  filter.hide(SCMP_SYS(openat2));
  filter.refuse_unless(SCMP_SYS(tgkill), 0, static_cast<scmp_datum_t>(::getpid()));  // abort() signals itself
  refuse_opening_to_write(filter, SCMP_SYS(open), 1);
  refuse_opening_to_write(filter, SCMP_SYS(openat), 2);
  return filter.load();
}

/// Nothing may be written below any folder; reading stays. A second lock beside the filter, which knows paths.
bool lock_file_systems() {
  ::landlock_ruleset_attr handled{};
  handled.handled_access_fs = LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_WRITE_FILE |
                              LANDLOCK_ACCESS_FS_REMOVE_DIR | LANDLOCK_ACCESS_FS_REMOVE_FILE |
                              LANDLOCK_ACCESS_FS_MAKE_CHAR | LANDLOCK_ACCESS_FS_MAKE_DIR | LANDLOCK_ACCESS_FS_MAKE_REG |
                              LANDLOCK_ACCESS_FS_MAKE_SOCK | LANDLOCK_ACCESS_FS_MAKE_FIFO |
                              LANDLOCK_ACCESS_FS_MAKE_BLOCK | LANDLOCK_ACCESS_FS_MAKE_SYM;
  const auto ruleset = static_cast<int>(::syscall(SYS_landlock_create_ruleset, &handled, sizeof(handled), 0));
  if (ruleset < 0) return false;
  const bool locked = ::syscall(SYS_landlock_restrict_self, ruleset, 0) == 0;
  ::close(ruleset);
  return locked;
}

bool limit(__rlimit_resource resource, ::rlim_t most) {
  const ::rlimit value{most, most};
  return ::setrlimit(resource, &value) == 0;
}

/// Of root's rights nothing is needed. 65534 is nobody on every Linux system.
bool leave_root() {
  constexpr ::uid_t nobody = 65534;
  if (::geteuid() != 0) return true;
  return ::setgroups(0, nullptr) == 0 && ::setresgid(nobody, nobody, nobody) == 0 &&
         ::setresuid(nobody, nobody, nobody) == 0;
}

}  // namespace

std::vector<std::string> restrict_before_loading(std::size_t memory_bytes) {
  std::vector<std::string> missing;
  const auto need = [&](bool holds, const char* what) {
    if (!holds) missing.emplace_back(what);
  };
  need(leave_root(), "it still runs as root");
#ifndef OHMWRIGHT_SANITIZED  // a sanitizer maps terabytes
  need(limit(RLIMIT_AS, memory_bytes), "its memory has no limit");
#else
  (void)memory_bytes;
#endif
  need(limit(RLIMIT_CORE, 0), "it may write core files");
  need(limit(RLIMIT_FSIZE, 0), "files that it writes have no limit");
  std::signal(SIGXFSZ, SIG_IGN);  // a write past that limit fails; it does not end the process
  need(::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0, "it may gain rights");
  ::prctl(PR_SET_DUMPABLE, 0);
  need(lock_file_systems(), "landlock does not lock the file systems");
  need(filter_before_loading(), "seccomp filters no calls");
  return missing;
}

std::vector<std::string> restrict_after_loading() {
  CallFilter filter;
  for (const int call : {SCMP_SYS(open), SCMP_SYS(openat)}) filter.refuse(call);
  if (filter.load()) return {};
  return {"files can be opened for reading"};
}

}  // namespace ohmwright
