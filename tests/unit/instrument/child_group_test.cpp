// A program that was started for its readings does not outlive who reads them, whatever ends the reading.

#include <array>
#include <cerrno>
#include <csignal>
#include <fcntl.h>
#include <stdexcept>
#include <unistd.h>

#include <gtest/gtest.h>

#include <ohmwright/instrument/child_group.hpp>

namespace ohmwright::instrument {
namespace {

bool is_there(::pid_t process) { return ::kill(process, 0) == 0 || errno != ESRCH; }

/// Whether the end of a pipe was reached, which it is once nobody holds its other end.
bool is_at_end(int end) {
  char byte = 0;
  return ::read(end, &byte, 1) == 0;
}

TEST(ChildGroup, IsEndedByAnExceptionWithWhatItStarted) {
  std::array<int, 2> ends{};
  ASSERT_EQ(::pipe2(ends.data(), O_CLOEXEC), 0);
  ::pid_t leader = 0;
  const auto start_and_fail = [&] {
    ChildGroup child;
    ASSERT_EQ(child.start({"sh", "-c", "sleep 600 & sleep 600"}, ends[1]), 0);
    leader = child.leader();
    ASSERT_TRUE(is_there(leader));
    throw std::runtime_error("what came after the start failed");
  };
  EXPECT_THROW(start_and_fail(), std::runtime_error);
  ::close(ends[1]);
  EXPECT_FALSE(is_there(leader)) << "ended, and waited for";
  EXPECT_TRUE(is_at_end(ends[0])) << "also what it had started itself";
  ::close(ends[0]);
}

TEST(ChildGroup, SaysWhyAProgramCannotBeStarted) {
  ChildGroup child;
  EXPECT_EQ(child.start({"no-such-program-here"}, STDOUT_FILENO), ENOENT);
  EXPECT_EQ(child.leader(), 0);
}

}  // namespace
}  // namespace ohmwright::instrument
