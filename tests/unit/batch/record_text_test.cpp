#include <cstddef>
#include <cstdint>
#include <string>

#include <gtest/gtest.h>

#include <ohmwright/batch/record_text.hpp>

namespace ohmwright::batch {
namespace {

std::string as_json(std::string_view text) {
  std::string out = "before ";
  RecordText record(out);
  record.add_json(text);
  record.hand_over();
  return out;
}

// What is escaped, and how: RFC 8259, 7.
TEST(RecordText, EscapesWhereverACharacterStands) {
  for (std::size_t length = 1; length < 20; ++length) {
    for (std::size_t at = 0; at < length; ++at) {
      const std::string before(at, 'a');
      const std::string behind(length - at - 1, '~');
      EXPECT_EQ(as_json(before + '"' + behind), "before \"" + before + "\\\"" + behind + '"');
      EXPECT_EQ(as_json(before + '\\' + behind), "before \"" + before + "\\\\" + behind + '"');
      EXPECT_EQ(as_json(before + '\n' + behind), "before \"" + before + "\\u000a" + behind + '"');
      EXPECT_EQ(as_json(before + '\x1f' + behind), "before \"" + before + "\\u001f" + behind + '"');
    }
  }
}

TEST(RecordText, LeavesAllElseAsItIs) {
  for (int c = 0x20; c < 0x100; ++c) {
    if (c == '"' || c == '\\') continue;
    const std::string text(9, static_cast<char>(c));
    EXPECT_EQ(as_json(text), "before \"" + text + '"') << c;
  }
}

TEST(RecordText, HandsOverInOrderHoweverLongItGets) {
  std::string out;
  std::string expected;
  RecordText record(out);
  for (std::uint64_t i = 0; i < 3000; ++i) {
    record.add(R"({"n":)");
    record.add_number(i);
    expected += R"({"n":)" + std::to_string(i);
  }
  const std::string longer_than_its_room(5000, 'x');
  record.add(longer_than_its_room);
  record.add("end");
  record.hand_over();
  EXPECT_EQ(out, expected + longer_than_its_room + "end");
}

}  // namespace
}  // namespace ohmwright::batch
