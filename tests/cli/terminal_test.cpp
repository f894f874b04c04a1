// What was typed, or what a file is called, never reaches the terminal as anything but text, whatever it holds.

#include <filesystem>
#include <fstream>
#include <string>
#include <vector>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "program.hpp"

namespace ohmwright {
namespace {

using testing::Ran;
using testing::run_program;

/// An escape sequence, a line feed that would begin a message of its own, BEL, DEL, a C1 control (CSI), a byte that is
/// no UTF-8, and a code point that turns the text around.
const std::string hostile = "\x1b[31mred\nohmwright: all is well\a\x7f\u009b2J\xff\u202e";

bool is_text(const std::string& message) {
  for (std::size_t at = 0; at < message.size(); ++at) {
    const auto byte = static_cast<unsigned char>(message[at]);
    const auto next = at + 1 < message.size() ? static_cast<unsigned char>(message[at + 1]) : 0U;
    if ((byte < 0x20 && byte != '\n') || byte == 0x7F || byte == 0xFF) return false;
    if (byte == 0xC2 && next < 0xA0) return false;                                            // C1
    if (byte == 0xE2 && next == 0x80 && message.compare(at, 3, "\u202e") == 0) return false;  // turns text around
  }
  return true;
}

/// A refusal in text: every line of it is ours, and the hostile words stand in it escaped.
void expect_refused_in_text(const std::vector<std::string>& words, int exit_code = 2) {
  const Ran ran = run_program(words);
  std::string typed;
  for (const std::string& word : words) typed += word.substr(0, 40) + ' ';
  EXPECT_EQ(ran.exit_code, exit_code) << ::testing::PrintToString(typed) << ran.err;
  EXPECT_TRUE(is_text(ran.err)) << ::testing::PrintToString(ran.err);
  EXPECT_TRUE(is_text(ran.out)) << ::testing::PrintToString(ran.out);
  EXPECT_EQ(ran.err.find("\nohmwright: all is well"), std::string::npos) << ::testing::PrintToString(ran.err);
  EXPECT_EQ(ran.err.find("internal error"), std::string::npos) << ran.err;
  EXPECT_THAT(ran.err, ::testing::HasSubstr("\\x1b[31m")) << ::testing::PrintToString(typed);
}

TEST(Terminal, GetsNoControlCharacterOfAWord) {
  expect_refused_in_text({hostile});
  expect_refused_in_text({"--" + hostile});
  expect_refused_in_text({"kinds", hostile});
  expect_refused_in_text({"kinds", "--" + hostile});
  expect_refused_in_text({"kinds", "thermistor", hostile});
  expect_refused_in_text({"ratings", hostile});
  expect_refused_in_text({"vectors", hostile});
  expect_refused_in_text({"kinds", "--width", hostile});
  expect_refused_in_text({"kinds", "--colour", hostile});
  expect_refused_in_text({"check", hostile, "11k"});
  expect_refused_in_text({"check", "thermistor", hostile});
  expect_refused_in_text({"check", "thermistor", "--" + hostile, "11k"});
  expect_refused_in_text({"check", "thermistor", "11k", "--" + hostile + "=3"});
  expect_refused_in_text({"check", "thermistor", hostile + "=11k"});
  expect_refused_in_text({"check", "thermistor", "resistance=" + hostile});
  expect_refused_in_text({"check", "thermistor", "11k@" + hostile});
  expect_refused_in_text({"check", "thermistor", "11k", "--at", hostile});
  expect_refused_in_text({"check", "thermistor", "11k", "--at", "23" + hostile});
  expect_refused_in_text({"check", "thermistor", "11k", "--range", hostile});
  expect_refused_in_text({"check", "thermistor", "11k", "--ratings", hostile});
  expect_refused_in_text({"check", "thermistor", "11k", "--meter", hostile});
  expect_refused_in_text({"check", "thermistor", "11k", "--format", hostile});
  expect_refused_in_text({"check", "thermistor", "11k", "--confidence", hostile});
}

TEST(Terminal, GetsNoControlCharacterOfAPathThatIsNotThere) {
  for (const char* option : {"--ratings", "--meter", "--readings", "--series"})
    expect_refused_in_text({"check", "thermistor", "11k", option, "./" + hostile + ".json"});
  expect_refused_in_text({"ratings", "./" + hostile});
  expect_refused_in_text({"check", "thermistor", "OL", "--out", "/nowhere/" + hostile + "/a.json"});
}

TEST(Terminal, GetsNoControlCharacterOfAFolder) {
  std::string folder = "/tmp/ohmwright-terminal-XXXXXX";
  ASSERT_NE(::mkdtemp(folder.data()), nullptr);
  const std::string inside = folder + "/" + hostile + ".json";
  std::ofstream(inside) << R"({"kind": "defrost-sensor", "name": 5})";
  for (const char* option : {"--ratings", "--meter", "--readings", "--series"})
    expect_refused_in_text({"check", "thermistor", "11k", option, inside});
  expect_refused_in_text({"ratings", inside});
  const std::string plugin = folder + "/" + hostile + ".ohmplug";
  std::ofstream(plugin) << "no library";
  const Ran ran = run_program({"kinds", "--plugins", folder});
  EXPECT_EQ(ran.exit_code, 0);
  EXPECT_TRUE(is_text(ran.out)) << ::testing::PrintToString(ran.out);
  std::filesystem::create_directory(folder + "/" + hostile);
  expect_refused_in_text({"check", "thermistor", "OL", "--out", folder + "/" + hostile});
  std::filesystem::remove_all(folder);
}

TEST(Terminal, GetsNoControlCharacterOfTheEnvironment) {
  const Ran ran =
      run_program({"kinds", "nothing"}, {"OHMWRIGHT_PLUGIN_PATH=/nowhere/" + hostile, "LANGUAGE=" + hostile});
  EXPECT_EQ(ran.exit_code, 2);
  EXPECT_TRUE(is_text(ran.err)) << ::testing::PrintToString(ran.err);
}

}  // namespace
}  // namespace ohmwright
