#include <cerrno>

#include <ohmwright/plugin/file_descriptor.hpp>

namespace ohmwright {

bool FileBytes::read(std::uint64_t offset, std::span<std::byte> into) const {
  if (offset > size_ || into.size() > size_ - offset) return false;
  while (!into.empty()) {
    const ::ssize_t got = ::pread(descriptor_, into.data(), into.size(), static_cast<::off_t>(offset));
    if (got < 0 && errno == EINTR) continue;
    if (got <= 0) return false;  // shorter than it was: somebody cut it meanwhile
    offset += static_cast<std::uint64_t>(got);
    into = into.subspan(static_cast<std::size_t>(got));
  }
  return true;
}

}  // namespace ohmwright
