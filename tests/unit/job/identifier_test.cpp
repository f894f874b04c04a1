#include <gtest/gtest.h>

#include <ohmwright/job/identifier.hpp>

namespace ohmwright {
namespace {

using job::identifier_of;
using job::is_identifier;
using job::milliseconds_of;
using job::time_text;

TEST(Identifier, IsOfVersionFourAndTheVariantOfItsStandard) {
  // RFC 9562, 5.4: the version is the high half of byte 6, the variant the two high bits of byte 8.
  std::array<std::uint8_t, 16> ones{};
  ones.fill(0xFF);
  EXPECT_EQ(identifier_of(ones), "ffffffff-ffff-4fff-bfff-ffffffffffff");
  EXPECT_EQ(identifier_of({}), "00000000-0000-4000-8000-000000000000");
  // RFC 9562, appendix A.3: an example of version 4.
  EXPECT_EQ(
      identifier_of({0x91, 0x91, 0x08, 0xf7, 0x52, 0xd1, 0x43, 0x20, 0x9b, 0xac, 0xf8, 0x47, 0xdb, 0x41, 0x48, 0xa8}),
      "919108f7-52d1-4320-9bac-f847db4148a8");
  EXPECT_TRUE(is_identifier("919108f7-52d1-4320-9bac-f847db4148a8"));
  for (const char* wrong : {"", "919108F7-52d1-4320-9bac-f847db4148a8", "919108f7052d1-4320-9bac-f847db4148a8",
                            "919108f7-52d1-4320-9bac-f847db4148a"})
    EXPECT_FALSE(is_identifier(wrong)) << wrong;
}

TEST(TimeText, IsThatOfTheSystemsOwnCalendar) {
  // date -u -d @N +%Y-%m-%dT%H:%M:%S.000Z
  EXPECT_EQ(time_text(0), "1970-01-01T00:00:00.000Z");
  EXPECT_EQ(time_text(1'000'000'000'000), "2001-09-09T01:46:40.000Z");
  EXPECT_EQ(time_text(1'709'210'096'789), "2024-02-29T12:34:56.789Z");
  EXPECT_EQ(time_text(-5), "1970-01-01T00:00:00.000Z");
}

TEST(TimeText, IsReadBack) {
  for (const std::int64_t at : {0LL, 1'709'210'096'789LL, 4'102'444'799'999LL})
    EXPECT_EQ(milliseconds_of(time_text(at)), at);
  for (const char* wrong : {"", "2023-02-29T00:00:00.000Z", "2024-01-01T24:00:00.000Z", "2024-01-01 00:00:00.000Z",
                            "2024-1-01T00:00:00.0000Z", "1969-12-31T23:59:59.999Z"})
    EXPECT_FALSE(milliseconds_of(wrong)) << wrong;
}

}  // namespace
}  // namespace ohmwright
