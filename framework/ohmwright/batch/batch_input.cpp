#include <algorithm>
#include <array>
#include <charconv>
#include <filesystem>
#include <fstream>
#include <limits>
#include <string_view>
#include <sys/stat.h>
#include <system_error>

#include <ohmwright/batch/batch_input.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/listing.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::batch {

namespace {

namespace fs = std::filesystem;

bool ends_in_one_of(const fs::path& path, std::span<const std::string_view> endings) {
  std::string name = path.filename().string();
  if (name.ends_with(".gz")) name.resize(name.size() - 3);
  return std::any_of(endings.begin(), endings.end(), [&](std::string_view ending) { return name.ends_with(ending); });
}

/// Whether the first bytes are none of gzip or UTF-16 (RFC 1952, 2.3.1; RFC 2781, 3.2).
bool starts_plainly(const std::string& path) {
  std::array<char, 2> first{};
  std::ifstream file(path, std::ios::binary);
  file.read(first.data(), first.size());
  const std::string_view magic(first.data(), static_cast<std::size_t>(file.gcount()));
  return magic != "\x1f\x8b" && magic != "\xff\xfe" && magic != "\xfe\xff";
}

InputFile described(const std::string& path) {
  InputFile file{path, path};
  if (path == "-") return {path, "standard input", false};
  struct stat status {};
  if (::stat(path.c_str(), &status) != 0)
    throw InputError(ohmwright::quoted(path) + " cannot be read: " + std::generic_category().message(errno));
  file.is_plain = S_ISREG(status.st_mode) && starts_plainly(path);
  file.bytes = S_ISREG(status.st_mode) ? static_cast<std::uint64_t>(status.st_size) : 0;
  constexpr std::int64_t nanoseconds = 1'000'000'000;
  file.changed_at = static_cast<std::int64_t>(status.st_mtim.tv_sec) * nanoseconds + status.st_mtim.tv_nsec;
  return file;
}

std::vector<std::string> files_in(const fs::path& folder, const std::string& not_this,
                                  std::span<const std::string_view> endings) {
  std::vector<std::string> paths;
  std::error_code error;
  for (const fs::directory_entry& entry : fs::recursive_directory_iterator(folder)) {
    if (!entry.is_regular_file() || !ends_in_one_of(entry.path(), endings)) continue;
    if (!not_this.empty() && fs::equivalent(entry.path(), not_this, error)) continue;
    paths.push_back(entry.path().string());
  }
  std::sort(paths.begin(), paths.end());
  if (paths.empty())
    throw InputError("the folder " + ohmwright::quoted(folder.string()) + " holds no file that ends in " +
                     one_of(endings) + ", perhaps with .gz");
  return paths;
}

/// `total` · `index` / `count`, without a product that is too large.
std::uint64_t share(std::uint64_t total, std::uint64_t index, std::uint64_t count) {
  return total / count * index + total % count * index / count;
}

}  // namespace

std::vector<InputFile> batch_inputs(const std::vector<std::string>& paths, const std::string& not_this,
                                    std::span<const std::string_view> endings) {
  std::vector<InputFile> files;
  if (paths.empty()) return {described("-")};
  try {
    for (const std::string& path : paths) {
      if (path != "-" && fs::is_directory(path))
        for (const std::string& inside : files_in(path, not_this, endings)) files.push_back(described(inside));
      else
        files.push_back(described(path));
    }
  } catch (const fs::filesystem_error& error) {
    throw InputError(ohmwright::quoted(error.path1().string()) + " cannot be read: " + error.code().message());
  }
  return files;
}

Shard parse_shard(const std::string& text) {
  constexpr std::uint64_t most = 1'000'000;
  Shard shard{0, 0};
  const char* end = text.data() + text.size();
  const auto index = std::from_chars(text.data(), end, shard.index);
  if (index.ec == std::errc{} && index.ptr != end && *index.ptr == '/') {
    const auto count = std::from_chars(index.ptr + 1, end, shard.count);
    if (count.ec == std::errc{} && count.ptr == end && shard.index >= 1 && shard.index <= shard.count &&
        shard.count <= most)
      return shard;
  }
  throw InputError("--shard takes I/N, the I-th of N shards counted from 1, such as 1/8, got " +
                   ohmwright::quoted(text));
}

std::vector<ByteRange> ranges_of(const std::vector<InputFile>& files, const Shard& shard) {
  std::uint64_t total = 0;
  for (const InputFile& file : files) total += file.bytes;
  const std::uint64_t begin = share(total, shard.index - 1, shard.count);
  const std::uint64_t end = share(total, shard.index, shard.count);
  std::vector<ByteRange> ranges;
  std::uint64_t before = 0;
  for (const InputFile& file : files) {
    const auto within = [&](std::uint64_t place) { return std::clamp(place, before, before + file.bytes) - before; };
    constexpr std::uint64_t all = std::numeric_limits<std::uint64_t>::max();
    if (shard.count == 1)
      ranges.push_back({0, all});
    else if (file.is_plain)
      ranges.push_back({within(begin), within(end)});
    else
      ranges.push_back(before >= begin && before < end ? ByteRange{0, all} : ByteRange{});
    before += file.bytes;
  }
  return ranges;
}

}  // namespace ohmwright::batch
