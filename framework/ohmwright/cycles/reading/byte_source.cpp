#include <algorithm>
#include <cerrno>
#include <cstring>
#include <fcntl.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

#include <ohmwright/cycles/reading/byte_source.hpp>
#include <ohmwright/cycles/reading/decoded_sources.hpp>
#include <ohmwright/document/open_file.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cycles {

namespace {

[[noreturn]] void refuse(const std::string& path, std::string text) {
  throw DocumentError(name_of_source(path), {Problem{"", 0, std::move(text)}});
}

class FileSource : public ByteSource {
 public:
  FileSource(std::string path, OpenFile file) : path_(std::move(path)), file_(std::move(file)) {}

  std::size_t read(std::span<char> room) override {
    while (true) {
      const ssize_t got = ::read(file_.number(), room.data(), room.size());
      if (got >= 0) return static_cast<std::size_t>(got);
      if (errno != EINTR) refuse(path_, "cannot be read: " + std::generic_category().message(errno));
    }
  }

 private:
  std::string path_;
  OpenFile file_;
};

class MemorySource : public ByteSource {
 public:
  MemorySource(std::string_view bytes, std::size_t piece) : rest_(bytes), piece_(piece) {}

  std::size_t read(std::span<char> room) override {
    const std::size_t taken = std::min({rest_.size(), room.size(), piece_});
    std::copy_n(rest_.begin(), taken, room.begin());
    rest_.remove_prefix(taken);
    return taken;
  }

 private:
  std::string_view rest_;
  std::size_t piece_;
};

/// `source` as UTF-8, decompressed where it begins with gzip's magic number: once, for each layer takes its memory and
/// a small file can hold any number of them.
std::unique_ptr<ByteSource> plain_text_of(std::unique_ptr<ByteSource> source, const std::string& path) {
  constexpr std::string_view gzip_magic = "\x1f\x8b";
  auto start = std::make_unique<PeekedSource>(std::move(source));
  if (start->first_bytes() == gzip_magic) {
    start = std::make_unique<PeekedSource>(gzip_source(std::move(start)));
    if (start->first_bytes() == gzip_magic)
      refuse(path, "is compressed by gzip more than once; expected a table, compressed once at most: gunzip it first");
  }
  if (start->first_bytes() == "\xff\xfe") return utf16_source(std::move(start), false);
  if (start->first_bytes() == "\xfe\xff") return utf16_source(std::move(start), true);
  return start;
}

}  // namespace

std::unique_ptr<ByteSource> open_log(const std::string& path) {
  if (path.empty()) refuse("(no name)", "the name of the file is empty");
  // A log may be a pipe that its logger still writes to, so opening and reading may wait.
  OpenFile file(path == "-" ? ::fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, 0)
                            : ::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NOCTTY));
  if (!file.is_open() && errno == ENOENT) refuse(path, "not found");
  if (!file.is_open()) refuse(path, "cannot be opened: " + std::generic_category().message(errno));
  struct stat status {};
  if (::fstat(file.number(), &status) != 0) refuse(path, "cannot be read: " + std::generic_category().message(errno));
  if (S_ISDIR(status.st_mode)) refuse(path, "is a folder; expected a file");
  return plain_text_of(std::make_unique<FileSource>(path, std::move(file)), path);
}

std::unique_ptr<ByteSource> log_in_memory(std::string_view bytes, std::size_t piece) {
  return plain_text_of(std::make_unique<MemorySource>(bytes, std::max<std::size_t>(piece, 1)), "(in memory)");
}

}  // namespace ohmwright::cycles
