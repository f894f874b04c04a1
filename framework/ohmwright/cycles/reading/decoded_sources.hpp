#pragma once

#include <algorithm>
#include <array>
#include <memory>
#include <span>
#include <string_view>

#include <ohmwright/cycles/reading/byte_source.hpp>

namespace ohmwright::cycles {

/// A source whose first two bytes were looked at and come again.
class PeekedSource : public ByteSource {
 public:
  explicit PeekedSource(std::unique_ptr<ByteSource> source) : source_(std::move(source)) {
    while (held_ < first_.size()) {
      const std::size_t got = source_->read(std::span(first_).subspan(held_));
      if (got == 0) break;
      held_ += got;
    }
  }

  std::string_view first_bytes() const { return {first_.data(), held_}; }

  std::size_t read(std::span<char> room) override {
    if (given_ == held_) return source_->read(room);
    const std::size_t taken = std::min(room.size(), held_ - given_);
    std::copy_n(first_.begin() + static_cast<std::ptrdiff_t>(given_), taken, room.begin());
    given_ += taken;
    return taken;
  }

  std::optional<std::string_view> ended_early() const override { return source_->ended_early(); }

 private:
  std::unique_ptr<ByteSource> source_;
  std::array<char, 2> first_{};
  std::size_t held_ = 0;
  std::size_t given_ = 0;
};

/// Decompresses gzip (RFC 1952), member after member. What follows a cut or damage is lost, what stood before it comes.
std::unique_ptr<ByteSource> gzip_source(std::unique_ptr<ByteSource> compressed);

/// Turns UTF-16 into UTF-8; what is no character becomes U+FFFD.
std::unique_ptr<ByteSource> utf16_source(std::unique_ptr<ByteSource> text, bool big_endian);

}  // namespace ohmwright::cycles
