#include <array>
#include <cstdint>
#include <string>

#include <ohmwright/cycles/reading/decoded_sources.hpp>

namespace ohmwright::cycles {

namespace {

constexpr std::uint32_t replacement = 0xFFFD;

void append_utf8(std::uint32_t point, std::string& text) {
  const auto tail = [&](int shift) { text += static_cast<char>(0x80U | ((point >> shift) & 0x3FU)); };
  if (point < 0x80U) {
    text += static_cast<char>(point);
  } else if (point < 0x800U) {
    text += static_cast<char>(0xC0U | (point >> 6U));
    tail(0);
  } else if (point < 0x10000U) {
    text += static_cast<char>(0xE0U | (point >> 12U));
    tail(6);
    tail(0);
  } else {
    text += static_cast<char>(0xF0U | (point >> 18U));
    tail(12);
    tail(6);
    tail(0);
  }
}

class Utf16Source : public ByteSource {
 public:
  Utf16Source(std::unique_ptr<ByteSource> text, bool big_endian) : source_(std::move(text)), big_endian_(big_endian) {}

  std::size_t read(std::span<char> room) override {
    while (given_ == decoded_.size() && !ended_) decode_more();
    const std::size_t taken = std::min(room.size(), decoded_.size() - given_);
    std::copy_n(decoded_.begin() + static_cast<std::ptrdiff_t>(given_), taken, room.begin());
    given_ += taken;
    return taken;
  }

  std::optional<std::string_view> ended_early() const override { return source_->ended_early(); }

 private:
  void decode_more() {
    decoded_.clear();
    given_ = 0;
    const std::size_t got = source_->read(input_);
    ended_ = got == 0;
    if (ended_ && (odd_byte_ >= 0 || high_ != 0)) append_utf8(replacement, decoded_);
    for (std::size_t i = 0; i < got; ++i) {
      const int byte = static_cast<unsigned char>(input_[i]);
      if (odd_byte_ < 0) {
        odd_byte_ = byte;
      } else {
        take_unit(static_cast<std::uint32_t>(big_endian_ ? odd_byte_ * 256 + byte : byte * 256 + odd_byte_));
        odd_byte_ = -1;
      }
    }
  }

  void take_unit(std::uint32_t unit) {
    const bool low = unit >= 0xDC00U && unit < 0xE000U;
    if (high_ != 0 && low) {
      append_utf8(0x10000U + ((high_ - 0xD800U) << 10U) + (unit - 0xDC00U), decoded_);
      high_ = 0;
      return;
    }
    if (high_ != 0) append_utf8(replacement, decoded_);
    high_ = 0;
    if (unit >= 0xD800U && unit < 0xDC00U)
      high_ = unit;
    else
      append_utf8(low ? replacement : unit, decoded_);
  }

  std::unique_ptr<ByteSource> source_;
  bool big_endian_;
  std::array<char, 16384> input_{};
  std::string decoded_;
  std::size_t given_ = 0;
  std::uint32_t high_ = 0;
  int odd_byte_ = -1;
  bool ended_ = false;
};

}  // namespace

std::unique_ptr<ByteSource> utf16_source(std::unique_ptr<ByteSource> text, bool big_endian) {
  return std::make_unique<Utf16Source>(std::move(text), big_endian);
}

}  // namespace ohmwright::cycles
