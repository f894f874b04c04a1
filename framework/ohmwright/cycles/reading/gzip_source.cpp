#include <array>
#include <zlib.h>

#include <ohmwright/cycles/reading/decoded_sources.hpp>
#include <ohmwright/quantity/error.hpp>

namespace ohmwright::cycles {

namespace {

constexpr int window_of_gzip = 15 + 16;  // zlib.h, inflateInit2: 32 KiB window, 16 for gzip's own header

class GzipSource : public ByteSource {
 public:
  explicit GzipSource(std::unique_ptr<ByteSource> compressed) : compressed_(std::move(compressed)) {
    if (::inflateInit2(&stream_, window_of_gzip) != Z_OK)
      throw Error(ErrorCategory::internal, "the decompressor did not start");
  }
  ~GzipSource() override { ::inflateEnd(&stream_); }
  GzipSource(const GzipSource&) = delete;
  GzipSource& operator=(const GzipSource&) = delete;

  std::size_t read(std::span<char> room) override {
    stream_.next_out = reinterpret_cast<Bytef*>(room.data());
    stream_.avail_out = static_cast<uInt>(room.size());
    while (!ended_ && stream_.avail_out == room.size()) step();
    return room.size() - stream_.avail_out;
  }

  std::optional<std::string_view> ended_early() const override { return trouble_; }

 private:
  void step() {
    if (stream_.avail_in == 0) refill();
    if (stream_.avail_in == 0) {
      ended_ = true;
      if (inside_member_) trouble_ = "compressed-log-cut";
      return;
    }
    inside_member_ = true;
    const int result = ::inflate(&stream_, Z_NO_FLUSH);
    if (result == Z_STREAM_END) {
      inside_member_ = false;
      after_member_ = true;
      ended_ = ::inflateReset(&stream_) != Z_OK;
    } else if (result != Z_OK && result != Z_BUF_ERROR) {
      ended_ = true;
      // Zeros or rubbish after a whole member are padding, as gzip itself takes them.
      if (!after_member_ || stream_.total_out > 0) trouble_ = "compressed-log-damaged";
    }
  }

  void refill() {
    const std::size_t got = compressed_->read(input_);
    stream_.next_in = reinterpret_cast<Bytef*>(input_.data());
    stream_.avail_in = static_cast<uInt>(got);
  }

  std::unique_ptr<ByteSource> compressed_;
  std::array<char, 65536> input_{};
  z_stream stream_{};
  bool inside_member_ = false;
  bool after_member_ = false;
  bool ended_ = false;
  std::optional<std::string_view> trouble_;
};

}  // namespace

std::unique_ptr<ByteSource> gzip_source(std::unique_ptr<ByteSource> compressed) {
  return std::make_unique<GzipSource>(std::move(compressed));
}

}  // namespace ohmwright::cycles
