#pragma once

#include <span>
#include <string>
#include <string_view>

namespace ohmwright {

/// Bytes as 0-9 and a-f, two for each.
std::string in_hexadecimal(std::span<const unsigned char> bytes);

/// BLAKE2b of these bytes with 256 bits, as 64 hexadecimal digits (RFC 7693, computed by libsodium): as hard to forge
/// as SHA-256, and some ten times quicker. What `b2sum --length 256` prints.
std::string blake2b_of(std::string_view bytes);

}  // namespace ohmwright
