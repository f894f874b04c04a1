#pragma once

#include <unistd.h>
#include <utility>

#include <ohmwright/plugin/byte_source.hpp>

namespace ohmwright {

/// An open file of the operating system, closed with its owner.
class FileDescriptor {
 public:
  FileDescriptor() = default;
  explicit FileDescriptor(int number) : number_(number) {}
  FileDescriptor(FileDescriptor&& other) noexcept : number_(other.release()) {}
  FileDescriptor& operator=(FileDescriptor&& other) noexcept {
    std::swap(number_, other.number_);
    return *this;
  }
  FileDescriptor(const FileDescriptor&) = delete;
  FileDescriptor& operator=(const FileDescriptor&) = delete;
  ~FileDescriptor() {
    if (number_ >= 0) ::close(number_);
  }

  int number() const { return number_; }
  bool is_open() const { return number_ >= 0; }
  /// Gives the number away; nobody closes it any more.
  int release() { return std::exchange(number_, -1); }

 private:
  int number_ = -1;
};

/// The bytes of an open file, as it was when its size was taken.
class FileBytes final : public ByteSource {
 public:
  /// `descriptor` stays with the caller and must outlive this.
  FileBytes(int descriptor, std::uint64_t size) : descriptor_(descriptor), size_(size) {}

  std::uint64_t size() const override { return size_; }
  bool read(std::uint64_t offset, std::span<std::byte> into) const override;

 private:
  int descriptor_;
  std::uint64_t size_;
};

}  // namespace ohmwright
