#pragma once

#include <cstddef>
#include <memory>

#include <ohmwright/cycles/reading/byte_source.hpp>
#include <ohmwright/cycles/reading/line_buffer.hpp>

namespace ohmwright::cycles {

/// The most bytes of a log that is turned round: it has to be held whole.
inline constexpr std::size_t most_turned_bytes = 16U << 20U;

/// The lines that `lines` still holds: the first `lines_before` as they stand, the others from the last to the first.
/// Throws InputError for a log of more than `most_turned_bytes`, with a way on.
std::unique_ptr<ByteSource> turned_round(LineBuffer& lines, std::size_t lines_before);

}  // namespace ohmwright::cycles
