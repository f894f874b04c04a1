#pragma once

#include <csignal>
#include <pthread.h>

namespace ohmwright {

/// While it lives, a write past the limit on the size of files fails in this thread instead of ending the process, so
/// that the writer can clean up after itself.
class SizeSignalBlocked {
 public:
  SizeSignalBlocked() {
    sigemptyset(&signal_);
    sigaddset(&signal_, SIGXFSZ);
    pthread_sigmask(SIG_BLOCK, &signal_, &before_);
  }
  ~SizeSignalBlocked() {
    if (sigismember(&before_, SIGXFSZ) == 0) {
      const timespec no_wait{};
      while (sigtimedwait(&signal_, nullptr, &no_wait) > 0) {
      }
    }
    pthread_sigmask(SIG_SETMASK, &before_, nullptr);
  }
  SizeSignalBlocked(const SizeSignalBlocked&) = delete;
  SizeSignalBlocked& operator=(const SizeSignalBlocked&) = delete;

 private:
  sigset_t signal_{};
  sigset_t before_{};
};

}  // namespace ohmwright
