// The secrets of a course against published figures.

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/course/secret.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::course {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::string refusal(const auto& act) {
  try {
    act();
  } catch (const Error& error) {
    return error.what();
  }
  return "no refusal";
}

TEST(Secret, HashesAsTheStandardSays) {
  // FIPS 180-4 with NIST's example values, SHA-256 of "abc" and of the empty text (from memory).
  EXPECT_EQ(sha256_text("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_text(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(Secret, DrawsAreTheKeyStreamOfChaCha20) {
  // RFC 8439, appendix A.1, test vector 1: key, nonce and counter 0; the stream begins 76 b8 e0 ad a0 f1 3d 90 (from
  // memory). Its first eight bytes, least significant first, make the first draw.
  DrawStream draws{SecretKey()};
  constexpr std::uint64_t bits = 0x903df1a0ade0b876U >> 11U;
  EXPECT_EQ(draws.uniform(), static_cast<double>(bits) / 9007199254740992.0);
}

TEST(Secret, TheSamePassphraseAndSetGiveTheSame) {
  const CourseSecret one("a passphrase", "timer\none-fault\n7");
  const CourseSecret same("a passphrase", "timer\none-fault\n7");
  EXPECT_EQ(one.name(3), same.name(3));
  EXPECT_EQ(one.seal("the key"), same.seal("the key"));
  EXPECT_NE(one.name(3), one.name(4));
  EXPECT_NE(one.name(3), CourseSecret("a passphrase", "timer\none-fault\n8").name(3));
  EXPECT_NE(one.name(3), CourseSecret("another phrase", "timer\none-fault\n7").name(3));
  EXPECT_EQ(one.draws("bench", 1).uniform(), same.draws("bench", 1).uniform());
  EXPECT_NE(one.draws("bench", 1).uniform(), one.draws("lesson", 1).uniform());
}

TEST(Secret, AKeyOpensWithItsPassphraseAlone) {
  const CourseSecret secret("a passphrase", "set");
  const std::string sealed = secret.seal("heater.open");
  EXPECT_THAT(sealed, Not(HasSubstr("heater")));
  EXPECT_EQ(opened(sealed, "a passphrase", "course.key"), "heater.open");
  EXPECT_THAT(refusal([&] { opened(sealed, "a passphrasf", "course.key"); }),
              HasSubstr("does not open: another passphrase, or the file was changed"));
  std::string changed = sealed;
  char& letter = changed[changed.size() / 2];
  letter = letter == 'A' ? 'B' : 'A';
  EXPECT_THAT(refusal([&] { opened(changed, "a passphrase", "course.key"); }), HasSubstr("course.key"));
  EXPECT_THAT(refusal([&] { opened("{}", "a passphrase", "course.key"); }), HasSubstr("course.key"));
  EXPECT_THAT(refusal([] { CourseSecret("short", "set"); }), HasSubstr("too short"));
}

TEST(Secret, TheLengthOfAKeyTellsNothing) {
  const CourseSecret secret("a passphrase", "set");
  EXPECT_EQ(secret.seal("heater.open").size(), secret.seal("thermostat.stuck-open and fan.winding-open").size());
}

}  // namespace
}  // namespace ohmwright::course
