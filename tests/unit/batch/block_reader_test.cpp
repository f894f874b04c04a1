// Blocks hold every line once, wherever shards begin and whatever was read before.

#include <random>

#include <gtest/gtest.h>

#include <ohmwright/batch/block_reader.hpp>
#include <ohmwright/batch/strict_line.hpp>
#include <ohmwright/quantity/error.hpp>

#include "temporary_folder.hpp"

namespace ohmwright::batch {
namespace {

struct Gathered {
  std::string lines;
  std::vector<InputPosition> ends;
  std::vector<std::uint64_t> first_lines;
  std::vector<std::string> troubles;
};

Gathered gather(const std::vector<InputFile>& files, const Shard& shard = {}, InputPosition from = {}) {
  Gathered all;
  BlockReader reader(files, ranges_of(files, shard), from);
  Block block;
  while (reader.next(block)) {
    all.lines += block.bytes.substr(0, block.size);
    all.ends.push_back(block.end);
    all.first_lines.push_back(block.begin.lines + 1);
    if (!block.trouble.empty()) all.troubles.push_back(block.trouble);
  }
  return all;
}

std::string many_lines(std::size_t count, unsigned seed) {
  std::mt19937 random(seed);
  std::string text;
  for (std::size_t i = 0; i < count; ++i)
    text += "{\"n\":" + std::to_string(i) + ",\"pad\":\"" + std::string(random() % 90, 'x') + "\"}\n";
  return text;
}

TEST(BlockReader, GivesAllLinesOnceInShardsOfAnyNumber) {
  const testing::TemporaryFolder folder;
  const std::string first = many_lines(9000, 1);
  const std::string second = many_lines(300, 2).substr(0, 12345);  // its last line has no end
  folder.write("a.jsonl", first);
  folder.write("b.jsonl", second);
  folder.write("c.jsonl", "");
  folder.write("notes.txt", "no lines of a batch");
  const std::vector<InputFile> files = batch_inputs({folder.path()});
  ASSERT_EQ(files.size(), 3U);
  const Gathered whole = gather(files);
  EXPECT_EQ(whole.lines, first + second);
  for (const std::uint64_t count : {2U, 3U, 7U, 64U}) {
    std::string joined;
    for (std::uint64_t index = 1; index <= count; ++index) joined += gather(files, {index, count}).lines;
    EXPECT_EQ(joined, first + second) << count;
  }
}

TEST(BlockReader, GoesOnWhereABlockEnded) {
  const testing::TemporaryFolder folder;
  const std::string text = many_lines(40000, 3);
  folder.write("a.jsonl", text);
  const std::vector<InputFile> files = batch_inputs({folder.path("a.jsonl")});
  const Gathered whole = gather(files);
  ASSERT_GT(whole.ends.size(), 1U);
  const Gathered rest = gather(files, {}, whole.ends[0]);
  EXPECT_EQ(rest.lines, text.substr(whole.ends[0].byte));
  EXPECT_EQ(rest.first_lines[0], whole.ends[0].lines + 1);
  EXPECT_TRUE(gather(files, {}, whole.ends.back()).lines.empty());
}

TEST(BlockReader, PassesOverALineWithoutEndAndTellsIt) {
  const testing::TemporaryFolder folder;
  folder.write("a.jsonl", "{}\n" + std::string(5'000'000, 'x') + "\n{\"last\":1}\n");
  const std::vector<InputFile> files = batch_inputs({folder.path("a.jsonl")});
  const Gathered all = gather(files);
  EXPECT_EQ(all.lines, "{}\n{\"last\":1}\n");
  EXPECT_EQ(all.troubles, std::vector<std::string>{long_line_text()});
  EXPECT_EQ(all.ends.back().lines, 3U);
}

TEST(BlockReader, TakesTheHeadOfATableInEveryShard) {
  const testing::TemporaryFolder folder;
  std::string rows;
  for (int i = 0; i < 500; ++i) rows += "s-" + std::to_string(i) + ",11 kohm\n";
  folder.write("a.csv", "id,resistance\n" + rows);
  const std::vector<InputFile> files = batch_inputs({folder.path()});
  std::string joined;
  for (std::uint64_t index = 1; index <= 3; ++index) {
    BlockReader reader(files, ranges_of(files, {index, 3}));
    Block block;
    while (reader.next(block)) {
      ASSERT_NE(block.head, nullptr);
      EXPECT_EQ(block.head->columns()[1].name, "resistance");
      joined += block.bytes.substr(0, block.size);
    }
  }
  EXPECT_EQ(joined, rows);
}

TEST(Shard, IsReadFromItsWords) {
  EXPECT_EQ(parse_shard("3/8").index, 3U);
  EXPECT_EQ(parse_shard("3/8").count, 8U);
  for (const char* text : {"", "3", "0/8", "9/8", "a/b", "1/8x", "-1/8", "1/"})
    EXPECT_THROW(parse_shard(text), InputError) << text;
}

TEST(TableHead, ReadsNamesAndUnits) {
  const TableHead head("id;resistance [kohm];at/degC;\"lot\"");
  ASSERT_EQ(head.columns().size(), 4U);
  EXPECT_EQ(head.separator(), ';');
  EXPECT_EQ(head.columns()[1].name, "resistance");
  EXPECT_EQ(head.columns()[1].unit, "kohm");
  EXPECT_EQ(head.columns()[2].name, "at");
  EXPECT_EQ(head.columns()[2].unit, "degC");
  EXPECT_EQ(head.columns()[3].name, "lot");
  EXPECT_THROW(TableHead("id,id"), InputError);
  EXPECT_THROW(TableHead("id,,lot"), InputError);
}

}  // namespace
}  // namespace ohmwright::batch
