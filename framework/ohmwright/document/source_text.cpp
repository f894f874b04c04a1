#include <algorithm>
#include <array>
#include <cerrno>
#include <fcntl.h>
#include <filesystem>
#include <sys/stat.h>
#include <system_error>

#include <ohmwright/document/open_file.hpp>
#include <ohmwright/document/source_text.hpp>
#include <ohmwright/document/wording.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright {

namespace {

constexpr std::size_t most_names_compared = 10'000;

[[noreturn]] void refuse(const std::string& path, std::string text) {
  throw DocumentError(name_of_source(path), {Problem{"", 0, std::move(text)}});
}

std::string too_long(unsigned long long bytes, std::size_t limit) {
  return "is " + size_in_words(bytes) + " long; a document has at most " + size_in_words(limit);
}

/// What to say of a path that is not there: the folder is missing, or the name that was probably meant.
std::string missing(const std::string& path) {
  namespace fs = std::filesystem;
  const fs::path wanted(path);
  const fs::path folder = wanted.has_parent_path() ? wanted.parent_path() : fs::path(".");
  std::error_code error;
  if (!fs::is_directory(folder, error)) return "not found: there is no folder " + ohmwright::quoted(folder.string());
  std::vector<std::string> names;
  for (fs::directory_iterator entry(folder, error), end; !error && entry != end && names.size() < most_names_compared;
       entry.increment(error))
    names.push_back(entry->path().filename().string());
  std::sort(names.begin(), names.end());
  const std::string name = wanted.filename().string();
  if (std::binary_search(names.begin(), names.end(), name + ".json"))
    return "not found; did you mean " + ohmwright::quoted(name + ".json") + "?";
  return "not found" + did_you_mean(name, names);
}

OpenFile open_to_read(const std::string& path) {
  if (path == "-") return OpenFile(::fcntl(STDIN_FILENO, F_DUPFD_CLOEXEC, 0));
  // O_NONBLOCK: opening a pipe that nobody writes to must not wait for ever.
  OpenFile file(::open(path.c_str(), O_RDONLY | O_CLOEXEC | O_NONBLOCK | O_NOCTTY));
  if (file.is_open()) ::fcntl(file.number(), F_SETFL, 0);
  return file;
}

void check_what_it_is(const std::string& path, const struct stat& status, std::size_t size_limit) {
  if (S_ISDIR(status.st_mode)) refuse(path, "is a folder; expected a file");
  if (path != "-" && (S_ISCHR(status.st_mode) || S_ISBLK(status.st_mode)))
    refuse(path, "is a device; expected a file (\"-\" reads standard input)");
  if (S_ISREG(status.st_mode) && static_cast<unsigned long long>(status.st_size) > size_limit)
    refuse(path, too_long(static_cast<unsigned long long>(status.st_size), size_limit));
}

std::string read_to_end(const std::string& path, const OpenFile& file, std::size_t size_limit) {
  std::string text;
  std::array<char, 65536> buffer{};
  while (true) {
    const ssize_t got = ::read(file.number(), buffer.data(), buffer.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) refuse(path, "cannot be read: " + std::generic_category().message(errno));
    if (got == 0) return text;
    text.append(buffer.data(), static_cast<std::size_t>(got));
    if (text.size() > size_limit) refuse(path, "is longer than a document may be, " + size_in_words(size_limit));
  }
}

}  // namespace

std::string name_of_source(const std::string& path) { return path == "-" ? "standard input" : path; }

std::string read_source(const std::string& path, std::size_t size_limit) {
  if (path.empty()) refuse("(no name)", "the name of the file is empty");
  const OpenFile file = open_to_read(path);
  if (!file.is_open()) {
    const int error = errno;
    if (error == ENOENT) refuse(path, missing(path));
    if (error == EACCES) refuse(path, "cannot be read: you have no permission to");
    refuse(path, "cannot be opened: " + std::generic_category().message(error));
  }
  struct stat status {};
  if (::fstat(file.number(), &status) != 0) refuse(path, "cannot be read: " + std::generic_category().message(errno));
  check_what_it_is(path, status, size_limit);
  std::string text = read_to_end(path, file, size_limit);
  if (text.empty() && S_ISFIFO(status.st_mode) && path != "-") refuse(path, "is a pipe that nobody writes to");
  return text;
}

}  // namespace ohmwright
