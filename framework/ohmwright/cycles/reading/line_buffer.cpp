#include <algorithm>
#include <cstring>

#include <ohmwright/cycles/reading/line_buffer.hpp>
#include <ohmwright/document/byte_order_mark.hpp>

namespace ohmwright::cycles {

namespace {
constexpr std::size_t buffer_bytes = 163840;
}  // namespace

LineBuffer::LineBuffer(std::unique_ptr<ByteSource> source) : source_(std::move(source)), buffer_(buffer_bytes + slack) {
  while (!at_end_ && filled_ < head_bytes) fill_once();
  if (std::string_view(data(), filled_).starts_with(byte_order_mark)) start_ = byte_order_mark.size();
  const std::string_view whole(data(), filled_);
  const std::size_t last = whole.rfind('\n', std::max(head_bytes, start_ + 1) - 1);
  head_end_ = last == std::string_view::npos || last < start_ ? std::max(filled_, start_) : last + 1;
}

const char* LineBuffer::find_newline(const char* from) const {
  return static_cast<const char*>(std::memchr(from, '\n', static_cast<std::size_t>(data() + filled_ - from)));
}

void LineBuffer::fill_once() {
  const std::size_t got = source_->read({buffer_.data() + filled_, buffer_bytes - filled_});
  filled_ += got;
  at_end_ = got == 0;
  if (!at_end_) return;
  closed_by_us_ = filled_ > start_ && buffer_[filled_ - 1] != '\n';
  if (closed_by_us_) buffer_[filled_++] = '\n';  // there is always room: the slack
}

bool LineBuffer::refill() {
  while (true) {
    if (at_end_) return false;
    if (skips_) start_ = filled_;
    std::memmove(buffer_.data(), data() + start_, filled_ - start_);
    filled_ -= start_;
    start_ = 0;
    if (filled_ > longest_line) {
      skips_ = true;
      filled_ = 0;
    }
    fill_once();
    const char* const newline = find_newline(data());
    if (newline == nullptr) continue;
    if (skips_) {
      skips_ = false;
      line_too_long_ = true;
      ++line_;
      start_ = static_cast<std::size_t>(newline - data()) + 1;
      if (find_newline(data() + start_) == nullptr) continue;
    }
    return true;
  }
}

}  // namespace ohmwright::cycles
