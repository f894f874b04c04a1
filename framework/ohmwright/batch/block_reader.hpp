#pragma once

#include <cstdint>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

#include <ohmwright/batch/batch_input.hpp>
#include <ohmwright/batch/csv_rows.hpp>
#include <ohmwright/batch/waiting_bytes.hpp>
#include <ohmwright/cycles/reading/byte_source.hpp>

namespace ohmwright::batch {

/// A place between two lines of the input.
struct InputPosition {
  std::size_t file = 0;
  std::uint64_t byte = 0;   ///< of its text, decoded
  std::uint64_t lines = 0;  ///< before it

  friend bool operator==(const InputPosition&, const InputPosition&) = default;
};

/// Whole lines of one file, to be judged by one thread.
struct Block {
  std::uint64_t number = 0;  ///< blocks of a run are counted from 0
  std::string_view file;     ///< how records call it
  InputPosition begin;
  InputPosition end;
  std::shared_ptr<const TableHead> head;  ///< null: lines of JSON
  std::string bytes;                      ///< the lines, and `bytes_behind_line` blanks behind them
  std::size_t size = 0;                   ///< of the lines
  bool is_cut_short = false;              ///< what follows in this compressed file is lost
  std::string trouble;                    ///< said of the line `begin.lines + 1`, in place of lines
};

/// Cuts the input into blocks. Its answer depends on the files and the ranges alone, never on what is asked when.
class BlockReader {
 public:
  /// Begins at `from`, takes of each file only what its range says. `files` must outlive it.
  BlockReader(const std::vector<InputFile>& files, std::vector<ByteRange> ranges, InputPosition from = {});

  /// The next block, in the memory of `block`; false at the end. Throws DocumentError for a file that cannot be read.
  bool next(Block& block);

 private:
  bool open_next();
  void fill(std::size_t wanted);
  void skip_to(std::uint64_t byte);
  void take_head();
  std::size_t lines_to_take();
  void give(std::size_t count, Block& block);
  void give_trouble(std::string text, Block& block);
  void skip_long_line(Block& block);

  const std::vector<InputFile>& files_;
  std::vector<ByteRange> ranges_;
  InputPosition from_;
  InputPosition at_;  ///< of the first byte that waits
  std::unique_ptr<cycles::ByteSource> source_;
  std::shared_ptr<const TableHead> head_;
  WaitingBytes waiting_;
  bool file_is_open_ = false;
  bool source_ended_ = false;
  bool trouble_told_ = false;
  std::string head_trouble_;
  std::uint64_t number_ = 0;
};

}  // namespace ohmwright::batch
