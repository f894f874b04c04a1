#include <cerrno>
#include <fcntl.h>
#include <string>
#include <sys/mman.h>
#include <sys/sendfile.h>
#include <system_error>

#include <ohmwright/plugin/plugin_error.hpp>
#include <ohmwright/plugin/sealed_copy.hpp>

namespace ohmwright {

namespace {

[[noreturn]] void cannot_copy(const TrustedFile& file, int error) {
  throw PluginError(file.path, {"it cannot be copied into memory: " + std::generic_category().message(error)});
}

/// What debuggers and crash reports show instead of a path; the kernel takes up to 249 bytes.
std::string name_of_copy(const TrustedFile& file) { return file.path.filename().native().substr(0, 200); }

void copy_all(const TrustedFile& file, int into) {
  ::off_t offset = 0;
  while (static_cast<std::uint64_t>(offset) < file.size) {
    const std::size_t left = file.size - static_cast<std::uint64_t>(offset);
    const ::ssize_t copied = ::sendfile(into, file.descriptor.number(), &offset, left);
    if (copied < 0 && errno == EINTR) continue;
    if (copied < 0) cannot_copy(file, errno);
    if (copied == 0) throw PluginError(file.path, {"the file became shorter while it was read; try again"});
  }
}

}  // namespace

FileDescriptor sealed_copy(const TrustedFile& file) {
  if (file.size > largest_plugin) {
    throw PluginError(file.path, {"it has " + std::to_string(file.size) + " bytes, more than any plugin may have (" +
                                  std::to_string(largest_plugin) + ")"});
  }
  FileDescriptor copy(::memfd_create(name_of_copy(file).c_str(), MFD_CLOEXEC | MFD_ALLOW_SEALING));
  if (!copy.is_open()) cannot_copy(file, errno);
  copy_all(file, copy.number());
  if (::fcntl(copy.number(), F_ADD_SEALS, F_SEAL_SEAL | F_SEAL_SHRINK | F_SEAL_GROW | F_SEAL_WRITE) != 0)
    cannot_copy(file, errno);
  return copy;
}

}  // namespace ohmwright
