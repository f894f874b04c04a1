#include <cstring>
#include <fstream>
#include <string>
#include <zlib.h>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <ohmwright/quantity/error.hpp>

#include "read_log.hpp"

namespace ohmwright::cycles {
namespace {

using namespace testing_support;

std::string gzip(const std::string& text) {
  z_stream stream{};
  deflateInit2(&stream, 6, Z_DEFLATED, 15 + 16, 8, Z_DEFAULT_STRATEGY);
  std::string out(text.size() + 1000, '\0');
  std::string in = text;
  stream.next_in = reinterpret_cast<Bytef*>(in.data());
  stream.avail_in = static_cast<uInt>(in.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  deflate(&stream, Z_FINISH);
  out.resize(stream.total_out);
  deflateEnd(&stream);
  return out;
}

std::string rows(int from, int to) {
  std::string text;
  for (int i = from; i < to; ++i) text += std::to_string(1700000000 + i) + "," + std::to_string(i % 97) + ".5\n";
  return text;
}

TEST(Compressed, GzipInSeveralMembers) {
  const ReadLog log = read_log(gzip("time,power [W]\n" + rows(0, 50000)) + gzip(rows(50000, 60000)));
  ASSERT_EQ(log.rows.size(), 60000U);
  EXPECT_EQ(log.rows.back().time_second, 59999.0);
  EXPECT_EQ(log.troubles.total(), 0U);
}

TEST(Compressed, ACutIsSaidAndWhatStoodBeforeItIsRead) {
  const std::string whole = gzip("time,power [W]\n" + rows(0, 50000));
  const ReadLog log = read_log(whole.substr(0, whole.size() / 2));
  EXPECT_GT(log.rows.size(), 1000U);
  EXPECT_TRUE(log.says("compressed-log-cut"));
}

TEST(Compressed, DamageIsSaid) {
  std::string whole = gzip("time,power [W]\n" + rows(0, 50000));
  whole.replace(whole.size() / 2, 40, std::string(40, '\xff'));
  EXPECT_TRUE(read_log(whole).says("compressed-log-damaged"));
}

// A small file can hold any number of layers, and each takes its memory.
TEST(Compressed, MoreThanOnceIsRefused) {
  const std::string once = gzip("time,power [W]\n" + rows(0, 100));
  EXPECT_EQ(read_log(once).rows.size(), 100U);
  std::string layers = once;
  for (int i = 0; i < 3; ++i) {
    layers = gzip(layers);
    EXPECT_THAT([&] { read_log(layers); },
                ::testing::ThrowsMessage<DocumentError>(::testing::HasSubstr("is compressed by gzip more than once")));
  }
}

TEST(Compressed, Utf16OfBothOrders) {
  for (const bool big : {false, true}) {
    std::string text = big ? "\xfe\xff" : "\xff\xfe";
    for (const char c : std::string("time;T (\xB0"
                                    "C)\n2024-03-01 12:00:00;-18,5\n2024-03-01 12:01:00;-18,4\n")) {
      if (big) text += '\0';
      text += c;
      if (!big) text += '\0';
    }
    const ReadLog log = read_log(text);
    ASSERT_EQ(log.rows.size(), 2U);
    EXPECT_DOUBLE_EQ(log.value(0, cabinet), 273.15 - 18.5);
    EXPECT_EQ(find_finding(log.findings, "unit-written")->text("from"), "header");
  }
}

TEST(Files, ThatAreNoneAreRefused) {
  EXPECT_THAT([] { open_log("/nowhere/log.csv"); },
              ::testing::ThrowsMessage<DocumentError>("/nowhere/log.csv: not found"));
  EXPECT_THAT([] { open_log("/"); }, ::testing::ThrowsMessage<DocumentError>("/: is a folder; expected a file"));
  EXPECT_THROW(open_log(""), DocumentError);
}

}  // namespace
}  // namespace ohmwright::cycles
