#include <cstring>
#include <utility>

#include <ohmwright/batch/waiting_bytes.hpp>

namespace ohmwright::batch {

std::span<char> WaitingBytes::room_for(std::size_t count) {
  if (capacity_ - end_ < count) {
    const std::size_t kept = size();
    if (capacity_ - kept < count) {
      capacity_ = kept + count;
      // NOLINTNEXTLINE(cppcoreguidelines-avoid-c-arrays, modernize-avoid-c-arrays)
      auto larger = std::make_unique_for_overwrite<char[]>(capacity_);
      if (kept > 0) std::memcpy(larger.get(), memory_.get() + first_, kept);
      memory_ = std::move(larger);
    } else if (kept > 0) {
      std::memmove(memory_.get(), memory_.get() + first_, kept);
    }
    first_ = 0;
    end_ = kept;
  }
  return {memory_.get() + end_, count};
}

}  // namespace ohmwright::batch
