#include <cstddef>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/batch/waiting_bytes.hpp>

namespace ohmwright::batch {
namespace {

TEST(WaitingBytes, KeepsTheirOrderWhileTheyAreTakenAndAdded) {
  WaitingBytes waiting;
  std::string expected;
  char next = 'a';
  for (std::size_t round = 0; round < 200; ++round) {
    const std::size_t room = 1 + round * 7 % 50;
    const std::span<char> given = waiting.room_for(room);
    ASSERT_EQ(given.size(), room);
    const std::size_t filled = room - round % 2 * (room / 2);
    for (std::size_t i = 0; i < filled; ++i) {
      given[i] = next;
      expected += next;
      next = next == 'z' ? 'a' : static_cast<char>(next + 1);
    }
    waiting.add(filled);
    ASSERT_EQ(waiting.text(), expected);
    const std::size_t taken = expected.size() * (round % 4) / 3;
    waiting.take(taken);
    expected.erase(0, taken);
    ASSERT_EQ(waiting.size(), expected.size());
    ASSERT_EQ(waiting.text(), expected);
  }
  waiting.clear();
  EXPECT_TRUE(waiting.empty());
}

}  // namespace
}  // namespace ohmwright::batch
