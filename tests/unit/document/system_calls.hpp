#pragma once

#include <cstddef>
#include <cstdint>
#include <initializer_list>
#include <linux/filter.h>
#include <linux/seccomp.h>
#include <sys/prctl.h>
#include <unistd.h>
#include <vector>

namespace ohmwright::testing {

/// What becomes of a system call of this process from now on.
inline constexpr std::uint32_t kill_at_call = SECCOMP_RET_KILL_PROCESS;
inline constexpr std::uint32_t fail_with(int error) {
  return SECCOMP_RET_ERRNO | (static_cast<std::uint32_t>(error) & SECCOMP_RET_DATA);
}

/// Meets one of the system calls `numbers`, if all of `bits` are set in its argument number `argument`, with `answer`.
/// There is no way back: for children only. False where the system has no such filters.
inline bool answer_calls(std::initializer_list<long> numbers, std::uint32_t answer, unsigned argument = 0,
                         std::uint32_t bits = 0) {
  std::vector<sock_filter> program;
  for (const long number : numbers) {
    program.push_back(BPF_STMT(BPF_LD | BPF_W | BPF_ABS, offsetof(seccomp_data, nr)));
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, static_cast<std::uint32_t>(number), 0, 4));
    // The low half of the argument (little-endian).
    program.push_back(
        BPF_STMT(BPF_LD | BPF_W | BPF_ABS, static_cast<std::uint32_t>(offsetof(seccomp_data, args) + argument * 8U)));
    program.push_back(BPF_STMT(BPF_ALU | BPF_AND | BPF_K, bits));
    program.push_back(BPF_JUMP(BPF_JMP | BPF_JEQ | BPF_K, bits, 0, 1));
    program.push_back(BPF_STMT(BPF_RET | BPF_K, answer));
  }
  program.push_back(BPF_STMT(BPF_RET | BPF_K, SECCOMP_RET_ALLOW));
  const sock_fprog filter{static_cast<unsigned short>(program.size()), program.data()};
  return ::prctl(PR_SET_NO_NEW_PRIVS, 1, 0, 0, 0) == 0 && ::prctl(PR_SET_SECCOMP, SECCOMP_MODE_FILTER, &filter) == 0;
}

}  // namespace ohmwright::testing
