#pragma once

#include <string>
#include <string_view>

#include <ohmwright/plugin/byte_source.hpp>

namespace ohmwright {

/// SHA-256 of all bytes of the source, as 64 hexadecimal digits (FIPS 180-4, computed by libsodium); empty when not all
/// of them can be read.
std::string sha256_of(const ByteSource& bytes);

/// Whether a text is a digest by SHA-256: 64 of 0-9 and a-f.
bool is_sha256(std::string_view text);

}  // namespace ohmwright
