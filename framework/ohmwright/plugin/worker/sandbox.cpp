#include <array>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <grp.h>
#include <linux/landlock.h>
#include <linux/seccomp.h>
#include <memory>
#include <sched.h>
#include <seccomp.h>
#include <string_view>
#include <sys/prctl.h>
#include <sys/resource.h>
#include <sys/syscall.h>
#include <unistd.h>

#include <ohmwright/plugin/file_descriptor.hpp>
#include <ohmwright/plugin/worker/sandbox.hpp>

namespace ohmwright {

namespace {

/// A filter of system calls that lets nothing through but what is named: what the kernel learns to do later stays shut.
class CallFilter {
 public:
  CallFilter() : context_(::seccomp_init(SCMP_ACT_ERRNO(EPERM)), &::seccomp_release) {}

  /// A call that this processor does not have is left out.
  void allow(int call) {
    if (is_there(call)) note(::seccomp_rule_add_array(context_.get(), SCMP_ACT_ALLOW, call, 0, nullptr));
  }
  /// Allowed where the argument of that index, masked, has that value.
  void allow_where(int call, unsigned argument, scmp_datum_t mask, scmp_datum_t value) {
    const scmp_arg_cmp condition{argument, SCMP_CMP_MASKED_EQ, mask, value};
    if (is_there(call)) note(::seccomp_rule_add_array(context_.get(), SCMP_ACT_ALLOW, call, 1, &condition));
  }
  /// As if the kernel did not know the call, so that callers take the older one.
  void hide(int call) {
    if (is_there(call)) note(::seccomp_rule_add_array(context_.get(), SCMP_ACT_ERRNO(ENOSYS), call, 0, nullptr));
  }

  bool load() { return context_ != nullptr && ok_ && ::seccomp_load(context_.get()) == 0; }

  /// As load, for threads as well that something else started: the kernel gives a filter to the one that asks alone.
  bool load_for_all_threads() {
    return context_ != nullptr && ::seccomp_attr_set(context_.get(), SCMP_FLTATR_CTL_TSYNC, 1) == 0 && load();
  }

 private:
  bool is_there(int call) const { return context_ != nullptr && call != __NR_SCMP_ERROR; }
  void note(int error) { ok_ = error == 0 && ok_; }

  std::unique_ptr<void, void (*)(scmp_filter_ctx)> context_;
  bool ok_ = true;
};

constexpr scmp_datum_t whole_argument = ~scmp_datum_t{0};

/// What computing, memory, threads, clocks and the line to the program ask of the kernel.
constexpr std::array calls_of_computing{SCMP_SYS(read),
                                        SCMP_SYS(readv),
                                        SCMP_SYS(write),
                                        SCMP_SYS(writev),
                                        SCMP_SYS(sendto),
                                        SCMP_SYS(recvfrom),
                                        SCMP_SYS(poll),
                                        SCMP_SYS(ppoll),
                                        SCMP_SYS(close),
                                        SCMP_SYS(lseek),
                                        SCMP_SYS(fstat),
                                        SCMP_SYS(mmap),
                                        SCMP_SYS(munmap),
                                        SCMP_SYS(mprotect),
                                        SCMP_SYS(mremap),
                                        SCMP_SYS(brk),
                                        SCMP_SYS(madvise),
                                        SCMP_SYS(membarrier),
                                        SCMP_SYS(futex),
                                        SCMP_SYS(set_robust_list),
                                        SCMP_SYS(rseq),
                                        SCMP_SYS(set_tid_address),
                                        SCMP_SYS(rt_sigaction),
                                        SCMP_SYS(rt_sigprocmask),
                                        SCMP_SYS(rt_sigreturn),
                                        SCMP_SYS(sigaltstack),
                                        SCMP_SYS(restart_syscall),
                                        SCMP_SYS(clock_gettime),
                                        SCMP_SYS(clock_getres),
                                        SCMP_SYS(clock_nanosleep),
                                        SCMP_SYS(nanosleep),
                                        SCMP_SYS(gettimeofday),
                                        SCMP_SYS(time),
                                        SCMP_SYS(times),
                                        SCMP_SYS(getrusage),
                                        SCMP_SYS(getcpu),
                                        SCMP_SYS(getrandom),
                                        SCMP_SYS(sched_yield),
                                        SCMP_SYS(sched_getaffinity),
                                        SCMP_SYS(sysinfo),
                                        SCMP_SYS(uname),
                                        SCMP_SYS(getpid),
                                        SCMP_SYS(getppid),
                                        SCMP_SYS(gettid),
                                        SCMP_SYS(getuid),
                                        SCMP_SYS(geteuid),
                                        SCMP_SYS(getgid),
                                        SCMP_SYS(getegid),
                                        SCMP_SYS(exit),
                                        SCMP_SYS(exit_group)};
/// And what loading a library asks beside these, which then come to an end.
constexpr std::array calls_of_loading{
    SCMP_SYS(stat),      SCMP_SYS(lstat),      SCMP_SYS(newfstatat), SCMP_SYS(statx),     SCMP_SYS(access),
    SCMP_SYS(faccessat), SCMP_SYS(faccessat2), SCMP_SYS(pread64),    SCMP_SYS(readlink),  SCMP_SYS(readlinkat),
    SCMP_SYS(getcwd),    SCMP_SYS(getdents64), SCMP_SYS(arch_prctl), SCMP_SYS(getrlimit), SCMP_SYS(dup)};
/// Of fcntl what looks at descriptors and copies them. Its other commands make the kernel signal a process of the
/// user's choice when something comes in on the line to the program (F_SETOWN, F_SETSIG, O_ASYNC by F_SETFL, F_NOTIFY,
/// F_SETLEASE): the line's other end would be killed by its own question. ioctl can do the same, and is not let
/// through.
constexpr std::array file_commands_of_loading{F_GETFD, F_SETFD, F_GETFL, F_DUPFD, F_DUPFD_CLOEXEC};
/// Of prctl what setting the second filter asks.
constexpr std::array process_commands_of_loading{PR_SET_NO_NEW_PRIVS, PR_SET_SECCOMP, PR_GET_SECCOMP};

void allow_computing(CallFilter& filter) {
  for (const int call : calls_of_computing) filter.allow(call);
#ifdef OHMWRIGHT_SANITIZED  // a sanitizer asks by pipes whether memory can be read
  for (const int call : {SCMP_SYS(pipe), SCMP_SYS(pipe2), SCMP_SYS(newfstatat)}) filter.allow(call);
#endif
  filter.allow_where(SCMP_SYS(clone), 0, CLONE_THREAD, CLONE_THREAD);  // a thread may be made, a process not
  filter.hide(SCMP_SYS(clone3));  // its flags lie in memory, where no filter sees them
  filter.allow_where(SCMP_SYS(tgkill), 0, whole_argument,
                     static_cast<scmp_datum_t>(::getpid()));  // abort() signals itself
  filter.allow_where(SCMP_SYS(prctl), 0, whole_argument, PR_SET_NAME);
}

bool filter_before_loading() {
  CallFilter filter;
  allow_computing(filter);
  for (const int call : calls_of_loading) filter.allow(call);
  for (const int command : file_commands_of_loading)
    filter.allow_where(SCMP_SYS(fcntl), 1, whole_argument, static_cast<scmp_datum_t>(command));
  for (const int command : process_commands_of_loading)
    filter.allow_where(SCMP_SYS(prctl), 0, whole_argument, static_cast<scmp_datum_t>(command));
  for (const scmp_datum_t operation : {scmp_datum_t{SECCOMP_SET_MODE_FILTER}, scmp_datum_t{SECCOMP_GET_ACTION_AVAIL}})
    filter.allow_where(SCMP_SYS(seccomp), 0, whole_argument, operation);
  constexpr auto changes = static_cast<scmp_datum_t>(O_ACCMODE | O_CREAT | O_TRUNC | O_APPEND);
  filter.allow_where(SCMP_SYS(open), 1, changes, O_RDONLY);
  filter.allow_where(SCMP_SYS(openat), 2, changes, O_RDONLY);
  filter.allow_where(SCMP_SYS(prlimit64), 2, whole_argument, 0);  // what its limits are; none is set
  return filter.load();
}

/// Where the libraries of the system lie; a folder that is not there is left out.
constexpr std::array<const char*, 5> folders_of_libraries{"/usr", "/lib", "/lib32", "/lib64", "/etc/ld.so.cache"};

void allow_reading(int ruleset, const char* path, bool is_folder) {
  const FileDescriptor place(::open(path, O_PATH | O_CLOEXEC));
  if (!place.is_open()) return;
  ::landlock_path_beneath_attr rule{};
  rule.parent_fd = place.number();
  rule.allowed_access = is_folder ? LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR
                                  : static_cast<std::uint64_t>(LANDLOCK_ACCESS_FS_READ_FILE);
  (void)::syscall(SYS_landlock_add_rule, ruleset, LANDLOCK_RULE_PATH_BENEATH, &rule, 0);
}

/// Nothing may be written below any folder, and only the system's libraries be read: what a plugin cannot read it can
/// give to nobody. A second lock beside the filter, which knows no paths.
bool lock_file_systems() {
  ::landlock_ruleset_attr handled{};
  handled.handled_access_fs = LANDLOCK_ACCESS_FS_EXECUTE | LANDLOCK_ACCESS_FS_WRITE_FILE |
                              LANDLOCK_ACCESS_FS_READ_FILE | LANDLOCK_ACCESS_FS_READ_DIR |
                              LANDLOCK_ACCESS_FS_REMOVE_DIR | LANDLOCK_ACCESS_FS_REMOVE_FILE |
                              LANDLOCK_ACCESS_FS_MAKE_CHAR | LANDLOCK_ACCESS_FS_MAKE_DIR | LANDLOCK_ACCESS_FS_MAKE_REG |
                              LANDLOCK_ACCESS_FS_MAKE_SOCK | LANDLOCK_ACCESS_FS_MAKE_FIFO |
                              LANDLOCK_ACCESS_FS_MAKE_BLOCK | LANDLOCK_ACCESS_FS_MAKE_SYM;
  const FileDescriptor ruleset(static_cast<int>(::syscall(SYS_landlock_create_ruleset, &handled, sizeof(handled), 0)));
  if (!ruleset.is_open()) return false;
  for (const char* folder : folders_of_libraries)
    allow_reading(ruleset.number(), folder, !std::string_view(folder).ends_with(".cache"));
#ifdef OHMWRIGHT_SANITIZED  // a sanitizer looks its own process up
  allow_reading(ruleset.number(), "/proc/self", true);
#endif
  return ::syscall(SYS_landlock_restrict_self, ruleset.number(), 0) == 0;
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
  allow_computing(filter);
  if (filter.load_for_all_threads()) return {};
  (void)filter.load();  // for this thread at least
  return {"files can be opened for reading"};
}

}  // namespace ohmwright
