#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <span>

#include <ohmwright/plugin/stamp_check.hpp>
#include <ohmwright/plugin/stamp_reader.hpp>

/// Any bytes are read as a plugin's file: a stamp or a reason comes out, and nothing else happens.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace ohmwright;
  const FoundStamp found = read_stamp(MemoryBytes(std::as_bytes(std::span(data, size))));
  if (found.stamp.has_value() == !found.refusal.empty()) std::abort();
  if (found.stamp) {
    const CheckedStamp checked = check_stamp(*found.stamp);
    const bool makes_kinds = !checked.kinds.empty() || checked.reads_kind_files;
    if (checked.reasons.empty() && !makes_kinds) std::abort();
  }
  return 0;
}
