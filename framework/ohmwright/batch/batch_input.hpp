#pragma once

#include <array>
#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace ohmwright::batch {

/// A file of lines.
struct InputFile {
  std::string path;  ///< "-": standard input
  std::string name;  ///< how records call it
  /// Whether its bytes are its lines; else (gzip, UTF-16, a pipe) they come out of a decoder and only in one go.
  bool is_plain = true;
  std::uint64_t bytes = 0;  ///< in the file system
  std::int64_t changed_at =
      0;  ///< nanoseconds of the system's clock; with `bytes` it tells whether it is still the same
};

/// How names of files of lines end.
inline constexpr std::array<std::string_view, 5> endings_of_lines{".jsonl", ".ndjson", ".json", ".csv", ".tsv"};

/// The files that `paths` name, in that order: a folder stands for all files of lines in it and below, by name
/// with one of the `endings`, each perhaps with .gz behind it, but for `not_this`. No path means standard input.
/// Throws InputError for a path that is not there, and a folder without such files.
std::vector<InputFile> batch_inputs(const std::vector<std::string>& paths, const std::string& not_this = {},
                                    std::span<const std::string_view> endings = endings_of_lines);

/// A part of the input: shard `index` of `count`, counted from 1.
struct Shard {
  std::uint64_t index = 1;
  std::uint64_t count = 1;
};

/// "3/8". Throws InputError for anything else.
Shard parse_shard(const std::string& text);

/// Bytes of a file that belong to a shard: lines whose first byte lies in them. Of a file that is not plain all or
/// none.
struct ByteRange {
  std::uint64_t begin = 0;
  std::uint64_t end = 0;
};

/// For each file the range of the shard; the ranges of all shards cover every line once, and in order.
std::vector<ByteRange> ranges_of(const std::vector<InputFile>& files, const Shard& shard);

}  // namespace ohmwright::batch
