#pragma once

#include <cstddef>
#include <cstdint>
#include <memory>
#include <vector>

#include <ohmwright/cycles/reading/byte_source.hpp>
#include <ohmwright/cycles/reading/line_buffer.hpp>

namespace ohmwright::cycles {

/// The most bytes of a log that is turned round: it has to be held whole.
inline constexpr std::size_t most_turned_bytes = 16U << 20U;

/// A log from its oldest row to its newest.
struct TurnedRound {
  std::unique_ptr<ByteSource> text;           ///< has a line, if an empty one, for each of the log
  std::uint64_t lines = 0;                    ///< of the log
  std::vector<std::uint64_t> too_long_lines;  ///< that are left out
};

/// The lines that `lines` still holds: the first `lines_before` as they stand, the others from the last to the first.
/// Throws InputError for a log of more than `most_turned_bytes`, with a way on.
TurnedRound turned_round(LineBuffer& lines, std::size_t lines_before);

}  // namespace ohmwright::cycles
