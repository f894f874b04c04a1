#include <algorithm>
#include <cstring>
#include <utility>

#include <ohmwright/batch/block_reader.hpp>
#include <ohmwright/batch/quick_line.hpp>
#include <ohmwright/batch/strict_line.hpp>
#include <ohmwright/document/byte_order_mark.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::batch {

namespace {

constexpr std::size_t block_bytes = std::size_t{1} << 20U;
static_assert(longest_line < block_bytes);

std::uint64_t count_lines(std::string_view text) {
  std::uint64_t count = 0;
  const char* at = text.data();
  const char* const end = at + text.size();
  while (at != end) {
    const void* found = std::memchr(at, '\n', static_cast<std::size_t>(end - at));
    if (found == nullptr) break;
    ++count;
    at = static_cast<const char*>(found) + 1;
  }
  return count;
}

/// A table by its name, else by what its first line begins with.
bool is_table(const std::string& path, std::string_view first_line) {
  std::string_view name = path;
  if (name.ends_with(".gz")) name.remove_suffix(3);
  for (const std::string_view ending : {".csv", ".tsv"})
    if (name.ends_with(ending)) return true;
  for (const std::string_view ending : {".jsonl", ".ndjson", ".json"})
    if (name.ends_with(ending)) return false;
  const std::size_t first = first_line.find_first_not_of(" \t\r\n\xEF\xBB\xBF");
  return first != std::string_view::npos && first_line[first] != '{';
}

}  // namespace

BlockReader::BlockReader(const std::vector<InputFile>& files, std::vector<ByteRange> ranges, InputPosition from)
    : files_(files), ranges_(std::move(ranges)), from_(from) {
  at_.file = from.file;
}

/// Opens the file at hand and goes to where it begins; false when there is none left.
bool BlockReader::open_next() {
  while (at_.file < files_.size() && ranges_[at_.file].begin >= ranges_[at_.file].end) at_ = {at_.file + 1};
  if (at_.file >= files_.size()) return false;
  source_ = cycles::open_log(files_[at_.file].path);
  head_ = nullptr;
  head_trouble_.clear();
  waiting_.clear();
  source_ended_ = trouble_told_ = false;
  file_is_open_ = true;
  fill(longest_line);
  const std::string_view text = waiting_.text();
  const std::string_view first_line = text.substr(0, text.find('\n'));
  if (is_table(files_[at_.file].path, first_line)) take_head();
  const bool resumes = at_.file == from_.file && from_.byte > 0;
  skip_to(resumes ? from_.byte : ranges_[at_.file].begin);
  return true;
}

/// Reads on until `wanted` bytes wait, or the file ends.
void BlockReader::fill(std::size_t wanted) {
  while (!source_ended_ && waiting_.size() < wanted) {
    const std::size_t got = source_->read(waiting_.room_for(std::max(block_bytes / 4, wanted - waiting_.size())));
    waiting_.add(got);
    source_ended_ = got == 0;
  }
}

/// Takes the line that names the columns of a table.
void BlockReader::take_head() {
  const std::string_view text = waiting_.text();
  const std::size_t end = std::min(text.find('\n'), text.size());
  std::string_view line = text.substr(0, end);
  if (line.starts_with(byte_order_mark)) line.remove_prefix(byte_order_mark.size());
  while (!line.empty() && line.back() == '\r') line.remove_suffix(1);
  try {
    head_ = std::make_shared<const TableHead>(line);
  } catch (const InputError& error) {
    head_trouble_ = error.what();
  }
  const std::size_t taken = std::min(end + 1, text.size());
  waiting_.take(taken);
  at_.byte = taken;
  at_.lines = 1;
}

/// Passes over all lines that begin before `byte`.
void BlockReader::skip_to(std::uint64_t byte) {
  bool at_line_start = true;
  while (at_.byte < byte || !at_line_start) {
    fill(block_bytes);
    const std::string_view text = waiting_.text();
    if (text.empty()) return;
    std::size_t passed = text.size();
    if (at_.byte + text.size() >= byte) {
      const std::size_t last_before = byte > at_.byte ? static_cast<std::size_t>(byte - at_.byte) - 1 : 0;
      const std::size_t line_end = text.find('\n', last_before);
      if (line_end != std::string_view::npos) passed = line_end + 1;
    }
    const std::string_view gone = text.substr(0, passed);
    at_line_start = gone.back() == '\n';
    at_.lines += count_lines(gone);
    at_.byte += passed;
    waiting_.take(passed);
  }
}

/// Bytes of the whole lines that wait and belong to the range, 0 where a line is longer than a block.
std::size_t BlockReader::lines_to_take() {
  const std::string_view text = waiting_.text();
  const std::uint64_t end = ranges_[at_.file].end;
  std::size_t within = std::min(text.size(), block_bytes);
  if (end - at_.byte <= within) {  // the line that holds the last byte of the range is the last
    const std::size_t line_end = text.find('\n', static_cast<std::size_t>(end - at_.byte) - 1);
    if (line_end != std::string_view::npos) return line_end + 1;
  } else if (const std::size_t line_end = text.rfind('\n', within - 1); line_end != std::string_view::npos) {
    return line_end + 1;
  }
  return source_ended_ && text.size() <= block_bytes ? text.size() : 0;
}

void BlockReader::give(std::size_t count, Block& block) {
  const std::string_view lines = waiting_.text().substr(0, count);
  block.number = number_++;
  block.file = files_[at_.file].name;
  block.begin = at_;
  block.head = head_;
  block.bytes.assign(lines);
  block.bytes.append(bytes_behind_line, ' ');
  block.size = count;
  block.is_cut_short = false;
  block.trouble.clear();
  waiting_.take(count);
  at_.byte += count;
  at_.lines += count_lines(lines) + (count > 0 && lines.back() != '\n' ? 1U : 0U);
  block.end = at_;
}

void BlockReader::give_trouble(std::string text, Block& block) {
  give(0, block);
  block.trouble = std::move(text);
}

void BlockReader::skip_long_line(Block& block) {
  give_trouble(long_line_text(), block);
  while (true) {
    const std::string_view text = waiting_.text();
    const std::size_t end = text.find('\n');
    const std::size_t gone = end == std::string_view::npos ? text.size() : end + 1;
    waiting_.take(gone);
    at_.byte += gone;
    if (end != std::string_view::npos) break;
    fill(block_bytes);
    if (waiting_.empty()) break;
  }
  ++at_.lines;
  block.end = at_;
}

bool BlockReader::next(Block& block) {
  while (true) {
    if (!file_is_open_ && !open_next()) return false;
    if (at_.byte < ranges_[at_.file].end && head_trouble_.empty()) {
      fill(block_bytes + longest_line);
      if (!waiting_.empty()) {
        const std::size_t count = lines_to_take();
        if (count > 0)
          give(count, block);
        else
          skip_long_line(block);
        return true;
      }
    }
    if (!std::exchange(trouble_told_, true)) {
      const bool cut = source_->ended_early().has_value() && waiting_.empty();
      if (!head_trouble_.empty() && ranges_[at_.file].begin == 0) {
        at_.lines = 0;
        give_trouble(head_trouble_, block);
        block.end = {at_.file + 1};
        return true;
      }
      if (cut) {
        give_trouble("the compressed file is cut or damaged here; what follows is lost", block);
        block.is_cut_short = true;
        block.end = {at_.file + 1};
        return true;
      }
    }
    file_is_open_ = false;
    at_ = {at_.file + 1};
  }
}

}  // namespace ohmwright::batch
