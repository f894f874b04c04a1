#include "course/record_file.hpp"

#include <cerrno>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <system_error>
#include <unistd.h>

#include <ohmwright/course/record.hpp>
#include <ohmwright/quantity/error.hpp>
#include <ohmwright/quantity/quoted.hpp>

namespace ohmwright::cli {

namespace {

constexpr ::mode_t record_mode = 0644;

}  // namespace

LockedRecord::LockedRecord(std::string path)
    : path_(std::move(path)), descriptor_(::open(path_.c_str(), O_RDWR | O_APPEND | O_CREAT | O_CLOEXEC, record_mode)) {
  if (descriptor_ < 0) refuse("cannot write the record");
  while (::flock(descriptor_, LOCK_EX) != 0)
    if (errno != EINTR) {
      const int trouble = errno;
      ::close(descriptor_);
      errno = trouble;
      refuse("cannot lock the record");
    }
}

LockedRecord::~LockedRecord() { ::close(descriptor_); }

std::string LockedRecord::text_from(std::size_t byte) {
  struct ::stat status {};
  if (::fstat(descriptor_, &status) != 0) refuse("cannot read the record");
  const auto size = static_cast<std::size_t>(status.st_size);
  if (size < byte)
    throw InputError("the record " + ohmwright::quoted(path_) +
                     " became shorter while you worked: somebody changed it; name another file with --record");
  std::string text(size - byte, '\0');
  for (std::size_t done = 0; done < text.size();) {
    const ::ssize_t got =
        ::pread(descriptor_, text.data() + done, text.size() - done, static_cast<::off_t>(byte + done));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) refuse("cannot read the record");
    done += static_cast<std::size_t>(got);
  }
  const std::size_t whole = course::whole_lines(text);
  if (whole == text.size() && !text.empty() && text.back() != '\n' && !course::last_link(text).empty()) {
    append("\n");  // an editor took the last line's end away
    return text + "\n";
  }
  if (whole < text.size() && ::ftruncate(descriptor_, static_cast<::off_t>(byte + whole)) != 0)
    refuse("cannot write the record");
  text.resize(whole);
  return text;
}

void LockedRecord::append(const std::string& line) {
  for (std::size_t done = 0; done < line.size();) {
    const ::ssize_t wrote = ::write(descriptor_, line.data() + done, line.size() - done);
    if (wrote < 0 && errno == EINTR) continue;
    if (wrote < 0) refuse("cannot write the record");
    done += static_cast<std::size_t>(wrote);
  }
  if (::fdatasync(descriptor_) != 0 && errno != EINVAL) refuse("cannot write the record");  // a pipe has no disk
}

void LockedRecord::refuse(const std::string& what) const {
  const std::string reason = std::system_category().message(errno);
  throw InputError(what + " " + ohmwright::quoted(path_) + ": " + reason + "; name another file with --record");
}

}  // namespace ohmwright::cli
